//! Water in the air of a room, through time.

/// Heat that turns a kilogram of water into vapor in a room [J/kg], rounded.
pub const EVAPORATION_J_KG: f64 = 2.5e6;

/// Air that would hold as much water as air, lining, bedding and clothes together do, by the air of the room. Chosen here.
pub const BUFFERING: f64 = 5.0;

/// Water that latent heat stands for.
///
/// `g = Q_l / h_fg`
///
/// - `latent_w`  latent heat Q_l [W]; below 0 water is taken out
///
/// Returns g [kg/s].
///
/// Source: definition of latent heat, h_fg [`EVAPORATION_J_KG`].
pub fn water_kg_s(latent_w: f64) -> f64 {
    latent_w / EVAPORATION_J_KG
}

/// Dry air that buffers the water of a room.
///
/// `M = b V / v`
///
/// - `volume_m3`       volume of the room V [m³], above 0
/// - `specific_m3_kg`  volume of moist air by the dry air in it v [m³/kg], above 0
/// - `buffering`       b, 1 or more: [`BUFFERING`]
///
/// Returns M [kg].
///
/// Source: chosen here.
pub fn buffer_kg(volume_m3: f64, specific_m3_kg: f64, buffering: f64) -> f64 {
    buffering * volume_m3 / specific_m3_kg
}

/// Humidity ratio of a room at the end of a step.
///
/// `W' = [W + Δt/M (ṁ W_o + g)] / (1 + Δt ṁ/M)`, 0 or more
///
/// - `ratio`          at its beginning W [kg/kg], 0 or more
/// - `outdoor_ratio`  of the air that comes in W_o [kg/kg], 0 or more
/// - `flow_kg_s`      dry air that comes in ṁ [kg/s], 0 or more
/// - `water_kg_s`     water given off less what a coil or a cold surface takes out g [kg/s], of either sign
/// - `buffer_kg`      dry air that buffers it M [kg], above 0, from [`buffer_kg`]
/// - `step_s`         the step Δt [s], 0 or more; of any length without swinging, for it is implicit
///
/// Returns W' [kg/kg].
///
/// Source: balance of the room's water, stepped by the implicit Euler method.
pub fn stepped_ratio(
    ratio: f64,
    outdoor_ratio: f64,
    flow_kg_s: f64,
    water_kg_s: f64,
    buffer_kg: f64,
    step_s: f64,
) -> f64 {
    let by_buffer_s_kg = step_s / buffer_kg;
    let ratio = (ratio + by_buffer_s_kg * (flow_kg_s * outdoor_ratio + water_kg_s))
        / (1.0 + by_buffer_s_kg * flow_kg_s);
    ratio.max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn forty_five_watts_are_sixty_five_grams_an_hour() {
        assert_eq!(format!("{:.0}", water_kg_s(45.0) * 3600.0 * 1000.0), "65");
    }

    #[test]
    fn a_sealed_room_gathers_what_is_given_off() {
        // 18 m³ with a buffer of 5 hold as 105 kg of dry air do; 65 g in them are 0.62 g/kg.
        let buffer_kg = buffer_kg(18.0, 0.855, BUFFERING);
        let after = stepped_ratio(0.008, 0.0, 0.0, water_kg_s(45.0), buffer_kg, 3600.0);
        assert_eq!(format!("{:.5}", after - 0.008), "0.00062");
    }

    #[test]
    fn in_the_end_the_room_is_as_damp_as_outdoors_and_what_is_given_off() {
        let after = stepped_ratio(0.004, 0.010, 0.006, 1.8e-5, 100.0, 1e12);
        assert!((after - (0.010 + 1.8e-5 / 0.006)).abs() < 1e-9);
        assert_eq!(stepped_ratio(0.004, 0.010, 0.006, 1.8e-5, 100.0, 0.0), 0.004);
    }

    #[test]
    fn a_coil_takes_out_no_more_than_there_is() {
        assert_eq!(stepped_ratio(0.001, 0.0, 0.0, -1.0, 100.0, 3600.0), 0.0);
    }

    proptest! {
        #[test]
        fn without_sources_it_stays_between_room_and_outdoors(
            ratio in 0.0..0.03f64,
            outdoor_ratio in 0.0..0.03f64,
            flow_kg_s in 0.0..1.0f64,
            step_s in 0.0..1e6f64,
        ) {
            let after = stepped_ratio(ratio, outdoor_ratio, flow_kg_s, 0.0, 100.0, step_s);
            prop_assert!(after >= ratio.min(outdoor_ratio) * (1.0 - 1e-12));
            prop_assert!(after <= ratio.max(outdoor_ratio) * (1.0 + 1e-12));
        }
    }
}
