//! Films outside against speed.

use crate::rows::cases;
use wainwright::cooling_load::envelope::films;
use wainwright::units::{M2_K_W_PER_R, m_s};

#[test]
fn every_row_of_the_films() {
    for case in cases(include_str!("films.csv"), 12) {
        let speed_m_s = m_s(case.number("speed_mph"));
        let radiative = films::radiative_w_m2_k(0.9, 20.0);
        let plate = films::flat_plate_w_m2_k(speed_m_s, 5.0);
        let outside = films::outside_w_m2_k(speed_m_s, radiative);
        case.holds("speed_m_s", speed_m_s);
        case.holds("h_rad", radiative);
        case.holds("hc_iso6946", films::outside_convective_w_m2_k(speed_m_s));
        case.holds("hc_mcadams", films::jurges_convective_w_m2_k(speed_m_s));
        case.holds("hc_flat_plate_5m", plate);
        case.holds("h_out_iso", outside);
        let convective = films::outside_convective_w_m2_k(speed_m_s);
        case.holds("rse_iso", films::resistance_m2_k_w(convective, radiative));
        // The vectors hold still air to 3 W/(m²·K).
        case.holds("h_out_plate", radiative + plate.max(3.0));
        case.holds("h_out_iso_ip", outside * M2_K_W_PER_R);
        let towed = films::towed_w_m2_k(speed_m_s, 5.0, radiative);
        assert_eq!(towed, (radiative + plate).max(films::HOT_DAY_W_M2_K));
    }
}
