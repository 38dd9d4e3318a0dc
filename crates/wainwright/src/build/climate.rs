//! Section `climate`: air conditioner, heater and fan.

use crate::bounds;
use crate::document::{Choice, Faults, Flag, Options, Place, Section, record};

record! {
    /// Air conditioner, heater and fan.
    pub struct Climate: "the climate section" {
        /// The air conditioner.
        optional cooling: Cooling = Section::of();
        /// The heater.
        optional heating: Heating = Section::of();
        /// A fan that draws air through the box.
        optional fan: Fan = Section::of();
        /// Windows that stand open while the air conditioner does not run.
        optional open_windows: OpenWindows = Section::of();
        /// How much the report shows: its hours alone, or every step of the network as well.
        optional detail: ClimateDetail = Choice::of(), "hours";
    }
}

record! {
    /// The air conditioner. Its power is what its rating says, not what its part draws for the circuits.
    pub struct Cooling: "the air conditioner" {
        /// Its rated capacity, moisture counted.
        required capacity_btu_h: f64 = bounds::CAPACITY_BTU_H, 8000.0;
        /// Combined energy efficiency ratio of its label. Left out, the least that the law has allowed since 2014.
        optional ceer: f64 = bounds::CEER, 11.0;
        /// Power it takes in at its rating, in place of `ceer`.
        optional power_w: f64 = bounds::RATED_POWER_W, 720.0, aside;
        /// The temperature it is set to.
        optional setpoint_f: f64 = bounds::SETPOINT_F, 76.0;
        /// What it is.
        optional kind: CoolerKind = Choice::of(), "window";
        /// Share of its rated capacity that lowers the temperature; the rest takes out moisture.
        optional sensible_fraction: f64 = bounds::SENSIBLE_FRACTION, 0.75;
        /// Air it moves through the box. Left out, 312 cfm for each 12,000 BTU/h.
        optional airflow_cfm: f64 = bounds::FLOW_CFM, 200.0, aside;
        /// Share of its own exhaust that its condenser breathes: 0 in the open, 0.1 to 0.3 in a cabinet.
        optional recirculated_fraction: f64 = bounds::RECIRCULATED_FRACTION, 0.1;
        /// Does its fan run on while it does not cool?
        optional fan_always_on: bool = Flag, false;
        /// Share of what it gives that ducts bring into the room.
        optional duct_fraction: f64 = bounds::EFFICIENCY, 1.0;
        /// The hour at which it is switched on after a day in the sun, in local standard time.
        optional start_hour: u32 = bounds::HOUR, 15;
    }
}

record! {
    /// The heater.
    pub struct Heating: "the heater" {
        /// What it gives into the box.
        required capacity_btu_h: f64 = bounds::HEATING_BTU_H, 5000.0;
        /// The temperature it is set to.
        optional setpoint_f: f64 = bounds::SETPOINT_F, 64.0;
        /// What it is.
        optional kind: HeaterKind = Choice::of(), "propane_vented";
        /// Share of the fuel's or the current's heat that comes into the box.
        optional efficiency: f64 = bounds::EFFICIENCY, 0.78, aside;
        /// Hours of a cold night for which its energy is worked out.
        optional night_h: f64 = bounds::HOURS_PER_DAY, 12.0;
    }
}

record! {
    /// A fan that draws air through the box.
    pub struct Fan: "the fan" {
        /// Air it moves, by its label.
        required airflow_cfm: f64 = bounds::FLOW_CFM, 900.0;
        /// Share that a screen leaves: of the inlet's area where that is given, of the fan's air elsewhere.
        optional screen_fraction: f64 = bounds::SCREEN_FRACTION, 0.65;
        /// Open area through which air comes in.
        optional inlet_in2: f64 = bounds::OPENING_IN2, 200.0;
        /// The warmest that the box may be with the fan alone.
        optional limit_f: f64 = bounds::SETPOINT_F, 86.0;
    }
}

record! {
    /// Windows that stand open on both sides of the box.
    pub struct OpenWindows: "the open windows" {
        /// Open area on the side where air comes in; as much must stand open where it leaves.
        required area_ft2: f64 = bounds::AREA_FT2, 2.0;
        /// From the middle of the lower openings to that of the upper ones.
        optional height_in: f64 = bounds::HEIGHT_IN, 36.0;
    }
}

/// How much a cooling load shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ClimateDetail {
    /// Its hours.
    Hours,
    /// Every step of the network as well.
    Steps,
}

impl Options for ClimateDetail {
    const WORDS: &'static [(&'static str, Self)] = &[("hours", Self::Hours), ("steps", Self::Steps)];
}

/// What an air conditioner is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoolerKind {
    /// In a window or through a wall.
    Window,
    /// On the roof.
    Rooftop,
    /// On the floor, blowing out through one hose what it drew from the box.
    SingleHose,
}

impl Options for CoolerKind {
    const WORDS: &'static [(&'static str, Self)] =
        &[("window", Self::Window), ("rooftop", Self::Rooftop), ("single_hose", Self::SingleHose)];
}

/// What a heater is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeaterKind {
    /// Electric resistance.
    Electric,
    /// A heat pump.
    HeatPump,
    /// A furnace that burns propane and vents outside.
    PropaneVented,
    /// A propane burner that gives its exhaust into the box.
    PropaneUnvented,
}

impl Options for HeaterKind {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("electric", Self::Electric),
        ("heat_pump", Self::HeatPump),
        ("propane_vented", Self::PropaneVented),
        ("propane_unvented", Self::PropaneUnvented),
    ];
}

impl Climate {
    pub(super) fn check(&self, at: &Place, faults: &mut Faults) {
        if let Some(cooling) = &self.cooling {
            let place = at.key("cooling");
            if cooling.ceer.is_some() && cooling.power_w.is_some() {
                let detail = "cannot stand beside ceer; both say what it draws".to_owned();
                faults.contradiction(&place.key("power_w"), detail);
            }
            if cooling.airflow_cfm == Some(0.0) {
                let detail =
                    "must be above 0: a cooler without air cools nothing; leave it out for the usual"
                        .to_owned();
                faults.contradiction(&place.key("airflow_cfm"), detail);
            }
        }
        if let (Some(cooling), Some(heating)) = (&self.cooling, &self.heating)
            && let (Some(cool_f), Some(heat_f)) = (cooling.setpoint_f, heating.setpoint_f)
            && heat_f >= cool_f
        {
            let detail = format!(
                "must be below that of cooling, {cool_f}, or both run against each other; got {heat_f}"
            );
            let place = at.key("heating");
            faults.contradiction(&place.key("setpoint_f"), detail);
        }
    }
}
