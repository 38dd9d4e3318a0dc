//! How cold the surface inside gets, and whether water condenses on it.

/// Temperature of the surface inside a wall or window.
///
/// `T_si = T_i − U R_si (T_i − T_o)`
///
/// - `room_c`         air inside T_i [°C]
/// - `outdoor_c`      air outside T_o [°C]
/// - `u_w_m2_k`       transmittance at the place U [W/(m²·K)], 0 to 1/R_si
/// - `inside_m2_k_w`  resistance of the surface R_si [m²·K/W], 0 or more
///
/// Returns T_si [°C].
///
/// Source: ISO 13788, heat balance of the surface.
pub fn surface_c(room_c: f64, outdoor_c: f64, u_w_m2_k: f64, inside_m2_k_w: f64) -> f64 {
    surface_by_factor_c(room_c, outdoor_c, factor(u_w_m2_k, inside_m2_k_w))
}

/// Temperature factor of the surface inside a wall without bridges.
///
/// `f_Rsi = 1 − U R_si`
///
/// - `u_w_m2_k`       transmittance U [W/(m²·K)], 0 to 1/R_si
/// - `inside_m2_k_w`  resistance of the surface R_si [m²·K/W], 0 or more
///
/// Returns f_Rsi, 0 to 1: 0 the surface is as cold as outside, 1 as warm as the room.
///
/// Source: ISO 13788, temperature factor at the internal surface.
pub fn factor(u_w_m2_k: f64, inside_m2_k_w: f64) -> f64 {
    1.0 - u_w_m2_k * inside_m2_k_w
}

/// Temperature of the surface inside at a place whose temperature factor is known, such as over a post.
///
/// `T_si = T_o + f_Rsi (T_i − T_o)`
///
/// - `room_c`     air inside T_i [°C]
/// - `outdoor_c`  air outside T_o [°C]
/// - `factor`     temperature factor f_Rsi, 0 to 1, from [`factor`] or [`super::framing::bridge`]
///
/// Returns T_si [°C].
///
/// Source: ISO 13788, temperature factor at the internal surface.
pub fn surface_by_factor_c(room_c: f64, outdoor_c: f64, factor: f64) -> f64 {
    outdoor_c + factor * (room_c - outdoor_c)
}

/// Least temperature factor at which a surface stays dry.
///
/// `f_min = (t_d − T_o) / (T_i − T_o)`
///
/// - `dew_point_c`  dew point of the air inside t_d [°C]
/// - `room_c`       air inside T_i [°C]
/// - `outdoor_c`    air outside T_o [°C]
///
/// Returns f_min; 0 or less every surface is dry. None where it is no colder outside: no surface is colder than the room
/// then.
///
/// Source: ISO 13788, surface condensation.
pub fn least_dry_factor(dew_point_c: f64, room_c: f64, outdoor_c: f64) -> Option<f64> {
    (room_c > outdoor_c).then(|| (dew_point_c - outdoor_c) / (room_c - outdoor_c))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::dew_point::dew_point_c;
    use crate::air::saturation::saturation_pa;

    #[test]
    fn a_cold_night_wets_posts_and_panes_and_not_the_foam() {
        let dew_c = dew_point_c(0.5 * saturation_pa(20.0));
        assert_eq!(format!("{dew_c:.2}"), "9.27");
        assert_eq!(format!("{:.2}", least_dry_factor(dew_c, 20.0, -10.0).unwrap()), "0.64");
        let by_u = [0.6, 1.107, 5.8].map(|u| format!("{:.1}", surface_c(20.0, -10.0, u, 0.13)));
        assert_eq!(by_u, ["17.7", "15.7", "-2.6"]);
        // Over a steel post, bare and behind half an inch of foam.
        let by_factor = [0.2747, 0.8257].map(|f| format!("{:.1}", surface_by_factor_c(20.0, -10.0, f)));
        assert_eq!(by_factor, ["-1.8", "14.8"]);
    }

    #[test]
    fn where_it_is_no_colder_outside_no_factor_is_asked_for() {
        assert_eq!(least_dry_factor(15.0, 20.0, 20.0), None);
        assert_eq!(least_dry_factor(15.0, 20.0, 30.0), None);
        // Dry air: every surface is.
        assert!(least_dry_factor(-20.0, 20.0, -10.0).unwrap() < 0.0);
    }

    #[test]
    fn at_the_ends_the_surface_is_as_warm_as_the_air_of_one_side() {
        assert_eq!(surface_c(20.0, -10.0, 0.0, 0.13), 20.0);
        assert_eq!(surface_by_factor_c(20.0, -10.0, 0.0), -10.0);
    }
}
