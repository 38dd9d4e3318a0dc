//! What windows let in against the angle of incidence.

use crate::rows::cases;
use wainwright::cooling_load::envelope::glazing::{double_factor, single_factor};

#[test]
fn every_row_of_the_window_angles() {
    for case in cases(include_str!("window_angle.csv"), 19) {
        let cos_incidence = case.number("incidence_deg").to_radians().cos();
        case.holds("single_clear_factor", single_factor(cos_incidence));
        case.holds("double_clear_factor", double_factor(cos_incidence));
    }
}
