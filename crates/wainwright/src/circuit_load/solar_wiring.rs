//! Voltage and current of a solar array: strings of modules in series, strings in parallel.

pub use super::converter::output_a as controller_output_a;
use super::current::CONTINUOUS_FACTOR;

/// What a module's short-circuit current is raised by, for sun brighter than the test's.
///
/// Source: NFPA 70, 690.8(A)(1). The instructions of a module that takes light from both sides may ask for more.
pub const BRIGHT_SUN_FACTOR: f64 = 1.25;
/// Cell temperature at which a module's voltages are stated [°C] (standard test conditions).
pub const RATED_CELL_C: f64 = 25.0;

/// Voltage of a string at a cell temperature: `n V (1 + β (T − 25))`.
fn string_v(series: u32, module_v: f64, fraction_per_c: f64, cell_c: f64) -> f64 {
    f64::from(series) * module_v * (1.0 + fraction_per_c * (cell_c - RATED_CELL_C))
}

/// Highest voltage of a string, by the module's coefficient as a fraction.
///
/// `V_max = n V_oc (1 + β (T_min − 25))`
///
/// - `series`          modules in series n
/// - `voc_v`           open-circuit voltage of a module V_oc [V], 0 or more
/// - `fraction_per_c`  its temperature coefficient β [1/°C], below 0: −0.0028 for −0.28 %/°C
/// - `lowest_c`        lowest expected ambient temperature T_min [°C]
///
/// Returns the voltage [V], which controller, wire and connectors must bear.
///
/// Source: NFPA 70, 690.7(A).
pub fn cold_voltage_v(series: u32, voc_v: f64, fraction_per_c: f64, lowest_c: f64) -> f64 {
    string_v(series, voc_v, fraction_per_c, lowest_c)
}

/// Highest voltage of a string, by the module's coefficient in volts.
///
/// `V_max = n (V_oc + β_V (T_min − 25))`
///
/// - `series`, `voc_v`, `lowest_c`  as in [`cold_voltage_v`]
/// - `volts_per_c`                  temperature coefficient of a module β_V [V/°C], below 0
///
/// Returns the voltage [V].
///
/// Source: NFPA 70, 690.7(A).
pub fn cold_voltage_by_volts_v(series: u32, voc_v: f64, volts_per_c: f64, lowest_c: f64) -> f64 {
    f64::from(series) * (voc_v + volts_per_c * (lowest_c - RATED_CELL_C))
}

/// Highest voltage of a string of silicon modules whose coefficient is unknown.
///
/// `V_max = n V_oc f`
///
/// - `series`, `voc_v`  as in [`cold_voltage_v`]
/// - `factor`           f of Table 690.7(A) for the lowest expected ambient temperature, 1 or more
///
/// Returns the voltage [V].
///
/// Source: NFPA 70, 690.7(A) and its table.
pub fn cold_voltage_by_factor_v(series: u32, voc_v: f64, factor: f64) -> f64 {
    f64::from(series) * voc_v * factor
}

/// Voltage of a string at its maximum power when hot; it must stay above the battery's charge voltage and the
/// controller's headroom.
///
/// `V = n V_mp (1 + γ (T − 25))`
///
/// - `series`          modules in series n
/// - `vmp_v`           voltage of a module at maximum power V_mp [V], 0 or more
/// - `fraction_per_c`  its temperature coefficient γ [1/°C], below 0
/// - `cell_c`          highest cell temperature T [°C]
///
/// Returns the voltage [V].
///
/// Source: `common practice`.
pub fn hot_voltage_v(series: u32, vmp_v: f64, fraction_per_c: f64, cell_c: f64) -> f64 {
    string_v(series, vmp_v, fraction_per_c, cell_c)
}

/// Maximum current of strings in parallel.
///
/// `I_max = 1.25 N I_sc`
///
/// - `strings`  N
/// - `isc_a`    short-circuit current of a string I_sc [A], 0 or more
///
/// Returns the current [A]: what the conductor must carry after corrections.
///
/// Source: NFPA 70, 690.8(A)(1).
pub fn most_current_a(strings: u32, isc_a: f64) -> f64 {
    BRIGHT_SUN_FACTOR * f64::from(strings) * isc_a
}

/// Current a solar conductor, before corrections, and an overcurrent device must be made for.
///
/// `1.25 I_max`
///
/// - `most_current_a`  I_max from [`most_current_a`] [A], 0 or more
///
/// Returns the current [A].
///
/// Source: NFPA 70, 690.8(B), 690.9(B).
pub fn conductor_a(most_current_a: f64) -> f64 {
    CONTINUOUS_FACTOR * most_current_a
}

/// Least rating of a string's own fuse; the most is the module's maximum series fuse.
///
/// `1.25 · 1.25 I_sc = 1.5625 I_sc`
///
/// - `isc_a`  short-circuit current of the string I_sc [A], 0 or more
///
/// Returns the rating [A].
///
/// Source: NFPA 70, 690.9(B).
pub fn least_string_fuse_a(isc_a: f64) -> f64 {
    conductor_a(most_current_a(1, isc_a))
}

/// Current the other strings can drive back into one that has failed.
///
/// `(N − 1) 1.25 I_sc`
///
/// - `strings`  N
/// - `isc_a`    short-circuit current of a string I_sc [A], 0 or more
///
/// Returns the current [A]; 0 for a single string or none.
///
/// Source: Kirchhoff's current law, with the maximum current of NFPA 70, 690.8(A)(1).
pub fn backfeed_a(strings: u32, isc_a: f64) -> f64 {
    most_current_a(strings.saturating_sub(1), isc_a)
}

/// Whether each string needs a fuse of its own: the others could drive more into it than its modules bear.
///
/// `(N − 1) 1.25 I_sc > F`
///
/// - `strings`, `isc_a`   as in [`backfeed_a`]
/// - `max_series_fuse_a`  maximum series fuse marked on the module F [A], > 0
///
/// Source: NFPA 70, 690.9(A).
pub fn needs_string_fuse(strings: u32, isc_a: f64, max_series_fuse_a: f64) -> bool {
    super::current::over(backfeed_a(strings, isc_a), max_series_fuse_a)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cold_lifts_the_voltage_by_any_form() {
        assert_eq!(format!("{:.2}", cold_voltage_v(12, 38.3, -0.0036, -7.0)), "512.55");
        assert_eq!(format!("{:.2}", cold_voltage_by_volts_v(12, 38.3, -0.137, -7.0)), "512.21");
        assert_eq!(format!("{:.2}", cold_voltage_by_factor_v(12, 38.3, 1.14)), "523.94");
        assert_eq!(format!("{:.3}", cold_voltage_v(2, 22.6, -0.0028, -20.0)), "50.895");
        assert_eq!(cold_voltage_v(2, 22.6, -0.0028, 25.0), 45.2);
    }

    #[test]
    fn heat_lowers_the_voltage() {
        assert_eq!(format!("{:.2}", hot_voltage_v(1, 18.0, -0.004, 70.0)), "14.76");
    }

    #[test]
    fn conductors_are_made_for_bright_sun_all_day() {
        assert_eq!(format!("{:.4}", most_current_a(1, 5.46)), "6.8250");
        assert_eq!(format!("{:.2}", conductor_a(most_current_a(1, 8.8))), "13.75");
        assert_eq!(conductor_a(most_current_a(2, 8.0)), 25.0);
        assert_eq!(least_string_fuse_a(8.0), 12.5);
    }

    #[test]
    fn two_strings_need_no_fuses_and_three_may() {
        assert_eq!(format!("{:.2} {:.2}", backfeed_a(3, 9.8), backfeed_a(2, 9.8)), "24.50 12.25");
        assert!(needs_string_fuse(3, 9.8, 20.0));
        assert!(!needs_string_fuse(2, 9.8, 20.0));
        assert!(!needs_string_fuse(3, 8.0, 20.0));
        assert_eq!((backfeed_a(1, 9.8), backfeed_a(0, 9.8)), (0.0, 0.0));
    }

    #[test]
    fn a_controller_puts_out_no_more_than_its_rating() {
        assert_eq!(controller_output_a(600.0, 0.97, 12.0, 40.0), 40.0);
        assert_eq!(conductor_a(40.0), 50.0);
    }
}
