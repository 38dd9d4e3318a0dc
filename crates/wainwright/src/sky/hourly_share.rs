//! What share of a day's sunshine falls in each of its hours, on a day like the mean of many.

use std::f64::consts::{FRAC_PI_3, PI};

/// Share of a day's global irradiation in the hour about an hour angle.
///
/// ```text
/// r_t = (π/24) (a + b cos ω) (cos ω − cos ωs) / (sin ωs − ωs cos ωs)
/// a = 0.409 + 0.5016 sin(ωs − 60°)      b = 0.6609 − 0.4767 sin(ωs − 60°)
/// ```
///
/// - `hour_angle_rad`  hour angle of the hour's middle ω [rad]; outside daylight the share is 0
/// - `sunset_rad`      hour angle at which the sun sets ωs [rad], 0 to π
///
/// Returns the share, 0 or more. Over the hours of a day they make up 0.99 to 1.01: [`make_whole`] them.
///
/// Source: Collares-Pereira and Rabl 1979, Solar Energy 22, 155–164; Duffie and Beckman, eq. 2.13.2 (`from memory`).
pub fn global_share(hour_angle_rad: f64, sunset_rad: f64) -> f64 {
    let after_sixty = (sunset_rad - FRAC_PI_3).sin();
    let (a, b) = (0.409 + 0.5016 * after_sixty, 0.6609 - 0.4767 * after_sixty);
    ((a + b * hour_angle_rad.cos()) * diffuse_share(hour_angle_rad, sunset_rad)).max(0.0)
}

/// Share of a day's diffuse irradiation in the hour about an hour angle: that of the sunshine outside the atmosphere.
///
/// `r_d = (π/24) (cos ω − cos ωs) / (sin ωs − ωs cos ωs)`
///
/// - `hour_angle_rad`  hour angle of the hour's middle ω [rad]; outside daylight the share is 0
/// - `sunset_rad`      hour angle at which the sun sets ωs [rad], 0 to π
///
/// Returns the share, 0 or more. Over the hours of a day they make up 0.99 to 1.01: [`make_whole`] them.
///
/// Source: Liu and Jordan 1960, Solar Energy 4, 1–19; Duffie and Beckman, eq. 2.13.4 (`from memory`).
pub fn diffuse_share(hour_angle_rad: f64, sunset_rad: f64) -> f64 {
    let (sin_sunset, cos_sunset) = sunset_rad.sin_cos();
    let above = hour_angle_rad.cos() - cos_sunset;
    if above <= 0.0 || hour_angle_rad.abs() >= sunset_rad {
        return 0.0;
    }
    PI / 24.0 * above / (sin_sunset - sunset_rad * cos_sunset)
}

/// Scales shares so that they make up one whole. Where all are 0 they stay so.
pub fn make_whole(shares: &mut [f64]) {
    let sum: f64 = shares.iter().sum();
    if sum > 0.0 {
        shares.iter_mut().for_each(|share| *share /= sum);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hours() -> [f64; 24] {
        std::array::from_fn(|hour| (hour as f64 - 11.5) * PI / 12.0)
    }

    #[test]
    fn shares_are_made_to_fill_the_day() {
        for sunset_deg in [20.0, 60.0, 90.0, 150.0, 180.0_f64] {
            for share in [global_share, diffuse_share] {
                let mut shares = hours().map(|hour_rad| share(hour_rad, sunset_deg.to_radians()));
                make_whole(&mut shares);
                assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-15, "{sunset_deg}");
                assert!(shares.iter().all(|share| *share >= 0.0));
            }
        }
    }

    #[test]
    fn global_light_keeps_closer_to_noon_than_diffuse() {
        let sunset_rad = 100_f64.to_radians();
        assert!(global_share(0.1, sunset_rad) > diffuse_share(0.1, sunset_rad));
        assert!(global_share(1.5, sunset_rad) < diffuse_share(1.5, sunset_rad));
    }

    #[test]
    fn a_day_without_sun_has_no_shares() {
        let mut shares = hours().map(|hour_rad| global_share(hour_rad, 0.0));
        make_whole(&mut shares);
        assert_eq!(shares, [0.0; 24]);
    }
}
