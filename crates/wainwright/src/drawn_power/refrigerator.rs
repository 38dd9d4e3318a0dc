//! What a compressor refrigerator draws, from the heat that leaks into it.
//!
//! The air around it is that inside the trailer, which the sun heats, not the air outdoors. The figures offered here are
//! chosen, not measured: where the maker states a use per day, prefer [`rated_mean_w`].

use crate::build::Refrigerator;
use crate::units::celsius;

/// 0 °C [K].
const ICE_K: f64 = 273.15;

/// Temperature inside a refrigerator [°C].
pub const INSIDE_C: f64 = 4.0;
/// Coefficient of performance of a small compressor at 25 °C.
pub const FIXED_COP: f64 = 2.0;
/// Share of the ideal coefficient of performance that a small compressor reaches, so chosen that with
/// [`EVAPORATOR_C`] and [`CONDENSER_RISE_K`] it is [`FIXED_COP`] at 25 °C.
pub const CARNOT_SHARE: f64 = 0.34;
/// Temperature of the evaporator [°C], for [`carnot_cop`].
pub const EVAPORATOR_C: f64 = -8.0;
/// How much hotter the condenser is than the air [K], for [`carnot_cop`].
pub const CONDENSER_RISE_K: f64 = 12.0;

/// How much colder than the inside an evaporator is at least [K].
///
/// Source: `common practice`.
pub const EVAPORATOR_DROP_K: f64 = 10.0;

/// Temperature of the evaporator: that of a refrigerator, or lower in a freezer.
///
/// `T_e = min(−8 °C, T_i − 10 K)`
///
/// - `inside_c`  temperature inside T_i [°C]
///
/// Returns T_e [°C].
pub fn evaporator_c(inside_c: f64) -> f64 {
    EVAPORATOR_C.min(inside_c - EVAPORATOR_DROP_K)
}

/// Heat a refrigerator must carry out.
///
/// `Q = UA (T_a − T_i) + Q_d`, 0 or more
///
/// - `leak_w_per_k`  heat that leaks in per degree UA [W/K], 0 or more: 0.6 for 50 L and 1.0 for 100 to 120 L are
///   chosen here
/// - `ambient_c`     temperature of the air around it T_a [°C]
/// - `inside_c`      temperature inside T_i [°C], for instance [`INSIDE_C`]
/// - `door_w`        heat that doors and fresh food bring in, on average Q_d [W], 0 or more
///
/// Returns Q [W]; 0 where the air around is cold enough.
///
/// Source: heat balance at a steady temperature.
pub fn heat_w(leak_w_per_k: f64, ambient_c: f64, inside_c: f64, door_w: f64) -> f64 {
    (leak_w_per_k * (ambient_c - inside_c) + door_w).max(0.0)
}

/// Coefficient of performance that falls as the air grows hotter.
///
/// `COP = f T_e / (T_a + ΔT_c − T_e)`
///
/// - `share`         share of the ideal reached f, above 0, to 1, for instance [`CARNOT_SHARE`]
/// - `evaporator_c`  temperature of the evaporator [°C], T_e in kelvin
/// - `ambient_c`     temperature of the air at the condenser T_a [°C]
/// - `rise_k`        how much hotter the condenser is ΔT_c [K], 0 or more
///
/// Returns COP, above 0; without bound where the condenser is no hotter than the evaporator.
///
/// Source: Carnot's limit for a refrigerator.
pub fn carnot_cop(share: f64, evaporator_c: f64, ambient_c: f64, rise_k: f64) -> f64 {
    let lift_k = ambient_c + rise_k - evaporator_c;
    if lift_k > 0.0 { share * (evaporator_c + ICE_K) / lift_k } else { f64::INFINITY }
}

/// Mean electrical power of a refrigerator.
///
/// `P = Q / COP`
///
/// - `heat_w`  heat it must carry out Q [W], from [`heat_w`]
/// - `cop`     coefficient of performance COP, above 0: [`FIXED_COP`] or from [`carnot_cop`]
///
/// Returns P [W].
///
/// Source: meaning of the coefficient of performance.
pub fn mean_w(heat_w: f64, cop: f64) -> f64 {
    heat_w / cop
}

/// Share of the time that the compressor runs.
///
/// `d = P / P_r`
///
/// - `mean_w`     mean power P [W], from [`mean_w`] or [`rated_mean_w`]
/// - `running_w`  power while it runs P_r [W], above 0; 45 to 60 is usual
///
/// Returns d, 0 to 1; none above 1: the refrigerator cannot hold its temperature, and runs without pause.
///
/// Source: energy balance over many cycles.
pub fn duty(mean_w: f64, running_w: f64) -> Option<f64> {
    let duty = mean_w / running_w;
    (duty <= 1.0).then_some(duty)
}

/// Mean electrical power of a refrigerator whose evaporator and condenser are the usual ones, by the air around it.
///
/// - `leak_w_per_k`  heat that leaks in for each degree [W/K], 0 or more
/// - `inside_c`      temperature it keeps [°C]
/// - `ambient_c`     temperature of the air around it [°C]
///
/// Returns the power [W], were its compressor strong enough; 0 where the air around is cold enough.
pub fn usual_mean_w(leak_w_per_k: f64, inside_c: f64, ambient_c: f64) -> f64 {
    let cop = carnot_cop(CARNOT_SHARE, evaporator_c(inside_c), ambient_c, CONDENSER_RISE_K);
    mean_w(heat_w(leak_w_per_k, ambient_c, inside_c, 0.0), cop)
}

/// Heat that leaks into a refrigerator whose energy is stated.
///
/// `UA = E COP(T) / (24 h (T − T_i))`
///
/// - `kwh_per_day`  energy of a day E [kWh]
/// - `rated_c`      the room for which it is stated T [°C], above the temperature inside
/// - `inside_c`     temperature inside T_i [°C]
///
/// Returns UA [W/K].
pub fn leak_of_rated(kwh_per_day: f64, rated_c: f64, inside_c: f64) -> f64 {
    let cop = carnot_cop(CARNOT_SHARE, evaporator_c(inside_c), rated_c, CONDENSER_RISE_K);
    kwh_per_day * 1000.0 / 24.0 * cop / (rated_c - inside_c)
}

/// Heat that leaks into a refrigerator that does not say [W/K]: 50 L (chosen here).
pub const HEAT_LEAK_W_PER_K: f64 = 0.6;

/// What a refrigerator of a build keeps, and how well.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Keeps {
    /// Heat that leaks in for each degree [W/K].
    pub leak_w_per_k: f64,
    /// Temperature it keeps [°C].
    pub inside_c: f64,
}

impl Keeps {
    /// By what a build says of it: its energy in a room, or its heat leak, or neither.
    pub fn of(refrigerator: &Refrigerator) -> Self {
        let inside_c = celsius(refrigerator.inside_f.unwrap_or(Refrigerator::INSIDE_F));
        let leak_w_per_k = match refrigerator.kwh_per_day {
            Some(kwh_per_day) => {
                let rated_c = celsius(refrigerator.rated_f.unwrap_or(Refrigerator::RATED_F));
                leak_of_rated(kwh_per_day, rated_c, inside_c)
            }
            None => refrigerator.heat_leak_w_per_k.unwrap_or(HEAT_LEAK_W_PER_K),
        };
        Self { leak_w_per_k, inside_c }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn usual_cop(ambient_c: f64) -> f64 {
        carnot_cop(CARNOT_SHARE, EVAPORATOR_C, ambient_c, CONDENSER_RISE_K)
    }

    #[test]
    fn a_small_one_by_the_share_of_the_ideal() {
        let cops = [25.0, 32.0, 43.0].map(|ambient_c| format!("{:.2}", usual_cop(ambient_c)));
        assert_eq!(cops, ["2.00", "1.73", "1.43"]);
        let wh_per_day = [25.0, 32.0, 43.0].map(|ambient_c| {
            format!("{:.0}", 24.0 * mean_w(heat_w(0.6, ambient_c, INSIDE_C, 0.0), usual_cop(ambient_c)))
        });
        assert_eq!(wh_per_day, ["151", "233", "392"]);
    }

    #[test]
    fn a_freezer_works_against_more() {
        assert_eq!((evaporator_c(INSIDE_C), evaporator_c(-18.0)), (EVAPORATOR_C, -28.0));
        let freezer = carnot_cop(CARNOT_SHARE, evaporator_c(-18.0), 25.0, CONDENSER_RISE_K);
        assert!(freezer < 0.65 * usual_cop(25.0), "{freezer}");
    }

    #[test]
    fn two_sizes_at_a_fixed_performance() {
        let wh_per_day = |leak_w_per_k| {
            [20.0, 25.0, 32.0, 43.0].map(|ambient_c| {
                format!("{:.0}", 24.0 * mean_w(heat_w(leak_w_per_k, ambient_c, INSIDE_C, 0.0), FIXED_COP))
            })
        };
        assert_eq!(wh_per_day(0.6), ["115", "151", "202", "281"]);
        assert_eq!(wh_per_day(1.0), ["192", "252", "336", "468"]);
    }

    #[test]
    fn the_compressor_runs_longer_in_heat_until_it_cannot_hold() {
        let duties = [20.0, 25.0, 32.0, 43.0].map(|ambient_c| {
            let heat_w = heat_w(0.6, ambient_c, INSIDE_C, 0.0);
            format!("{:.3}", duty(mean_w(heat_w, FIXED_COP), 45.0).unwrap())
        });
        assert_eq!(duties, ["0.107", "0.140", "0.187", "0.260"]);
        assert_eq!(duty(45.0, 45.0), Some(1.0));
        assert_eq!(duty(45.1, 45.0), None);
    }

    #[test]
    fn in_the_cold_nothing_is_needed() {
        assert_eq!(heat_w(0.6, -10.0, INSIDE_C, 2.0), 0.0);
        assert_eq!(usual_cop(-20.0), f64::INFINITY);
        assert_eq!(mean_w(heat_w(0.6, -30.0, INSIDE_C, 0.0), usual_cop(-30.0)), 0.0);
    }

    proptest! {
        #[test]
        fn hotter_air_never_needs_less(ambient_c in -40.0..60.0f64, hotter_k in 0.0..30.0f64) {
            let power_w = |ambient_c| mean_w(heat_w(0.6, ambient_c, INSIDE_C, 3.0), usual_cop(ambient_c));
            prop_assert!(power_w(ambient_c + hotter_k) >= power_w(ambient_c));
        }
    }
}
