//! Section `solar`: solar arrays and their controller.

use serde_json::json;

use crate::bounds;
use crate::document::{Choice, Faults, Flag, Keyed, List, Map, Options, Place, Section, record};

use super::electrical::Wire;

record! {
    /// Solar arrays and the controller they feed.
    pub struct Solar: "the solar section" {
        /// The arrays.
        optional arrays: Keyed<SolarArray> = Map { of: Section::of(), most: bounds::MOST_SOURCES, example_id: "roof" };
        /// The charge controller.
        optional controller: Controller = Section::of();
        /// Lowest temperature the modules will see. Cold modules have the greatest voltage.
        optional lowest_f: f64 = bounds::AIR_F, 0.0;
        /// Greatest temperature of the cells in the sun. Hot modules have the least voltage.
        optional hottest_cell_f: f64 = bounds::AIR_F, 167.0;
    }
}

record! {
    /// One array: modules of one kind, in one plane. Voltages and currents are those of one module.
    pub struct SolarArray: "an array" {
        /// Rated power of all its modules together.
        required power_w: f64 = bounds::RATED_POWER_W, 400.0;
        /// Its tilt from the horizontal.
        optional tilt_deg: f64 = bounds::TILT_DEG, 0.0;
        /// The direction it faces, clockwise from north.
        optional azimuth_deg: f64 = bounds::AZIMUTH_DEG, 180.0;
        /// Does it stand on the ground, apart from the trailer, so that the trailer's heading does not turn it?
        optional on_ground: bool = Flag, false;
        /// How air reaches the back of its modules.
        optional mount: Mount = Choice::of(), "insulated";
        /// Open-circuit voltage of a module at 25 °C.
        optional voc_v: f64 = bounds::VOLTAGE_V, 24.3;
        /// Short-circuit current of a module.
        optional isc_a: f64 = bounds::RATING_A, 10.4;
        /// Voltage of a module at its greatest power.
        optional vmp_v: f64 = bounds::VOLTAGE_V, 20.4;
        /// Current of a module at its greatest power.
        optional imp_a: f64 = bounds::RATING_A, 9.8;
        /// Modules in series in a string.
        optional series: u32 = bounds::MODULES, 2;
        /// Strings in parallel.
        optional parallel: u32 = bounds::MODULES, 1;
        /// Change of the open-circuit voltage for each degree, as a share of it: -0.0028 for -0.28 %/°C.
        optional voc_fraction_per_c: f64 = bounds::VOLTAGE_FRACTION_PER_C, -0.0028;
        /// Change of the voltage at greatest power for each degree, as a share of it.
        optional vmp_fraction_per_c: f64 = bounds::VOLTAGE_FRACTION_PER_C, -0.004;
        /// Change of the power for each degree, as a share of it.
        optional power_fraction_per_c: f64 = bounds::POWER_FRACTION_PER_C, -0.0035;
        /// Share of the light that dirt keeps out.
        optional soiling_fraction: f64 = bounds::FRACTION, 0.02;
        /// Share of the power lost to unlike modules, wiring and connections, and to what a module has below its label.
        optional loss_fraction: f64 = bounds::FRACTION, 0.08;
        /// Share of the beam kept out by shade in each hour of the day, from midnight on: 24 figures.
        optional shade_by_hour: Vec<f64> = List { of: bounds::FRACTION, most: bounds::MOST_HOURS }, json!([0, 0, 0, 0, 0, 0.5, 0.3, 0.1, 0, 0, 0, 0, 0, 0, 0, 0, 0.1, 0.3, 0.5, 0, 0, 0, 0, 0]);
        /// Share of the beam kept out by shade in each month: 12 figures. Beside `shade_by_hour` both count.
        optional shade_by_month: Vec<f64> = List { of: bounds::FRACTION, most: bounds::MONTHS }, json!([0.2, 0.1, 0, 0, 0, 0, 0, 0, 0, 0, 0.1, 0.2]);
        /// Share of the sky that it sees past what stands around it.
        optional sky_view: f64 = bounds::FRACTION, 0.95;
        /// Groups of cells with a bypass diode each: a shaded group is lost whole. Left out, power falls as the light does.
        optional bypass_groups: u32 = bounds::BYPASS_GROUPS, 3;
        /// Greatest series fuse that the module's label allows.
        optional max_series_fuse_a: f64 = bounds::RATING_A, 20.0;
        /// Rating of the fuse in each string, where there is one.
        optional string_fuse_a: f64 = bounds::RATING_A, 15.0;
        /// Rating of the breaker or fuse of the whole array, where there is one.
        optional breaker_a: f64 = bounds::RATING_A, 20.0;
        /// The wire from the array to the controller.
        optional wire: Wire = Section::of();
    }
}

record! {
    /// The charge controller.
    pub struct Controller: "the controller" {
        /// What it is: `mppt` finds the greatest power, `pwm` joins the array to the battery.
        required kind: ControllerKind = Choice::of(), "mppt";
        /// Greatest current it gives to the battery.
        required max_output_a: f64 = bounds::RATING_A, 40.0;
        /// Greatest voltage it bears on the array's side.
        optional max_pv_v: f64 = bounds::VOLTAGE_V, 100.0;
        /// Greatest short-circuit current it bears on the array's side.
        optional max_pv_a: f64 = bounds::RATING_A, 40.0;
        /// Share of the power from the array that it gives on.
        optional efficiency: f64 = bounds::EFFICIENCY, 0.97;
        /// Power it takes for itself, day and night.
        optional standby_w: f64 = bounds::POWER_W, 0.5;
        /// Rating of the breaker or fuse between it and the battery.
        optional breaker_a: f64 = bounds::RATING_A, 50.0;
        /// The wire from the controller to the battery.
        optional wire: Wire = Section::of();
    }
}

/// How air reaches the back of a module.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mount {
    /// On an open rack.
    Open,
    /// A hand's breadth above a roof.
    Close,
    /// Flat on a roof, or glued to it.
    Insulated,
}

impl Options for Mount {
    const WORDS: &'static [(&'static str, Self)] =
        &[("open", Self::Open), ("close", Self::Close), ("insulated", Self::Insulated)];
}

/// What a controller is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ControllerKind {
    /// Maximum power point tracking.
    Mppt,
    /// Pulse width modulation.
    Pwm,
}

impl Options for ControllerKind {
    const WORDS: &'static [(&'static str, Self)] = &[("mppt", Self::Mppt), ("pwm", Self::Pwm)];
}

impl Solar {
    pub(super) fn check(&self, at: &Place, faults: &mut Faults) {
        for (id, array) in self.arrays.iter().flatten() {
            let place = at.key("arrays");
            let place = place.key(id);
            let lists = [
                ("shade_by_hour", &array.shade_by_hour, bounds::MOST_HOURS, "an hour"),
                ("shade_by_month", &array.shade_by_month, bounds::MONTHS, "a month"),
            ];
            for (name, list, count, each) in lists {
                if let Some(list) = list
                    && list.len() != count
                {
                    let detail = format!("must have {count} figures, one {each}; has {}", list.len());
                    faults.contradiction(&place.key(name), detail);
                }
            }
            let pairs =
                [("vmp_v", array.vmp_v, "voc_v", array.voc_v), ("imp_a", array.imp_a, "isc_a", array.isc_a)];
            for (name, working, limit_name, limit) in pairs {
                if let (Some(working), Some(limit)) = (working, limit)
                    && working >= limit
                {
                    let detail = format!("must be below {limit_name}, {limit}; got {working}");
                    faults.contradiction(&place.key(name), detail);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::build::fixture::{assert_contradiction, fault_with, lines_with};

    #[test]
    fn members_of_an_array_that_cannot_both_be_so_are_contradictions() {
        for (member, value, detail) in [
            ("vmp_v", json!(24), "must be below voc_v, 24; got 24"),
            ("imp_a", json!(10.5), "must be below isc_a, 10; got 10.5"),
            ("shade_by_hour", json!([0.5]), "must have 24 figures, one an hour; has 1"),
            ("shade_by_hour", json!([]), "must have 24 figures, one an hour; has 0"),
            ("shade_by_month", json!([0, 0, 0]), "must have 12 figures, one a month; has 3"),
        ] {
            let at = format!("/solar/arrays/roof/{member}");
            assert_contradiction(&at, value, &at, detail);
        }
    }

    #[test]
    fn several_mistakes_in_an_array_are_all_named() {
        assert_eq!(
            lines_with(&[
                ("/solar/arrays/roof/vmp_v", json!(25)),
                ("/solar/arrays/roof/imp_a", json!(11)),
                ("/solar/arrays/roof/shade_by_month", json!([30, 0])),
                ("/solar/arrays/roof/shade_by_hour", json!([0, 0])),
            ]),
            [
                "/solar/arrays/roof/vmp_v must be below voc_v, 24; got 25",
                "/solar/arrays/roof/imp_a must be below isc_a, 10; got 11",
                "/solar/arrays/roof/shade_by_month must have 12 figures, one a month; has 2",
                "/solar/arrays/roof/shade_by_month/0 must be 1 or less; got 30",
                "/solar/arrays/roof/shade_by_hour must have 24 figures, one an hour; has 2",
            ]
        );
    }

    #[test]
    fn what_could_not_be_read_is_at_fault_alone() {
        for (member, value) in [
            ("voc_v", json!("24")),
            ("vmp_v", json!(0)),
            ("isc_a", json!([])),
            ("imp_a", json!(true)),
            ("shade_by_hour", json!("none")),
            ("shade_by_month", json!({})),
            ("shade_by_month", json!(vec![0; 13])),
        ] {
            let at = format!("/solar/arrays/roof/{member}");
            assert_eq!(fault_with(&[(&at, value)]).pointer, at);
        }
    }
}
