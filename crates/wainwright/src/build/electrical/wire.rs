//! One wire: its size, its length and what surrounds it.

use crate::bounds;
use crate::document::{Among, Choice, Flag, record};
use crate::standards::ampacity::Material;
use crate::standards::size::{Areas, Size};

/// Temperature ratings of insulation that the tables have columns for [°C].
const INSULATION_C: Among = Among(&[60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0]);
/// Temperature ratings of terminals [°C].
const TERMINAL_C: Among = Among(&[60.0, 75.0, 90.0]);

record! {
    /// A pair of conductors, out and back.
    pub struct Wire: "a wire" {
        /// Its size: AWG, or thousands of circular mils with a k behind. Left out, the smallest that will do is taken.
        optional awg: Size = Choice::of(), "12";
        /// Length of the run, one way.
        required run_ft: f64 = bounds::RUN_FT, 16.0;
        /// Temperature its insulation is rated for.
        optional insulation_c: f64 = INSULATION_C, 90.0;
        /// Temperature of the air around it.
        optional ambient_f: f64 = bounds::AIR_F, 86.0;
        /// Conductors that carry current in the same bundle, cable or conduit, its own included.
        optional bundled: u32 = bounds::BUNDLED, 2;
        /// What it is made of.
        optional material: Material = Choice::of(), "copper";
        /// Temperature that the terminals at its ends are marked for. The wire carries no more than they bear.
        optional terminal_c: f64 = TERMINAL_C, 60.0;
        /// The areas its sizes go by: `awg`, or the smaller `marine` minimum that SAE and boat cable is made to.
        optional areas: Areas = Choice::of(), "awg";
        /// Is it a flexible cord?
        optional cord: bool = Flag, false;
        /// Does it run in a sheath or conduit?
        optional sheathed: bool = Flag, true;
        /// Does it pass beside an engine?
        optional engine_space: bool = Flag, false;
        /// Does it run close above a roof in the sun?
        optional sunlit_roof: bool = Flag, false;
        /// Does the current return through the chassis?
        optional chassis_return: bool = Flag, false;
        /// No smaller size than this is wanted.
        optional minimum_awg: Size = Choice::of(), "14", aside;
    }
}
