//! What warmth people accept where they open windows and wear what they like.

/// Half the width of the band that 80 % accept [K]. Source: ANSI/ASHRAE 55-2020, 5.4.
pub const ACCEPTED_BY_80_PERCENT_K: f64 = 3.5;
/// Half the width of the band that 90 % accept [K]. Source: ANSI/ASHRAE 55-2020, 5.4.
pub const ACCEPTED_BY_90_PERCENT_K: f64 = 2.5;
/// Outdoor running means for which the band is known [°C]. Source: ANSI/ASHRAE 55-2020, 5.4.
pub const RUNNING_MEAN_C: (f64, f64) = (10.0, 33.5);
/// Temperature above which moving air is worth anything [°C]. Source: ANSI/ASHRAE 55-2020, 5.4.
const WARM_C: f64 = 25.0;

/// What people accept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// The coolest [°C].
    pub lower_c: f64,
    /// The temperature most like [°C].
    pub comfort_c: f64,
    /// The warmest [°C].
    pub upper_c: f64,
}

/// What moving air is worth in the warmth.
///
/// 1.2 K from 0.6 m/s, 1.8 K from 0.9 m/s, 2.2 K from 1.2 m/s
///
/// - `air_speed_m_s`  speed of the air at the people [m/s], 0 or more
///
/// Returns by how much warmer it may be [K].
///
/// Source: ANSI/ASHRAE 55-2020, 5.4, table of increases for air speed.
pub fn air_movement_k(air_speed_m_s: f64) -> f64 {
    match air_speed_m_s {
        speed if speed >= 1.2 => 2.2,
        speed if speed >= 0.9 => 1.8,
        speed if speed >= 0.6 => 1.2,
        _ => 0.0,
    }
}

/// The adaptive band of comfort, of the operative temperature.
///
/// `T_c = 0.31 T_rm + 17.8`, `T_c ± Δ`, above 25 °C the upper end raised by [`air_movement_k`]
///
/// - `running_mean_c`  running mean of the temperature outdoors over the days before T_rm [°C], 10 to 33.5
/// - `half_width_k`    Δ [K]: [`ACCEPTED_BY_80_PERCENT_K`] or [`ACCEPTED_BY_90_PERCENT_K`]
/// - `air_speed_m_s`   speed of the air at the people [m/s], 0 or more
///
/// Returns none where the running mean is beyond what is known.
///
/// Source: ANSI/ASHRAE 55-2020, 5.4.
pub fn adaptive(running_mean_c: f64, half_width_k: f64, air_speed_m_s: f64) -> Option<Band> {
    let comfort_c = 0.31 * running_mean_c + 17.8;
    let still_c = comfort_c + half_width_k;
    // Below 25 °C the movement counts for nothing, but it may carry the band beyond it.
    let moved_c = still_c + air_movement_k(air_speed_m_s);
    let upper_c = if moved_c > WARM_C { moved_c } else { still_c };
    let (least_c, most_c) = RUNNING_MEAN_C;
    (least_c..=most_c).contains(&running_mean_c).then_some(Band {
        lower_c: comfort_c - half_width_k,
        comfort_c,
        upper_c,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    // Figures printed are those of pythermalcomfort 4.8.1 at an operative temperature of 27 °C.

    #[test]
    fn the_band_follows_the_days_before() {
        let printed = [20.0, 25.0, 30.0].map(|running_mean_c| {
            let Band { lower_c, comfort_c, upper_c } =
                adaptive(running_mean_c, ACCEPTED_BY_80_PERCENT_K, 0.1).unwrap();
            format!("{lower_c:.2} {comfort_c:.2} {upper_c:.2}")
        });
        assert_eq!(printed, ["20.50 24.00 27.50", "22.05 25.55 29.05", "23.60 27.10 30.60"]);
        let narrow = adaptive(20.0, ACCEPTED_BY_90_PERCENT_K, 0.1).unwrap();
        assert_eq!(format!("{:.1} {:.1}", narrow.lower_c, narrow.upper_c), "21.5 26.5");
    }

    #[test]
    fn moving_air_carries_the_upper_end() {
        let upper = [0.5, 0.6, 0.9, 1.2]
            .map(|speed| format!("{:.2}", adaptive(25.0, ACCEPTED_BY_80_PERCENT_K, speed).unwrap().upper_c));
        assert_eq!(upper, ["29.05", "30.25", "30.85", "31.25"]);
        // 24.6 °C with 0.6 m/s would lie below 25 °C, where moving air counts for nothing.
        let cool = |speed| adaptive(10.0, ACCEPTED_BY_90_PERCENT_K, speed).unwrap().upper_c;
        assert_eq!(format!("{:.1} {:.1} {:.1}", cool(0.0), cool(0.6), cool(1.2)), "23.4 23.4 25.6");
    }

    #[test]
    fn beyond_what_is_known_there_is_no_band() {
        assert_eq!(adaptive(9.9, ACCEPTED_BY_80_PERCENT_K, 0.1), None);
        assert_eq!(adaptive(33.6, ACCEPTED_BY_80_PERCENT_K, 0.1), None);
        assert_eq!(adaptive(f64::NAN, ACCEPTED_BY_80_PERCENT_K, 0.1), None);
        assert!(adaptive(33.5, ACCEPTED_BY_80_PERCENT_K, 0.1).is_some());
    }
}
