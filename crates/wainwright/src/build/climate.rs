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
        /// Relative humidity of the room that the load is worked out for.
        optional humidity_fraction: f64 = bounds::HUMIDITY_FRACTION, 0.5;
        /// What it is.
        optional kind: CoolerKind = Choice::of(), "window";
        /// Share of its rated capacity that lowers the temperature; the rest takes out moisture. With the usual air a coil
        /// can have 0.59 to 0.71.
        optional sensible_fraction: f64 = bounds::SENSIBLE_FRACTION, 0.68;
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
        /// Share of the fuel's or the current's heat that comes into the box; of a heat pump its coefficient of performance.
        optional efficiency: f64 = bounds::HEATING_EFFICIENCY, 0.78, aside;
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
        if let Some(heating) = &self.heating
            && let Some(efficiency) = heating.efficiency.filter(|efficiency| *efficiency > 1.0)
            && heating.kind != Some(HeaterKind::HeatPump)
        {
            let place = at.key("heating");
            if !faults.spoil(&place.key("kind").pointer()) {
                let detail = format!("must be 1 or less of all but a heat pump; got {efficiency}");
                faults.contradiction(&place.key("efficiency"), detail);
            }
        }
        if let (Some(cooling), Some(heating)) = (&self.cooling, &self.heating) {
            check_setpoints(cooling, heating, at, faults);
        }
    }
}

/// A heater that is set above an air conditioner runs against it.
fn check_setpoints(cooling: &Cooling, heating: &Heating, at: &Place, faults: &mut Faults) {
    let cool_f = cooling.setpoint_f.unwrap_or(Cooling::SETPOINT_F);
    let heat_f = heating.setpoint_f.unwrap_or(Heating::SETPOINT_F);
    // What could not be read is no number, and says nothing.
    if heat_f < cool_f || heat_f.is_nan() || cool_f.is_nan() {
        return;
    }
    let taken = |given: Option<f64>| if given.is_none() { " where none is given" } else { "" };
    let against = "or both run against each other";
    if heating.setpoint_f.is_some() {
        let by = taken(cooling.setpoint_f);
        let detail = format!("must be below that of cooling, {cool_f}{by}, {against}; got {heat_f}");
        let place = at.key("heating");
        faults.contradiction(&place.key("setpoint_f"), detail);
    } else {
        let by = taken(heating.setpoint_f);
        let detail = format!("must be above that of heating, {heat_f}{by}, {against}; got {cool_f}");
        let place = at.key("cooling");
        faults.contradiction(&place.key("setpoint_f"), detail);
    }
}

impl Cooling {
    /// What it is set to where that is not given [°F]. Common practice of load calculation.
    pub const SETPOINT_F: f64 = 75.0;
}

impl Heating {
    /// What it is set to where that is not given [°F]. Common practice: people asleep under blankets.
    pub const SETPOINT_F: f64 = 65.0;
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::build::fixture::{assert_contradiction, fault_with, faults_with, lines_with};

    #[test]
    fn what_a_cooler_draws_is_said_once() {
        assert_contradiction(
            "/climate/cooling/power_w",
            json!(720),
            "/climate/cooling/power_w",
            "cannot stand beside ceer; both say what it draws",
        );
        assert_eq!(
            faults_with(&[("/climate/cooling/power_w", json!(720)), ("/climate/cooling/ceer", json!(null))]),
            []
        );
    }

    #[test]
    fn a_cooler_moves_air() {
        assert_contradiction(
            "/climate/cooling/airflow_cfm",
            json!(0),
            "/climate/cooling/airflow_cfm",
            "must be above 0: a cooler without air cools nothing; leave it out for the usual",
        );
        assert_eq!(faults_with(&[("/climate/cooling/airflow_cfm", json!(1))]), []);
        assert_eq!(faults_with(&[("/climate/fan/airflow_cfm", json!(0))]), []);
    }

    #[test]
    fn heating_stops_where_cooling_begins() {
        for heat_f in [76, 80] {
            assert_contradiction(
                "/climate/heating/setpoint_f",
                json!(heat_f),
                "/climate/heating/setpoint_f",
                &format!("must be below that of cooling, 76, or both run against each other; got {heat_f}"),
            );
        }
        assert_eq!(faults_with(&[("/climate/heating/setpoint_f", json!(75.9))]), []);
    }

    #[test]
    fn figures_beyond_their_bounds_are_named_with_the_bound() {
        for (at, value, detail) in [
            ("/climate/cooling/capacity_btu_h", json!(-8000), "must be 500 or more; got -8000"),
            ("/climate/cooling/ceer", json!(0), "must be 1 or more; got 0"),
            ("/climate/cooling/setpoint_f", json!(24), "must be 35 or more; got 24"),
            ("/climate/cooling/sensible_fraction", json!(75), "must be 1 or less; got 75"),
            ("/climate/cooling/recirculated_fraction", json!(0.9), "must be 0.8 or less; got 0.9"),
            ("/climate/cooling/start_hour", json!(24), "must be 23 or less; got 24"),
            ("/climate/heating/capacity_btu_h", json!(0), "must be 100 or more; got 0"),
            ("/climate/heating/efficiency", json!(78), "must be 8 or less; got 78"),
            ("/climate/heating/efficiency", json!(1.2), "must be 1 or less of all but a heat pump; got 1.2"),
            ("/climate/heating/night_h", json!(25), "must be 24 or less; got 25"),
            ("/climate/fan/screen_fraction", json!(1.1), "must be 1 or less; got 1.1"),
            ("/climate/fan/inlet_in2", json!(-1), "must be 0.1 or more; got -1"),
        ] {
            let fault = fault_with(&[(at, value)]);
            assert_eq!((fault.pointer.as_str(), fault.detail.as_str()), (at, detail));
        }
    }

    #[test]
    fn several_mistakes_in_a_climate_are_all_named() {
        assert_eq!(
            lines_with(&[
                ("/climate/cooling/kind", json!("split")),
                ("/climate/cooling/power_w", json!(720)),
                ("/climate/cooling/fan_always_on", json!("yes")),
                ("/climate/heating/setpoint_f", json!(80)),
                ("/climate/heating/kind", json!("wood")),
                ("/climate/detail", json!("all")),
            ]),
            [
                "/climate/cooling/kind must be one of window, rooftop, single_hose; got \"split\"",
                "/climate/cooling/fan_always_on must be true or false; got the text \"yes\"",
                "/climate/cooling/power_w cannot stand beside ceer; both say what it draws",
                "/climate/heating/setpoint_f must be below that of cooling, 76, or both run against each other; got 80",
                "/climate/heating/kind must be one of electric, heat_pump, propane_vented, propane_unvented; got \"wood\"",
                "/climate/detail must be one of hours, steps; got \"all\"",
            ]
        );
    }

    #[test]
    fn what_could_not_be_read_is_at_fault_alone() {
        for (at, value) in [
            ("/climate", json!([])),
            ("/climate/cooling", json!(8000)),
            ("/climate/cooling/capacity_btu_h", json!(null)),
            ("/climate/cooling/setpoint_f", json!("cool")),
            ("/climate/cooling/airflow_cfm", json!("much")),
            ("/climate/heating/setpoint_f", json!("warm")),
            ("/climate/heating", json!([])),
            ("/climate/fan", json!(true)),
            ("/climate/detail", json!(5)),
        ] {
            let fault = fault_with(&[(at, value)]);
            assert!(fault.pointer.starts_with(at), "{fault:?}");
        }
    }
}
