//! The floor under a wheel: a strip of the panel between crossmembers.
//!
//! The strip is an elastic beam on rigid supports, as wide as the tire and what helps beside it. Crossmembers and
//! frame are not looked at: the maker's deck rating is theirs.

use crate::units::{KG_PER_LB, M_PER_IN, STANDARD_GRAVITY_M_S2};

/// Panel width that helps beside the tire's own [m]: 12 in, common practice. No tested value is known.
pub const USUAL_EXTRA_WIDTH_M: f64 = 12.0 * M_PER_IN;
/// The same, cautiously [m]: 4 in, common practice. Both results are to be shown.
pub const CAUTIOUS_EXTRA_WIDTH_M: f64 = 4.0 * M_PER_IN;
/// Largest deflection under a wheel as a share of the span: 1/180, common practice.
pub const DEFLECTION_LIMIT: f64 = 1.0 / 180.0;
/// Crossmember spacing from which a wheel wants a spreader plate [m]: 24 in, common practice.
pub const SPREADER_SPAN_M: f64 = 24.0 * M_PER_IN;
/// Wheel load above which it wants a spreader plate [kg]: 350 lb, common practice.
pub const SPREADER_WHEEL_LOAD_KG: f64 = 350.0 * KG_PER_LB;

/// Share of a utility ATV's mass on its front wheels: common practice.
pub const UTILITY_ATV_FRONT_SHARE: f64 = 0.45;
/// Share of a side-by-side's mass on its front wheels, riders not counted: common practice.
pub const SIDE_BY_SIDE_FRONT_SHARE: f64 = 0.42;
/// Share of a motorcycle's mass on its front wheel, standing upright in a chock: common practice.
///
/// On its side stand, the stand alone can carry 30 to 50 lb on 3 in², common practice: it wants a plate.
pub const MOTORCYCLE_FRONT_SHARE: f64 = 0.48;

/// How the panel runs over the crossmembers beside the loaded span.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Support {
    /// Cut at both crossmembers.
    OneSpan,
    /// Over one more span, and no further.
    TwoSpans,
    /// The last of many spans: the usual case, as the heaviest wheel often stands in the last bay at the ramp.
    EndSpan,
    /// A span amid many.
    InnerSpan,
}

/// Coefficients of a strip loaded at midspan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coefficients {
    /// Moment under the load over `P s`.
    pub sagging: f64,
    /// Moment over the crossmember beside it over `P s`, 0 or below.
    pub hogging: f64,
    /// Deflection under the load over that of one span, `P s³/(48 E I)`.
    pub deflection: f64,
}

impl Support {
    /// Every way of support, with its coefficients, for a load at midspan.
    ///
    /// Exact for one span and two. Many spans are taken as endless: with `r = 2 − √3` the moment over the
    /// crossmember is `−(3/8)/(4 − r)` beside an end span and `−(3/8)/(5 − r)` beside an inner one.
    ///
    /// A wheel at 0.43 of the span brings 2.1 % more sagging moment with two spans, 2.5 % more in an end span, and
    /// at 0.47 of it 0.8 % and 1.0 % more deflection; elsewhere midspan is the worst place.
    ///
    /// Source: equation of three moments (Clapeyron).
    pub const TABLE: [(Self, Coefficients); 4] = [
        (Self::OneSpan, Coefficients { sagging: 0.25, hogging: 0.0, deflection: 1.0 }),
        (Self::TwoSpans, Coefficients { sagging: 0.203_125, hogging: -0.093_75, deflection: 0.718_75 }),
        (
            Self::EndSpan,
            Coefficients { sagging: 0.199_759_526, hogging: -0.100_480_947, deflection: 0.698_557_159 },
        ),
        (
            Self::InnerSpan,
            Coefficients { sagging: 0.170_753_175, hogging: -0.079_246_825, deflection: 0.524_519_053 },
        ),
    ];

    /// Coefficients of this support.
    pub const fn coefficients(self) -> Coefficients {
        Self::TABLE[self as usize].1
    }
}

/// A strip of panel between crossmembers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strip {
    /// Effective width: the tire's and [`USUAL_EXTRA_WIDTH_M`] or [`CAUTIOUS_EXTRA_WIDTH_M`] `b` [m], > 0.
    pub width_m: f64,
    /// Thickness of the panel `t` [m], > 0.
    pub thickness_m: f64,
    /// Crossmember spacing `s` [m], > 0.
    pub span_m: f64,
    /// Modulus of elasticity along the span `E` [Pa], > 0.
    pub modulus_pa: f64,
    /// How the panel runs over the crossmembers.
    pub support: Support,
}

impl Strip {
    /// Second moment of area of the strip.
    ///
    /// `I = b t³ / 12`
    ///
    /// Returns it in [m⁴].
    ///
    /// Source: beam theory.
    pub fn second_moment_m4(&self) -> f64 {
        self.width_m * self.thickness_m.powi(3) / 12.0
    }

    /// Bending moment under a wheel at midspan.
    ///
    /// `M = c_M P s`
    ///
    /// - `wheel_kg`  wheel load `P` [kg], 0 or more
    ///
    /// Returns the moment [kg·m]; sagging, which exceeds the hogging moment beside it with every support.
    ///
    /// Source: beam theory; `c_M` from [`Support::TABLE`].
    pub fn moment_kg_m(&self, wheel_kg: f64) -> f64 {
        self.support.coefficients().sagging * wheel_kg * self.span_m
    }

    /// Bending stress under a wheel at midspan.
    ///
    /// `σ = 6 M / (b t²)`
    ///
    /// - `wheel_kg`  wheel load `P` [kg], 0 or more
    ///
    /// Returns the stress [Pa]. What is allowed follows from the panel's span rating.
    ///
    /// Source: beam theory.
    pub fn stress_pa(&self, wheel_kg: f64) -> f64 {
        let moment_n_m = self.moment_kg_m(wheel_kg) * STANDARD_GRAVITY_M_S2;
        6.0 * moment_n_m / (self.width_m * self.thickness_m * self.thickness_m)
    }

    /// Deflection under a wheel at midspan.
    ///
    /// `δ = c_δ P s³ / (48 E I)`
    ///
    /// - `wheel_kg`  wheel load `P` [kg], 0 or more
    ///
    /// Returns the deflection [m], to be no more than [`DEFLECTION_LIMIT`] of the span.
    ///
    /// Source: beam theory; `c_δ` from [`Support::TABLE`].
    pub fn deflection_m(&self, wheel_kg: f64) -> f64 {
        let load_n = wheel_kg * STANDARD_GRAVITY_M_S2;
        self.support.coefficients().deflection * load_n * self.span_m.powi(3)
            / (48.0 * self.modulus_pa * self.second_moment_m4())
    }
}

/// Load of one wheel of an axle that carries a share of the mass.
///
/// `P = share m / n`
///
/// - `mass_kg`  toy and everything on it `m` [kg], 0 or more
/// - `share`    share of it on this axle, 0 to 1
/// - `wheels`   wheels on this axle `n`, 1 or more
///
/// Returns the wheel load [kg], left and right alike.
///
/// Source: equilibrium of forces; default shares common practice.
pub fn wheel_load(mass_kg: f64, share: f64, wheels: u32) -> f64 {
    share * mass_kg / f64::from(wheels)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{PA_PER_PSI, inches, kg, lb, lb_in, m};

    /// A 23/32 panel in one span: spacing and width [in].
    fn strip(span_in: f64, width_in: f64) -> Strip {
        Strip {
            width_m: m(width_in),
            thickness_m: m(0.719),
            span_m: m(span_in),
            modulus_pa: 1.5e6 * PA_PER_PSI,
            support: Support::OneSpan,
        }
    }

    fn stress_psi(strip: Strip, wheel_lb: f64) -> String {
        format!("{:.1}", strip.stress_pa(kg(wheel_lb)) / PA_PER_PSI)
    }

    fn span_over_deflection(strip: Strip, wheel_lb: f64) -> String {
        format!("{:.0}", strip.span_m / strip.deflection_m(kg(wheel_lb)))
    }

    #[test]
    fn a_260_lb_wheel_on_16_in_centers_matches_the_pencil() {
        let strip = strip(16.0, 20.0);
        assert_eq!(format!("{:.0}", lb_in(strip.moment_kg_m(kg(260.0)))), "1040");
        assert_eq!(stress_psi(strip, 260.0), "603.5");
        // 20·0.719³/12
        assert_eq!(format!("{:.5}", strip.second_moment_m4() / M_PER_IN.powi(4)), "0.61949");
        assert_eq!(format!("{:.5}", inches(strip.deflection_m(kg(260.0)))), "0.02388");
        assert_eq!(span_over_deflection(strip, 260.0), "670");
    }

    #[test]
    fn a_narrower_strip_is_stressed_more() {
        assert_eq!(stress_psi(strip(16.0, 12.0), 260.0), "1005.9");
        assert_eq!(span_over_deflection(strip(16.0, 12.0), 260.0), "402");
    }

    #[test]
    fn a_wider_spacing_is_stressed_and_bent_more() {
        assert_eq!(stress_psi(strip(24.0, 20.0), 260.0), "905.3");
        assert_eq!(format!("{:.4}", inches(strip(24.0, 20.0).deflection_m(kg(260.0)))), "0.0806");
        assert_eq!(span_over_deflection(strip(24.0, 20.0), 260.0), "298");
    }

    #[test]
    fn a_heavier_wheel_is_stressed_and_bent_more() {
        assert_eq!(stress_psi(strip(16.0, 20.0), 410.0), "951.7");
        assert_eq!(span_over_deflection(strip(16.0, 20.0), 410.0), "425");
    }

    #[test]
    fn four_wheels_share_a_utility_atv() {
        let front_lb = lb(wheel_load(kg(700.0), UTILITY_ATV_FRONT_SHARE, 2));
        let rear_lb = lb(wheel_load(kg(700.0), 1.0 - UTILITY_ATV_FRONT_SHARE, 2));
        assert_eq!(format!("{front_lb:.1} {rear_lb:.1}"), "157.5 192.5");
    }

    #[test]
    fn the_table_is_in_the_order_of_the_supports() {
        for (support, coefficients) in Support::TABLE {
            assert_eq!(support.coefficients(), coefficients);
        }
    }

    /// Bending of a beam over `spans` equal spans, `P = s = E I = 1`, loaded at `place` of span `loaded`.
    ///
    /// By slope and deflection: the rotations over the supports solve the joints' equilibrium, a tridiagonal
    /// system, and give the end moments of the loaded span.
    fn beam(spans: usize, loaded: usize, place: f64) -> Coefficients {
        let (a, b) = (place, 1.0 - place);
        let (fixed_left, fixed_right) = (-a * b * b, a * a * b);
        let stiffness = |support: usize| if support == 0 || support == spans { 4.0 } else { 8.0 };
        let torque = |support: usize| {
            if support == loaded {
                -fixed_left
            } else if support == loaded + 1 {
                -fixed_right
            } else {
                0.0
            }
        };
        // Forward elimination and back substitution with 2 beside the diagonal.
        let (mut pivots, mut rotations) = (vec![stiffness(0)], vec![torque(0)]);
        for support in 1..=spans {
            let factor = 2.0 / pivots[support - 1];
            pivots.push(stiffness(support) - 2.0 * factor);
            rotations.push(torque(support) - factor * rotations[support - 1]);
        }
        rotations[spans] /= pivots[spans];
        for support in (0..spans).rev() {
            rotations[support] = (rotations[support] - 2.0 * rotations[support + 1]) / pivots[support];
        }
        // Sagging moments at the ends of the loaded span.
        let left = 4.0 * rotations[loaded] + 2.0 * rotations[loaded + 1] + fixed_left;
        let right = -(2.0 * rotations[loaded] + 4.0 * rotations[loaded + 1] + fixed_right);
        Coefficients {
            sagging: a * b + left * b + right * a,
            hogging: left.min(right),
            deflection: 48.0
                * (a * a * b * b / 3.0 + left * (b - b.powi(3)) / 6.0 + right * (a - a.powi(3)) / 6.0),
        }
    }

    /// Enough spans for the far ones not to matter at the digits of the table.
    const BEAMS: [(Support, usize, usize); 4] = [
        (Support::OneSpan, 1, 0),
        (Support::TwoSpans, 2, 0),
        (Support::EndSpan, 31, 0),
        (Support::InnerSpan, 31, 15),
    ];

    #[test]
    fn the_table_agrees_with_slope_and_deflection() {
        for (support, spans, loaded) in BEAMS {
            let (table, solved) = (support.coefficients(), beam(spans, loaded, 0.5));
            assert!((table.sagging - solved.sagging).abs() < 5e-10, "{support:?} {solved:?}");
            assert!((table.hogging - solved.hogging).abs() < 5e-10, "{support:?} {solved:?}");
            assert!((table.deflection - solved.deflection).abs() < 5e-10, "{support:?} {solved:?}");
        }
    }

    #[test]
    fn many_spans_agree_with_the_closed_form() {
        let r = 2.0 - 3.0_f64.sqrt();
        assert!((Support::EndSpan.coefficients().hogging + 0.375 / (4.0 - r)).abs() < 5e-10);
        assert!((Support::InnerSpan.coefficients().hogging + 0.375 / (5.0 - r)).abs() < 5e-10);
    }

    #[test]
    fn end_spans_agree_to_six_digits_with_nine_spans_and_the_middle_one_nearly() {
        let printed = |c: Coefficients| format!("{:.6} {:.6} {:.6}", c.sagging, c.hogging, c.deflection);
        assert_eq!(printed(Support::TwoSpans.coefficients()), "0.203125 -0.093750 0.718750");
        assert_eq!(printed(Support::EndSpan.coefficients()), "0.199760 -0.100481 0.698557");
        assert_eq!(printed(beam(9, 0, 0.5)), "0.199760 -0.100481 0.698557");
        // The middle of nine spans is not yet the limit of many to six digits; the table has the limit.
        assert_eq!(printed(beam(9, 4, 0.5)), "0.170755 -0.079245 0.524528");
        assert_eq!(printed(Support::InnerSpan.coefficients()), "0.170753 -0.079247 0.524519");
    }

    #[test]
    fn a_wheel_off_midspan_brings_little_more() {
        // Sagging, deflection, each at its worst place over that at midspan.
        let expected = [("1.000", "1.000"), ("1.021", "1.008"), ("1.025", "1.010"), ("1.000", "1.000")];
        for ((support, spans, loaded), (sagging, deflection)) in BEAMS.into_iter().zip(expected) {
            let table = support.coefficients();
            let swept = (0..=1000).map(|step| beam(spans, loaded, f64::from(step) / 1000.0));
            let worst = swept.fold((0.0_f64, 0.0_f64, 0.0_f64), |worst, at| {
                (
                    worst.0.max(at.sagging / table.sagging),
                    worst.1.max(at.deflection / table.deflection),
                    worst.2.max(-at.hogging / table.sagging),
                )
            });
            assert_eq!(format!("{:.3}", worst.0), sagging, "{support:?}");
            assert_eq!(format!("{:.3}", worst.1), deflection, "{support:?}");
            assert!(worst.2 < 1.0, "{support:?}: hogging governs");
        }
    }
}
