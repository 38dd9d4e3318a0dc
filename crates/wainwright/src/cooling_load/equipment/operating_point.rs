//! Where a unit's curves and its coil agree.

use super::curves::Quadratic;
use crate::air::properties::{DRY_AIR_J_KG_K, specific_heat_j_kg_k, vapor_enthalpy_j_kg};
use crate::air::saturation::saturated_ratio_and_growth;
use crate::air::wet_bulb::ratio_of_wet_bulb_and_growth;

/// Steps after which the search ends; two are usual with a good guess, five or six without.
const MOST_STEPS: usize = 40;
/// Steps so small end the search [K]: what is left is 0.02/K of their square, 2e−9 K.
const LAST_STEP_K: f64 = 3e-4;
/// The coldest temperature that is searched [°C].
const COLDEST_C: f64 = -100.0;

/// A unit that runs in a room of one temperature, at one temperature outdoors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Running {
    /// Temperature of the room [°C], −20 to 70.
    pub room_c: f64,
    /// Pressure [Pa], 60 000 to 105 000.
    pub pressure_pa: f64,
    /// Dry air that touches the coil [kg/s], above 0.
    pub contact_kg_s: f64,
    /// Rated cooling [W], above 0.
    pub capacity_w: f64,
    /// Cooling by rated cooling, against the wet bulb.
    pub curve: Quadratic,
}

/// Where curves and coil agree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OperatingPoint {
    /// Wet bulb by which the curves are read [°C].
    pub wet_bulb_c: f64,
    /// Apparatus dew point [°C].
    pub apparatus_c: f64,
    /// Humidity ratio of air saturated at it [kg/kg].
    pub apparatus_ratio: f64,
}

impl Running {
    /// The operating point in a room of a humidity, its coil wet.
    ///
    /// ```text
    /// W(t, b) = W
    /// ṁ_c (h(t, W) − h_s(t_a)) = Q(b)
    /// ```
    ///
    /// in the wet bulb b and the apparatus dew point t_a. An `apparatus_ratio` above the room's says that the coil is
    /// dry: then [`Running::border`] holds.
    ///
    /// - `ratio`  humidity ratio of the room W [kg/kg], 0 to that of saturated air
    /// - `guess`  temperatures near b and t_a [°C]; bad ones only cost time
    ///
    /// Source: balance of enthalpy over the air that touches the coil; moist air as in [`crate::air`].
    pub fn wet(&self, ratio: f64, guess: (f64, f64)) -> OperatingPoint {
        self.solve(Some(ratio), guess)
    }

    /// The operating point in the most humid room in which the coil stays dry: its dew point is that of the apparatus.
    ///
    /// ```text
    /// W(t, b) = W_s(t_a)
    /// ṁ_c (h(t, W_s(t_a)) − h_s(t_a)) = Q(b)
    /// ```
    ///
    /// In every drier room the coil takes the same heat: air that loses no water shows it nothing but its temperature.
    ///
    /// - `guess`  temperatures near b and t_a [°C]; bad ones only cost time
    ///
    /// Source: as for [`Running::wet`].
    pub fn border(&self, guess: (f64, f64)) -> OperatingPoint {
        self.solve(None, guess)
    }

    /// Newton's method for both temperatures at once; without a humidity that of the border.
    fn solve(&self, ratio: Option<f64>, guess: (f64, f64)) -> OperatingPoint {
        let &Self { room_c, pressure_pa, contact_kg_s, capacity_w, curve } = self;
        let hold = |at_c: f64| at_c.min(room_c).max(COLDEST_C);
        let room_vapor = vapor_enthalpy_j_kg(room_c);
        let (mut wet_c, mut coil_c) = (hold(guess.0), hold(guess.1));
        let mut apparatus_ratio = 0.0;
        let (mut cooling, mut cooling_growth) = curve.at_trusted(wet_c);
        for _ in 0..MOST_STEPS {
            let (at_wet, wet_growth) = ratio_of_wet_bulb_and_growth(room_c, wet_c, pressure_pa);
            let (at_coil, coil_growth) = saturated_ratio_and_growth(coil_c, pressure_pa);
            let coil_vapor = vapor_enthalpy_j_kg(coil_c);
            let (room_ratio, room_growth) = ratio.map_or((at_coil, coil_growth), |ratio| (ratio, 0.0));
            // What is wrong with water and heat, and how each changes with wet bulb and apparatus.
            let water = at_wet - room_ratio;
            let left_j_kg =
                DRY_AIR_J_KG_K * (room_c - coil_c) + room_ratio * room_vapor - at_coil * coil_vapor;
            let heat_w = contact_kg_s * left_j_kg - capacity_w * cooling;
            let heat_by_wet = -capacity_w * cooling_growth;
            let heat_by_coil = contact_kg_s
                * (room_growth * room_vapor - coil_growth * coil_vapor - specific_heat_j_kg_k(at_coil));
            let per_determinant = 1.0 / (wet_growth * heat_by_coil + room_growth * heat_by_wet);
            let next_wet_c = hold(wet_c - (water * heat_by_coil + room_growth * heat_w) * per_determinant);
            let next_coil_c = hold(coil_c - (wet_growth * heat_w - heat_by_wet * water) * per_determinant);
            let moved_k = (next_wet_c - wet_c).abs().max((next_coil_c - coil_c).abs());
            apparatus_ratio = at_coil + coil_growth * (next_coil_c - coil_c);
            (wet_c, coil_c) = (next_wet_c, next_coil_c);
            let was_trusted = cooling_growth != 0.0;
            (cooling, cooling_growth) = curve.at_trusted(wet_c);
            // Where the curve is held its slope jumps: a step across that edge is not the last.
            if moved_k < LAST_STEP_K && was_trusted == (cooling_growth != 0.0) {
                break;
            }
        }
        OperatingPoint { wet_bulb_c: wet_c, apparatus_c: coil_c, apparatus_ratio }
    }
}

#[cfg(test)]
mod tests {
    use super::super::curves::{ROOM_UNIT, SPLIT_UNIT};
    use super::*;
    use crate::air::properties::enthalpy_j_kg;
    use crate::air::saturation::saturated_ratio;
    use crate::air::wet_bulb::ratio_of_wet_bulb;
    use proptest::prelude::*;

    fn units() -> impl Strategy<Value = Running> {
        (12.0..65.0f64, 65e3..102e3f64, 3.5e-5..7e-5f64, 1000.0..5000.0f64, 20.0..46.0f64, any::<bool>())
            .prop_map(|(room_c, pressure_pa, contact_per_w, capacity_w, outdoor_c, split_unit)| Running {
                room_c,
                pressure_pa,
                contact_kg_s: contact_per_w * capacity_w,
                capacity_w,
                curve: if split_unit { SPLIT_UNIT } else { ROOM_UNIT }.capacity.along(outdoor_c),
            })
    }

    /// Asserts that both balances hold in a room of a humidity ratio.
    fn assert_balanced(unit: &Running, point: &OperatingPoint, ratio: f64) {
        let &Running { room_c, pressure_pa, contact_kg_s, capacity_w, curve } = unit;
        let at_coil = saturated_ratio(point.apparatus_c, pressure_pa);
        assert!((point.apparatus_ratio / at_coil - 1.0).abs() < 1e-8, "{unit:?} {point:?}");
        let left_j_kg = enthalpy_j_kg(room_c, ratio) - enthalpy_j_kg(point.apparatus_c, at_coil);
        let cooling_w = capacity_w * curve.at_trusted(point.wet_bulb_c).0;
        assert!((contact_kg_s * left_j_kg / cooling_w - 1.0).abs() < 1e-8, "{unit:?} {point:?}");
        // Where water freezes on the thermometer its equations do not meet.
        if point.wet_bulb_c.abs() > 0.1 {
            let at_wet = ratio_of_wet_bulb(room_c, point.wet_bulb_c, pressure_pa);
            assert!((at_wet / ratio - 1.0).abs() < 1e-8, "{unit:?} {point:?}");
        }
    }

    proptest! {
        #[test]
        fn both_balances_hold_from_any_guess(
            unit in units(), relative in 0.3..0.95f64, guess in (-20.0..60.0f64, -40.0..60.0f64),
        ) {
            let ratio = (relative * saturated_ratio(unit.room_c, unit.pressure_pa)).min(0.05);
            assert_balanced(&unit, &unit.wet(ratio, guess), ratio);
            let border = unit.border(guess);
            assert_balanced(&unit, &border, saturated_ratio(border.apparatus_c, unit.pressure_pa));
        }
    }
}
