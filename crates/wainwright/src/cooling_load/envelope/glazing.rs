//! What sun comes in through a window, against how squarely it strikes.
//!
//! Kinds of windows and covers stand in [`crate::standards::glazing`]. A window has no sol-air temperature: it conducts by
//! the air outside, or its sun would count twice.

use crate::sky::plane::Falling;

/// Angle of incidence [degrees] and SHGC of one pane of clear glass, 1/8 in.
const SINGLE_CLEAR: [(f64, f64); 7] =
    [(0.0, 0.86), (40.0, 0.84), (50.0, 0.82), (60.0, 0.78), (70.0, 0.67), (80.0, 0.42), (90.0, 0.0)];

/// Heat of beam that one pane lets in, by that when it is struck squarely.
///
/// `SHGC(θ) / SHGC(0)` of clear glass, straight between 0, 40, 50, 60, 70, 80 and 90 degrees
///
/// - `cos_incidence`  cosine of the angle of incidence θ; 0 or below gives 0, above 1 counts as 1. The table is by angle, so
///   that each call takes an arc cosine
///
/// Returns 0 to 1.
///
/// Source: ASHRAE Handbook Fundamentals 2005, chapter 31, uncoated single glazing; other panes keep the ratio to 0.02.
pub fn single_factor(cos_incidence: f64) -> f64 {
    if cos_incidence <= 0.0 {
        return 0.0;
    }
    let degrees = cos_incidence.min(1.0).acos().to_degrees();
    let low = SINGLE_CLEAR[1..6].iter().take_while(|(printed, _)| degrees > *printed).count();
    let [(low_deg, low_shgc), (high_deg, high_shgc)] = [SINGLE_CLEAR[low], SINGLE_CLEAR[low + 1]];
    let part = (degrees - low_deg) / (high_deg - low_deg);
    (low_shgc + part * (high_shgc - low_shgc)) / SINGLE_CLEAR[0].1
}

/// Heat of beam that two panes let in, by that when they are struck squarely.
///
/// `1 − 0.189 θ + 0.644 θ² − 0.596 θ³`, 0 to 1
///
/// - `cos_incidence`  cosine of the angle of incidence θ, in radians in the polynomial; 0 or below gives 0, above 1 counts
///   as 1
///
/// Source: fitted to the window of ASHRAE Standard 140; it dips to 0.983 at 10°, which is the fit's, not the glass's.
pub fn double_factor(cos_incidence: f64) -> f64 {
    if cos_incidence <= 0.0 {
        return 0.0;
    }
    let x = cos_incidence.min(1.0).acos();
    (1.0 + x * (-0.189 + x * (0.644 - 0.596 * x))).clamp(0.0, 1.0)
}

/// Heat of light from sky and ground that one pane lets in, by that of beam that strikes it squarely: 0.78 / 0.86.
///
/// Source: ASHRAE Handbook Fundamentals 2005, chapter 31, uncoated single glazing.
pub const SINGLE_DIFFUSE: f64 = 0.78 / 0.86;
/// Heat of light from sky and ground that two panes let in, by that of beam that strikes them squarely.
///
/// Source: [`double_factor`] on average over an evenly bright half of space.
pub const DOUBLE_DIFFUSE: f64 = 0.871;

/// A window as the sun meets it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Glass {
    /// Panes one behind another: [`single_factor`] counts for one, [`double_factor`] for two and more.
    pub panes: u8,
    /// Share of the sun's heat that comes in when it is struck squarely (SHGC), 0 to 1.
    pub shgc: f64,
    /// Share of that which comes in past curtain or shade (IAC), 0 to 1.
    pub share_past_cover: f64,
}

/// Heat of the sun that comes in through a window.
///
/// `[SHGC f(θ) I_beam + SHGC f_dif (I_sky + I_ground)] IAC`
///
/// - `glass`    the window
/// - `falling`  what falls on it
///
/// Returns the heat by the window's area [W/m²].
///
/// Source: ASHRAE Handbook Fundamentals 2009, chapter 15, solar heat gain coefficient.
pub fn sun_let_in_w_m2(glass: Glass, falling: Falling) -> f64 {
    let (factor, diffuse) = if glass.panes < 2 {
        (single_factor(falling.cos_incidence), SINGLE_DIFFUSE)
    } else {
        (double_factor(falling.cos_incidence), DOUBLE_DIFFUSE)
    };
    glass.shgc
        * glass.share_past_cover
        * (factor * falling.beam_w_m2 + diffuse * (falling.sky_w_m2 + falling.ground_w_m2))
}

/// Heat that comes in through a window.
///
/// `Q = A [q_sun + U (T_o − T_in)]`
///
/// - `area_m2`   area of the window, with its frame where U and SHGC are of the whole unit A [m²], 0 or more
/// - `sun_w_m2`  heat of the sun let in q_sun [W/m²], from [`sun_let_in_w_m2`]
/// - `u_w_m2_k`  transmittance U [W/(m²·K)], 0 or more
/// - `outdoor_c`, `room_c`  temperatures of the air outside T_o and inside T_in [°C]
///
/// Returns Q [W]; below 0 heat leaves.
///
/// Source: ASHRAE Handbook Fundamentals 2009, chapter 15, instantaneous energy flow through fenestration.
pub fn window_w(area_m2: f64, sun_w_m2: f64, u_w_m2_k: f64, outdoor_c: f64, room_c: f64) -> f64 {
    area_m2 * (sun_w_m2 + u_w_m2_k * (outdoor_c - room_c))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const FALLING: Falling =
        Falling { cos_incidence: 1.0, beam_w_m2: 500.0, sky_w_m2: 100.0, ground_w_m2: 50.0 };

    #[test]
    fn factors_are_one_when_struck_squarely_and_nothing_from_behind() {
        for factor in [single_factor, double_factor] {
            assert_eq!([1.0, 1.0 + 1e-15, 0.0, -0.5].map(factor), [1.0, 1.0, 0.0, 0.0]);
        }
    }

    /// Source: ASHRAE Handbook Fundamentals 2005, chapter 31: printed to two digits.
    #[test]
    fn one_pane_is_as_printed() {
        for (degrees, shgc) in SINGLE_CLEAR {
            let worked_out = 0.86 * single_factor(degrees.to_radians().cos());
            assert_eq!(format!("{worked_out:.2}"), format!("{shgc:.2}"));
        }
    }

    /// The mean of a factor over an evenly bright half of space: `∫ 2 f cos θ d(cos θ)`.
    fn mean(factor: fn(f64) -> f64) -> f64 {
        let steps = 20_000;
        let cosines = (0..steps).map(|step| (f64::from(step) + 0.5) / f64::from(steps));
        cosines.map(|cos| 2.0 * cos * factor(cos)).sum::<f64>() / f64::from(steps)
    }

    #[test]
    fn light_from_all_sides_counts_by_the_mean_factor() {
        assert_eq!(format!("{:.3}", mean(double_factor)), format!("{DOUBLE_DIFFUSE:.3}"));
        // The printed one, to the two digits it is printed with.
        assert_eq!(format!("{:.2}", 0.86 * mean(single_factor)), "0.78");
    }

    #[test]
    fn a_window_lets_in_sun_and_conducts_by_the_air() {
        let bare = Glass { panes: 1, shgc: 0.86, share_past_cover: 1.0 };
        let sun_w_m2 = sun_let_in_w_m2(bare, FALLING);
        assert!((sun_w_m2 - (0.86 * 500.0 + 0.78 * 150.0)).abs() < 1e-9);
        let covered = Glass { share_past_cover: 0.35, ..bare };
        assert!((sun_let_in_w_m2(covered, FALLING) - 0.35 * sun_w_m2).abs() < 1e-9);
        assert!(sun_let_in_w_m2(Glass { panes: 2, ..bare }, FALLING) < sun_w_m2);
        assert!((window_w(0.5, 100.0, 5.8, 35.0, 25.0) - 79.0).abs() < 1e-12);
        assert!(window_w(0.5, 0.0, 5.8, 0.0, 20.0) < 0.0);
    }

    proptest! {
        #[test]
        fn one_pane_lets_in_no_more_the_more_it_is_grazed(cos in 0.0..1.0f64, less in 0.0..1.0f64) {
            prop_assert!(single_factor(cos * less) <= single_factor(cos));
            prop_assert!((0.0..=1.0).contains(&double_factor(cos)));
        }
    }
}
