//! The sun of a whole day in light formulae, for checks and monthly means. Hour by hour the exact sun of
//! [`sun`](super::sun) is used: the declination here is up to 1.2° off.
//!
//! The hour angle ω is true solar time from noon, 15° an hour, positive in the afternoon.

use std::f64::consts::{PI, TAU};

use super::sun::Direction;

/// Declination of the sun.
///
/// `δ = 23.45° sin[360° (284 + n) / 365]`
///
/// - `day_of_year`  n, 1 to 366
///
/// Returns δ [rad], within 1.2° of the exact one.
///
/// Source: Cooper 1969, Solar Energy 12, 333–346; Duffie and Beckman, eq. 1.6.1a (`from memory`).
pub fn declination_rad(day_of_year: u16) -> f64 {
    23.45_f64.to_radians() * (TAU * (284.0 + f64::from(day_of_year)) / 365.0).sin()
}

/// Equation of time: true solar time less mean solar time.
///
/// `229.2 (0.000075 + 0.001868 cos B − 0.032077 sin B − 0.014615 cos 2B − 0.04089 sin 2B)`, `B = 2π (n − 1) / 365`
///
/// - `day_of_year`  n, 1 to 366
///
/// Returns the difference [min], −14.3 to 16.4.
///
/// Source: Spencer 1971, Search 2, 172; Duffie and Beckman, eq. 1.5.3 (`from memory`).
pub fn equation_of_time_min(day_of_year: u16) -> f64 {
    let angle_rad = TAU * (f64::from(day_of_year) - 1.0) / 365.0;
    let (sin, cos) = angle_rad.sin_cos();
    let (sin_twice, cos_twice) = (2.0 * angle_rad).sin_cos();
    229.2 * (0.000_075 + 0.001_868 * cos - 0.032_077 * sin - 0.014_615 * cos_twice - 0.040_89 * sin_twice)
}

/// Hour angle at a time of local standard time.
///
/// `ω = 15° (t − 12) + λ − 15° z + E / 4`, E / 4 being degrees of minutes
///
/// - `standard_h`            local standard time t [h]
/// - `utc_offset_h`          local standard time less universal time z [h]
/// - `longitude_rad`         longitude λ [rad], positive east
/// - `equation_of_time_min`  E [min], see [`equation_of_time_min`]
///
/// Returns ω [rad], not brought within a turn.
///
/// Source: Duffie and Beckman, eq. 1.5.2 (`from memory`), with longitudes positive east.
pub fn hour_angle_rad(
    standard_h: f64,
    utc_offset_h: f64,
    longitude_rad: f64,
    equation_of_time_min: f64,
) -> f64 {
    let mean_solar_h = standard_h - 12.0 - utc_offset_h;
    (mean_solar_h + equation_of_time_min / 60.0) * TAU / 24.0 + longitude_rad
}

/// Where the sun stands at an hour angle.
///
/// `up = cos θz = cos φ cos δ cos ω + sin φ sin δ`, `east = −cos δ sin ω`, `north = cos φ sin δ − sin φ cos δ cos ω`
///
/// - `latitude_rad`     latitude φ [rad], −π/2 to π/2, positive north
/// - `declination_rad`  declination δ [rad]
/// - `hour_angle_rad`   hour angle ω [rad]
///
/// Source: Duffie and Beckman, eq. 1.6.5 (`from memory`), and the other two sides of the same triangle.
pub fn direction(latitude_rad: f64, declination_rad: f64, hour_angle_rad: f64) -> Direction {
    let (sin_latitude, cos_latitude) = latitude_rad.sin_cos();
    let (sin_declination, cos_declination) = declination_rad.sin_cos();
    let (sin_hour, cos_hour) = hour_angle_rad.sin_cos();
    Direction {
        east: -cos_declination * sin_hour,
        north: cos_latitude * sin_declination - sin_latitude * cos_declination * cos_hour,
        up: cos_latitude * cos_declination * cos_hour + sin_latitude * sin_declination,
    }
}

/// Hour angle at which the sun sets; it rises at its opposite.
///
/// `cos ωs = −tan φ tan δ`, held within −1 and 1
///
/// - `latitude_rad`     latitude φ [rad], −π/2 to π/2, positive north
/// - `declination_rad`  declination δ [rad]
///
/// Returns ωs [rad]: 0 where it does not rise that day, π where it does not set.
///
/// Source: Duffie and Beckman, eq. 1.6.10 (`from memory`).
pub fn sunset_hour_angle_rad(latitude_rad: f64, declination_rad: f64) -> f64 {
    (-latitude_rad.tan() * declination_rad.tan()).clamp(-1.0, 1.0).acos()
}

/// Factor on the solar constant for the distance of the sun, in its short form.
///
/// `1 + 0.033 cos(360° n / 365)`
///
/// - `day_of_year`  n, 1 to 366
///
/// Within 0.3 % of [`distance_factor`](super::air_mass::distance_factor), which is used hour by hour.
///
/// Source: Duffie and Beckman, eq. 1.4.1a (`from memory`).
pub fn short_distance_factor(day_of_year: u16) -> f64 {
    1.0 + 0.033 * (TAU * f64::from(day_of_year) / 365.0).cos()
}

/// Irradiation of a horizontal plane outside the atmosphere in a day.
///
/// `H₀ = (86400 / π) G (cos φ cos δ sin ωs + ωs sin φ sin δ)`
///
/// - `extraterrestrial_w_m2`  irradiance facing the sun G [W/m²], 0 or more
/// - `latitude_rad`           latitude φ [rad], −π/2 to π/2
/// - `declination_rad`        declination δ [rad]
///
/// Returns H₀ [J/m²], 0 where the sun does not rise.
///
/// Source: Duffie and Beckman, eq. 1.10.3 (`from memory`).
pub fn extraterrestrial_day_j_m2(extraterrestrial_w_m2: f64, latitude_rad: f64, declination_rad: f64) -> f64 {
    let sunset_rad = sunset_hour_angle_rad(latitude_rad, declination_rad);
    extraterrestrial_hours_j_m2(extraterrestrial_w_m2, latitude_rad, declination_rad, -sunset_rad, sunset_rad)
}

/// Irradiation of a horizontal plane outside the atmosphere between two hour angles.
///
/// `I₀ = (43200 / π) G [cos φ cos δ (sin ω₂ − sin ω₁) + (ω₂ − ω₁) sin φ sin δ]`
///
/// - `extraterrestrial_w_m2`  irradiance facing the sun G [W/m²], 0 or more
/// - `latitude_rad`           latitude φ [rad], −π/2 to π/2
/// - `declination_rad`        declination δ [rad]
/// - `from_rad`, `to_rad`     hour angles ω₁ and ω₂ [rad]; before sunrise and after sunset count as those
///
/// Returns I₀ [J/m²], 0 or more.
///
/// Source: Duffie and Beckman, eq. 1.10.4 (`from memory`).
pub fn extraterrestrial_hours_j_m2(
    extraterrestrial_w_m2: f64,
    latitude_rad: f64,
    declination_rad: f64,
    from_rad: f64,
    to_rad: f64,
) -> f64 {
    let sunset_rad = sunset_hour_angle_rad(latitude_rad, declination_rad);
    let (from_rad, to_rad) = (from_rad.clamp(-sunset_rad, sunset_rad), to_rad.clamp(-sunset_rad, sunset_rad));
    let (sin_latitude, cos_latitude) = latitude_rad.sin_cos();
    let (sin_declination, cos_declination) = declination_rad.sin_cos();
    let swept = cos_latitude * cos_declination * (to_rad.sin() - from_rad.sin())
        + (to_rad - from_rad) * sin_latitude * sin_declination;
    // At the edge of polar night the two terms cancel but for rounding.
    (43_200.0 / PI * extraterrestrial_w_m2 * swept).max(0.0)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use super::*;
    use crate::sky::air_mass::distance_factor;
    use crate::sky::sun::{DELTA_T_S, Sun};

    /// 2024-01-01 12:00 UTC.
    const NEW_YEAR_S: f64 = 1_704_110_400.0;

    #[test]
    fn declination_and_time_are_near_the_exact_ones() {
        let (mut declination_deg, mut time_min) = (0.0_f64, 0.0_f64);
        for day in 1..=366 {
            let sun = Sun::at(NEW_YEAR_S + 86_400.0 * (f64::from(day) - 1.0), DELTA_T_S).unwrap();
            let exact_rad = sun.sin_declination.asin();
            declination_deg = declination_deg.max((declination_rad(day) - exact_rad).to_degrees().abs());
            let exact_min = sun.hour_angle_rad(0.0).to_degrees() * 4.0;
            time_min = time_min.max((equation_of_time_min(day) - exact_min).abs());
        }
        assert!((1.1..1.2).contains(&declination_deg), "{declination_deg}");
        assert!((0.2..0.7).contains(&time_min), "{time_min}");
    }

    #[test]
    fn the_sun_rises_and_sets_where_it_stands_on_the_horizon() {
        for latitude_deg in [-66.0, -40.0, 0.0, 23.0, 51.5_f64] {
            for day in [1, 80, 172, 266, 355] {
                let (latitude_rad, declination_rad) = (latitude_deg.to_radians(), declination_rad(day));
                let sunset_rad = sunset_hour_angle_rad(latitude_rad, declination_rad);
                assert!(direction(latitude_rad, declination_rad, sunset_rad).up.abs() < 1e-15);
            }
        }
    }

    #[test]
    fn polar_day_and_night_are_whole() {
        let (north_rad, june_rad) = (75_f64.to_radians(), declination_rad(172));
        assert_eq!(sunset_hour_angle_rad(north_rad, june_rad), PI);
        assert_eq!(sunset_hour_angle_rad(-north_rad, june_rad), 0.0);
        assert_eq!(extraterrestrial_day_j_m2(1367.0, -north_rad, june_rad), 0.0);
        assert_eq!(extraterrestrial_hours_j_m2(1367.0, -north_rad, june_rad, -1.0, 1.0), 0.0);
        // At the pole the sun goes round at the height of its declination.
        let pole_j_m2 = extraterrestrial_day_j_m2(1367.0, FRAC_PI_2, june_rad);
        assert!((pole_j_m2 / (86_400.0 * 1367.0 * june_rad.sin()) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_hours_make_up_the_day() {
        for latitude_deg in [-80.0, -35.0, 10.0, 62.0, 70.0_f64] {
            for day in [17, 105, 162, 288] {
                let (latitude_rad, declination_rad) = (latitude_deg.to_radians(), declination_rad(day));
                let day_j_m2 = extraterrestrial_day_j_m2(1367.0, latitude_rad, declination_rad);
                let hours_j_m2: f64 = (-12..12)
                    .map(|hour| {
                        let [from_rad, to_rad] = [hour, hour + 1].map(|h| f64::from(h) * TAU / 24.0);
                        extraterrestrial_hours_j_m2(1367.0, latitude_rad, declination_rad, from_rad, to_rad)
                    })
                    .sum();
                assert!((day_j_m2 - hours_j_m2).abs() < 1e-6, "{latitude_deg} {day}");
            }
        }
    }

    #[test]
    fn noon_is_noon_where_the_clock_is_the_suns() {
        assert_eq!(hour_angle_rad(12.0, 0.0, 0.0, 0.0), 0.0);
        // A quarter of an hour is 3.75°, and 15° of longitude an hour of the clock.
        let east_deg = hour_angle_rad(12.25, 1.0, 15_f64.to_radians(), 0.0).to_degrees();
        assert!((east_deg - 3.75).abs() < 1e-12, "{east_deg}");
        assert!((hour_angle_rad(12.0, 0.0, 0.0, 4.0).to_degrees() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_short_distance_factor_is_near_the_long_one() {
        let most = (1..=365)
            .map(|n| (short_distance_factor(n) / distance_factor(n) - 1.0).abs())
            .fold(0.0, f64::max);
        assert!((0.001..0.003).contains(&most), "{most}");
    }
}
