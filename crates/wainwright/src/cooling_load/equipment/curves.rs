//! How cooling and power change away from the rating point.

use super::rating::{OUTDOOR_C, ROOM_WET_BULB_C, TEST_B_OUTDOOR_C};

/// Wet bulbs between which the curves are trusted [°C]. Chosen here: what was tested, as far as is known.
pub const TRUSTED_WET_BULB_C: (f64, f64) = (12.0, 25.0);
/// Temperatures outdoors between which the curves are trusted [°C]. Chosen as [`TRUSTED_WET_BULB_C`].
pub const TRUSTED_OUTDOOR_C: (f64, f64) = (20.0, 46.0);

/// A polynomial of second degree in the wet bulb of the room b and the temperature outdoors t.
///
/// `a + b₁ b + b₂ b² + t₁ t + t₂ t² + m b t`
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Biquadratic {
    /// Constant a.
    pub constant: f64,
    /// Coefficients of the wet bulb and its square b₁ [1/K], b₂ [1/K²].
    pub wet_bulb: (f64, f64),
    /// Coefficients of the temperature outdoors and its square t₁ [1/K], t₂ [1/K²].
    pub outdoor: (f64, f64),
    /// Coefficient of their product m [1/K²].
    pub product: f64,
}

impl Biquadratic {
    /// The value at a wet bulb and a temperature outdoors [°C]: nothing is clamped.
    pub const fn at(&self, wet_bulb_c: f64, outdoor_c: f64) -> f64 {
        let along = self.along(outdoor_c);
        along.constant + wet_bulb_c * (along.linear + wet_bulb_c * along.square)
    }

    /// The curve at one temperature outdoors [°C].
    pub const fn along(&self, outdoor_c: f64) -> Quadratic {
        Quadratic {
            constant: self.constant + outdoor_c * (self.outdoor.0 + outdoor_c * self.outdoor.1),
            linear: self.wet_bulb.0 + outdoor_c * self.product,
            square: self.wet_bulb.1,
        }
    }

    /// The same with 1 at the rating point.
    pub const fn normalized(self) -> Self {
        let rated = self.at(ROOM_WET_BULB_C, OUTDOOR_C);
        Self {
            constant: self.constant / rated,
            wet_bulb: (self.wet_bulb.0 / rated, self.wet_bulb.1 / rated),
            outdoor: (self.outdoor.0 / rated, self.outdoor.1 / rated),
            product: self.product / rated,
        }
    }
}

/// A [`Biquadratic`] at one temperature outdoors: a polynomial of second degree in the wet bulb.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quadratic {
    constant: f64,
    linear: f64,
    square: f64,
}

impl Quadratic {
    /// Value and slope [1/K] at a wet bulb [°C], which is held to [`TRUSTED_WET_BULB_C`]: beyond it the slope is 0.
    pub fn at_trusted(self, wet_bulb_c: f64) -> (f64, f64) {
        let b = wet_bulb_c.clamp(TRUSTED_WET_BULB_C.0, TRUSTED_WET_BULB_C.1);
        let slope = if b == wet_bulb_c { self.linear + 2.0 * b * self.square } else { 0.0 };
        (self.constant + b * (self.linear + b * self.square), slope)
    }
}

/// A unit's cooling, and its power for each watt of cooling, by those at the rating point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curves {
    /// Cooling by rated cooling.
    pub capacity: Biquadratic,
    /// Power for each watt of cooling, by that at the rating point.
    pub input_ratio: Biquadratic,
}

/// Cooling and power at a state, by those at the rating point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factors {
    /// Cooling by rated cooling.
    pub capacity: f64,
    /// Power by rated power.
    pub power: f64,
    /// Whether the state lies beyond what the curves are trusted for, and its nearest point within was taken.
    pub extrapolated: bool,
}

/// A window unit of energy efficiency ratio 10.7 as it was measured: 0.9947 and 0.9990 at the rating point.
///
/// Source: NREL/TP-5500-57617 (2013), quoted at second hand.
pub const ROOM_UNIT_MEASURED: Curves = Curves {
    capacity: Biquadratic {
        constant: 0.6405,
        wet_bulb: (0.015_68, 0.000_453_1),
        outdoor: (0.001_615, -0.000_182_5),
        product: 0.000_066_14,
    },
    input_ratio: Biquadratic {
        constant: 2.287,
        wet_bulb: (-0.1732, 0.004_745),
        outdoor: (0.016_62, 0.000_484),
        product: -0.001_306,
    },
};

/// A central split unit as it was measured.
///
/// Source: NREL/TP-5500-56354 and its like, quoted at second hand.
pub const SPLIT_UNIT_MEASURED: Curves = Curves {
    capacity: Biquadratic {
        constant: 1.5509,
        wet_bulb: (-0.075_05, 0.0031),
        outdoor: (0.0024, -0.000_05),
        product: -0.000_43,
    },
    input_ratio: Biquadratic {
        constant: -0.304_28,
        wet_bulb: (0.118_05, -0.003_42),
        outdoor: (-0.006_26, 0.0007),
        product: -0.000_47,
    },
};

/// [`ROOM_UNIT_MEASURED`], 1 at the rating point.
pub const ROOM_UNIT: Curves = ROOM_UNIT_MEASURED.normalized();
/// [`SPLIT_UNIT_MEASURED`], 1 at the rating point.
pub const SPLIT_UNIT: Curves = SPLIT_UNIT_MEASURED.normalized();

impl Curves {
    /// The same with 1 at the rating point.
    pub const fn normalized(self) -> Self {
        Self { capacity: self.capacity.normalized(), input_ratio: self.input_ratio.normalized() }
    }

    /// Cooling and power at a state.
    ///
    /// - `wet_bulb_c`  wet bulb of the room [°C], held to [`TRUSTED_WET_BULB_C`]
    /// - `outdoor_c`   temperature of the air that the condenser breathes [°C], held to [`TRUSTED_OUTDOOR_C`]
    pub fn at(&self, wet_bulb_c: f64, outdoor_c: f64) -> Factors {
        let outdoor = outdoor_c.clamp(TRUSTED_OUTDOOR_C.0, TRUSTED_OUTDOOR_C.1);
        let (capacity, _) = self.capacity.along(outdoor).at_trusted(wet_bulb_c);
        let (input_ratio, _) = self.input_ratio.along(outdoor).at_trusted(wet_bulb_c);
        let (low_c, high_c) = TRUSTED_WET_BULB_C;
        Factors {
            capacity,
            power: capacity * input_ratio,
            extrapolated: outdoor != outdoor_c || !(low_c..=high_c).contains(&wet_bulb_c),
        }
    }

    /// Energy efficiency ratio at the rating point by that in test B, where it is less hot outdoors.
    ///
    /// `EER = EER_B f(19.4 °C, 27.8 °C) / f(19.4 °C, 35 °C)`, f the curve of power for each watt of cooling
    ///
    /// - `eer_b`  energy efficiency ratio in test B [BTU/Wh], see [`eer_b`](super::rating::eer_b)
    ///
    /// Source: meaning of the curve.
    pub fn rated_eer(&self, eer_b: f64) -> f64 {
        eer_b * self.input_ratio.at(ROOM_WET_BULB_C, TEST_B_OUTDOOR_C)
            / self.input_ratio.at(ROOM_WET_BULB_C, OUTDOOR_C)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn normalized_curves_are_1_at_the_rating_point() {
        for curves in [ROOM_UNIT, SPLIT_UNIT] {
            let factors = curves.at(ROOM_WET_BULB_C, OUTDOOR_C);
            assert!((factors.capacity - 1.0).abs() < 1e-12 && (factors.power - 1.0).abs() < 1e-12);
            assert!(!factors.extrapolated);
        }
    }

    #[test]
    fn beyond_what_is_trusted_the_nearest_point_counts_and_is_flagged() {
        for ((wet_c, out_c), (near_wet_c, near_out_c)) in
            [((10.0, 35.0), (12.0, 35.0)), ((27.0, 50.0), (25.0, 46.0)), ((18.0, 15.0), (18.0, 20.0))]
        {
            let (beyond, near) = (ROOM_UNIT.at(wet_c, out_c), ROOM_UNIT.at(near_wet_c, near_out_c));
            assert_eq!(beyond, Factors { extrapolated: true, ..near });
            assert!(!near.extrapolated);
        }
        assert_eq!(ROOM_UNIT.capacity.along(35.0).at_trusted(11.0).1, 0.0);
    }

    #[test]
    fn heat_outdoors_costs_what_the_trade_reckons() {
        // `common practice`, 35 to 45 °C: cooling −1.1 to −1.2 % a kelvin, power +1.5 %.
        let hot = ROOM_UNIT.at(ROOM_WET_BULB_C, 45.0);
        assert_eq!(
            format!("{:.3} {:.3}", (hot.capacity - 1.0) / 10.0, (hot.power - 1.0) / 10.0),
            "-0.012 0.015"
        );
    }

    #[test]
    fn a_seasonal_ratio_becomes_a_rated_one() {
        let rated = ROOM_UNIT.rated_eer(10.0);
        // 0.842966 / 0.999038, two values of the measured curve.
        assert_eq!(format!("{rated:.3}"), "8.438");
    }

    proptest! {
        #[test]
        fn the_hotter_it_is_outdoors_the_less_it_cools_and_the_more_it_draws(
            wet_bulb_c in 12.0..25.0f64, outdoor_c in 20.0..45.0f64, hotter_k in 1e-3..1.0f64,
        ) {
            for curves in [ROOM_UNIT, SPLIT_UNIT] {
                let (at, hotter) = (curves.at(wet_bulb_c, outdoor_c), curves.at(wet_bulb_c, outdoor_c + hotter_k));
                prop_assert!(hotter.capacity < at.capacity && at.capacity > 0.0);
                prop_assert!(hotter.power > at.power && at.power > 0.0);
            }
        }

        #[test]
        fn its_slope_is_that_of_its_values(wet_bulb_c in 12.1..24.9f64, outdoor_c in 20.0..46.0f64) {
            let curve = ROOM_UNIT.capacity.along(outdoor_c);
            let slope = (curve.at_trusted(wet_bulb_c + 1e-4).0 - curve.at_trusted(wet_bulb_c - 1e-4).0) / 2e-4;
            prop_assert!((curve.at_trusted(wet_bulb_c).1 - slope).abs() < 1e-9);
        }
    }
}
