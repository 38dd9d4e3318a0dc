//! The heater of a build on the cold night.

use crate::build::{HeaterKind, Heating};
use crate::units::w_from_btu_h;

use super::equipment::heating::{FURNACE_EFFICIENCY, HEAT_PUMP_STOPS_C, furnace_propane_kg_s, heat_pump};

/// Hours of a night where nothing is said.
pub const USUAL_NIGHT_H: f64 = 12.0;

/// What a heater takes through a night.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taken {
    /// What it gives at most in that cold [W].
    pub capacity_w: f64,
    /// Electricity [Wh], where it heats by that.
    pub electric_wh: Option<f64>,
    /// Propane [kg], where it burns that.
    pub propane_kg: Option<f64>,
}

/// What heats the box through a series: what it gives goes by the air outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heater {
    /// What it gives by its rating [W].
    pub rated_w: f64,
    /// Is it a heat pump, which gives less the colder it is?
    pub is_heat_pump: bool,
}

impl Heater {
    /// No heater.
    pub const NONE: Self = Self { rated_w: 0.0, is_heat_pump: false };

    /// The heater of a build.
    pub fn of(heating: &Heating) -> Self {
        let is_heat_pump = heating.kind == Some(HeaterKind::HeatPump);
        Self { rated_w: w_from_btu_h(heating.capacity_btu_h), is_heat_pump }
    }

    /// What it gives at most [W]: a heat pump less in the cold, and nothing once it stops.
    ///
    /// - `outdoor_c`  air outside [°C]
    pub fn capacity_w(&self, outdoor_c: f64) -> f64 {
        if !self.is_heat_pump {
            return self.rated_w;
        }
        self.rated_w * heat_pump(outdoor_c, HEAT_PUMP_STOPS_C).map_or(0.0, |pump| pump.capacity_fraction)
    }
}

/// What a heater is that does not say.
pub const USUAL_KIND: HeaterKind = HeaterKind::PropaneVented;

/// Share of fuel or current that comes into the box as heat; above 1 of a heat pump.
///
/// - `outdoor_c`  air outside [°C], by which a heat pump goes
pub fn efficiency(heating: &Heating, outdoor_c: f64) -> f64 {
    heating.efficiency.unwrap_or(match heating.kind.unwrap_or(USUAL_KIND) {
        HeaterKind::Electric | HeaterKind::PropaneUnvented => 1.0,
        HeaterKind::HeatPump => heat_pump(outdoor_c, HEAT_PUMP_STOPS_C).map_or(1.0, |pump| pump.cop),
        HeaterKind::PropaneVented => FURNACE_EFFICIENCY,
    })
}

/// The coldest air outside at which a heater holds the box [°C], the load growing as it gets colder; none where it holds in
/// any cold of the earth.
///
/// - `indoor_c`  what the box is held at [°C]
/// - `load_w`    load of the box by the air outside: [°C] to [W]
pub fn holds_to_c(heating: &Heating, indoor_c: f64, load_w: impl Fn(f64) -> f64) -> Option<f64> {
    let heater = Heater::of(heating);
    // The hotter end is where it holds for sure, the colder where it does not: a heat pump's capacity falls with the cold.
    let holds = |outdoor_c: f64| heater.capacity_w(outdoor_c) >= load_w(outdoor_c);
    let (mut warm_c, mut cold_c) = (indoor_c, COLDEST_C);
    if holds(cold_c) {
        return None;
    }
    for _ in 0..60 {
        let middle_c = (warm_c + cold_c) / 2.0;
        if holds(middle_c) {
            warm_c = middle_c;
        } else {
            cold_c = middle_c;
        }
    }
    Some(warm_c)
}

/// Colder than this it is nowhere on earth [°C].
const COLDEST_C: f64 = -90.0;

/// What a heater takes through a night.
///
/// - `load_w`     the night's load [W]
/// - `outdoor_c`  air outside [°C]
/// - `night_h`    hours of the night
pub fn night(heating: &Heating, load_w: f64, outdoor_c: f64, night_h: f64) -> Taken {
    let capacity_w = Heater::of(heating).capacity_w(outdoor_c);
    let given_w = load_w.min(capacity_w);
    let efficiency = efficiency(heating, outdoor_c);
    let burns =
        matches!(heating.kind.unwrap_or(USUAL_KIND), HeaterKind::PropaneVented | HeaterKind::PropaneUnvented);
    Taken {
        capacity_w,
        // One that stands draws nothing that would heat.
        electric_wh: (!burns && capacity_w > 0.0).then(|| given_w / efficiency * night_h),
        propane_kg: burns.then(|| furnace_propane_kg_s(given_w, efficiency) * 3600.0 * night_h),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{btu_h, celsius, lb};

    fn heating(kind: Option<HeaterKind>, capacity_btu_h: f64) -> Heating {
        Heating { capacity_btu_h, setpoint_f: None, kind, efficiency: None, night_h: None }
    }

    /// A box held at 15 °C that takes 50 W/K.
    fn load_w(outdoor_c: f64) -> f64 {
        50.0 * (15.0 - outdoor_c)
    }

    #[test]
    fn each_kind_makes_its_share_of_its_fuel() {
        let share = |kind: Option<HeaterKind>, outdoor_c: f64| efficiency(&heating(kind, 5000.0), outdoor_c);
        assert_eq!(share(None, -15.0), 0.78);
        assert_eq!(share(Some(HeaterKind::PropaneVented), -15.0), 0.78);
        assert_eq!(share(Some(HeaterKind::PropaneUnvented), -15.0), 1.0);
        assert_eq!(share(Some(HeaterKind::Electric), -15.0), 1.0);
        // At 47 °F; below 40 °F it stands, and what heats in its place has 1.
        assert_eq!(share(Some(HeaterKind::HeatPump), 10.0), 3.2);
        assert_eq!(share(Some(HeaterKind::HeatPump), 4.0), 1.0);
        let stated = Heating { efficiency: Some(0.9), ..heating(Some(HeaterKind::HeatPump), 5000.0) };
        assert_eq!(efficiency(&stated, 10.0), 0.9);
    }

    #[test]
    fn a_heat_pump_alone_gives_less_in_the_cold() {
        let gives = |kind: HeaterKind, outdoor_c: f64| {
            btu_h(Heater::of(&heating(Some(kind), 8000.0)).capacity_w(outdoor_c))
        };
        for kind in [HeaterKind::Electric, HeaterKind::PropaneVented, HeaterKind::PropaneUnvented] {
            assert!((gives(kind, -40.0) - 8000.0).abs() < 1e-9);
        }
        assert!((gives(HeaterKind::HeatPump, 10.0) - 8000.0).abs() < 1e-9);
        // 45 °F is 28/30 of the way from 0.6 at 17 °F to 1 at 47 °F.
        let at_45 = gives(HeaterKind::HeatPump, celsius(45.0));
        assert!((at_45 - 8000.0 * (0.6 + 0.4 * 28.0 / 30.0)).abs() < 1e-9, "{at_45}");
        assert_eq!(gives(HeaterKind::HeatPump, celsius(39.9)), 0.0);
    }

    /// 2,000 W by 50 W/K hold 40 K.
    #[test]
    fn it_holds_down_to_where_its_heat_is_the_load() {
        let held_c =
            |kind: Option<HeaterKind>, watts: f64| holds_to_c(&heating(kind, btu_h(watts)), 15.0, load_w);
        assert!((held_c(None, 2000.0).unwrap() - -25.0).abs() < 1e-9);
        assert!((held_c(None, 30.0).unwrap() - 14.4).abs() < 1e-9);
        // Nowhere on earth is it too cold for this one.
        assert_eq!(held_c(None, 50_000.0), None);
        assert_eq!(holds_to_c(&heating(None, 100.0), 15.0, |_| 0.0), None);
        // A heat pump that is large enough holds until it stops, at 40 °F.
        assert!((held_c(Some(HeaterKind::HeatPump), 3000.0).unwrap() - celsius(40.0)).abs() < 1e-9);
        // Where cold drives more through the gaps, the load is no straight line.
        let bent = |outdoor_c: f64| (15.0 - outdoor_c).powi(2);
        assert!((holds_to_c(&heating(None, btu_h(900.0)), 15.0, bent).unwrap() - -15.0).abs() < 1e-9);
    }

    /// 5,000 BTU/h for 12 h: 17.58 kWh, or at 0.78 of 21,500 BTU/lb 3.578 lb of propane.
    #[test]
    fn a_night_takes_fuel_or_current() {
        let load_w = w_from_btu_h(5000.0);
        let taken =
            |kind: Option<HeaterKind>, outdoor_c: f64| night(&heating(kind, 8000.0), load_w, outdoor_c, 12.0);
        let burned = taken(None, -15.0);
        assert_eq!(burned.electric_wh, None);
        assert_eq!(format!("{:.3}", lb(burned.propane_kg.unwrap())), "3.578");
        let unvented = taken(Some(HeaterKind::PropaneUnvented), -15.0);
        assert_eq!(format!("{:.3}", lb(unvented.propane_kg.unwrap())), "2.791");
        let current = taken(Some(HeaterKind::Electric), -15.0);
        assert_eq!(current.propane_kg, None);
        assert!((current.electric_wh.unwrap() - 12.0 * load_w).abs() < 1e-9);
        let pump = taken(Some(HeaterKind::HeatPump), 10.0);
        assert!((pump.electric_wh.unwrap() - 12.0 * load_w / 3.2).abs() < 1e-9);
        // One that stopped draws nothing.
        assert_eq!(taken(Some(HeaterKind::HeatPump), -15.0).electric_wh, None);
        // One that is too small gives what it has.
        let small = night(&heating(Some(HeaterKind::Electric), 2500.0), load_w, -15.0, 12.0);
        assert!((small.electric_wh.unwrap() - 6.0 * load_w).abs() < 1e-9);
        assert_eq!(night(&heating(None, 2500.0), 0.0, 20.0, 12.0).propane_kg, Some(0.0));
    }
}
