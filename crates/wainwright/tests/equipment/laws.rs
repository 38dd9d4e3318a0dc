//! Laws of a cooling unit at any state, on random ones.

use proptest::prelude::*;
use wainwright::air::humidity::of_relative;
use wainwright::air::properties::enthalpy_j_kg;
use wainwright::air::saturation::{TRIPLE_POINT_C, saturated_ratio};
use wainwright::cooling_load::equipment::coil::Inlet;
use wainwright::cooling_load::equipment::coil_rating::passes_mist;
use wainwright::cooling_load::equipment::curves::{Curves, ROOM_UNIT, SPLIT_UNIT};
use wainwright::cooling_load::equipment::rating::{FLOW_M3_S_PER_W, SENSIBLE_FRACTION, power_w};
use wainwright::cooling_load::equipment::unit::{CoolingUnit, Rating};
use wainwright::units::w_from_btu_h;

fn small_unit(curves: Curves) -> CoolingUnit {
    let capacity_w = w_from_btu_h(5000.0);
    let rating = Rating {
        capacity_w,
        power_w: power_w(capacity_w, 11.0),
        sensible_fraction: SENSIBLE_FRACTION,
        flow_m3_s: FLOW_M3_S_PER_W * capacity_w,
    };
    CoolingUnit::rated(&rating, curves).unwrap()
}

/// A room, the temperature outdoors and the pressure.
fn states() -> impl Strategy<Value = (f64, f64, f64, f64)> {
    (15.0..60.0f64, 0.02..0.85f64, 15.0..50.0f64, 65_000.0..102_000.0f64).prop_map(
        |(room_c, relative, outdoor_c, pressure_pa)| {
            (room_c, of_relative(relative, room_c, pressure_pa).min(0.05), outdoor_c, pressure_pa)
        },
    )
}

proptest! {
    #[test]
    fn heat_is_sensible_and_latent_and_nothing_is_below_zero(
        (room_c, ratio, outdoor_c, pressure_pa) in states(), split_unit: bool,
    ) {
        let unit = small_unit(if split_unit { SPLIT_UNIT } else { ROOM_UNIT });
        let running = unit.at(room_c, ratio, outdoor_c, pressure_pa, None);
        prop_assert!((running.sensible_w + running.latent_w - running.total_w).abs() < 1e-9);
        prop_assert!(running.sensible_w > 0.0 && running.latent_w >= 0.0 && running.power_w > 0.0);
        prop_assert!(running.apparatus_c < room_c);
    }

    #[test]
    fn a_guess_changes_nothing(
        (room_c, ratio, outdoor_c, pressure_pa) in states(), (other_c, other_ratio, other_out_c, _) in states(),
    ) {
        let unit = small_unit(ROOM_UNIT);
        let other = unit.at(other_c, other_ratio, other_out_c, pressure_pa, None);
        let alone = unit.at(room_c, ratio, outdoor_c, pressure_pa, None);
        let guessed = unit.at(room_c, ratio, outdoor_c, pressure_pa, Some(&other));
        prop_assert!((guessed.sensible_w / alone.sensible_w - 1.0).abs() < 1e-8, "{alone:?} {guessed:?}");
        prop_assert!((guessed.power_w / alone.power_w - 1.0).abs() < 1e-8);
    }

    #[test]
    fn the_hotter_it_is_outdoors_the_less_it_cools_and_the_more_it_draws(
        (room_c, ratio, _, pressure_pa) in states(), outdoor_c in 20.0..45.0f64,
    ) {
        let unit = small_unit(ROOM_UNIT);
        let at = |outdoor_c| unit.at(room_c, ratio, outdoor_c, pressure_pa, None);
        let (cooler, hotter) = (at(outdoor_c), at(outdoor_c + 1.0));
        prop_assert!(hotter.total_w < cooler.total_w);
        // A dry coil's curves are read at a more humid border, which may cost less power for each watt.
        prop_assert!(hotter.power_w > cooler.power_w || hotter.latent_w == 0.0);
    }

    #[test]
    fn a_wet_coil_becomes_a_dry_one_without_a_jump(
        room_c in 20.0..50.0f64, outdoor_c in 20.0..46.0f64, pressure_pa in 65_000.0..102_000.0f64,
    ) {
        let unit = small_unit(ROOM_UNIT);
        let dry = unit.at(room_c, 0.0, outdoor_c, pressure_pa, None);
        let border = saturated_ratio(dry.apparatus_c, pressure_pa);
        for (ratio, wet) in [(border * (1.0 - 1e-7), false), (border * (1.0 + 1e-7), true)] {
            let running = unit.at(room_c, ratio, outdoor_c, pressure_pa, None);
            prop_assert_eq!(running.latent_w > 0.0, wet);
            prop_assert!((running.sensible_w / dry.sensible_w - 1.0).abs() < 1e-6);
            prop_assert!((running.power_w / dry.power_w - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn what_it_gives_back_holds_what_it_took(
        (room_c, ratio, outdoor_c, pressure_pa) in states(),
    ) {
        let unit = small_unit(ROOM_UNIT);
        let running = unit.at(room_c, ratio, outdoor_c, pressure_pa, None);
        let (supply_c, supply_ratio) = unit.supply(room_c, ratio, pressure_pa, &running);
        let taken_w = unit.flow_at_kg_s(pressure_pa)
            * (enthalpy_j_kg(room_c, ratio) - enthalpy_j_kg(supply_c, supply_ratio));
        prop_assert!((taken_w / running.total_w - 1.0).abs() < 1e-9);
    }

    #[test]
    fn more_air_takes_no_less_sensible_heat(
        (room_c, ratio, outdoor_c, pressure_pa) in states(), more in 1.01..1.5f64,
    ) {
        let unit = small_unit(ROOM_UNIT);
        let faster = CoolingUnit { flow_kg_s: unit.flow_kg_s * more, ..unit };
        let at = |unit: &CoolingUnit| unit.at(room_c, ratio, outdoor_c, pressure_pa, None);
        let inlet = Inlet { air_c: room_c, ratio, pressure_pa };
        let apparatus_c = at(&unit).apparatus_c;
        let sound = apparatus_c > TRIPLE_POINT_C && !passes_mist(&inlet, apparatus_c);
        prop_assert!(!sound || at(&faster).sensible_w >= at(&unit).sensible_w * (1.0 - 1e-9));
    }
}
