//! Cases of the heavy box. A slab stores heat by its depth, and two capacities have none: by day the box takes up more than
//! it should, so that its cooling comes out too small. A trailer is light; what it has of concrete is nothing.

use crate::cell::HEAVY;
use crate::control::Control;
use crate::left_to_the_program::still;
use crate::published::published;
use crate::year::{Year, year};

/// What a quantity is by the nearer end of the programs' span; 1 within it.
fn by_the_span(case: &str, year: &Year, quantity: &str) -> f64 {
    let one = published(case).into_iter().find(|one| one.quantity == quantity).unwrap();
    let value = year.quantity(quantity);
    if one.in_span(value) { 1.0 } else { value / if value < one.span.0 { one.span.0 } else { one.span.1 } }
}

#[test]
fn case_900_heats_as_it_should_and_cools_too_little() {
    let year = year(&HEAVY, Control::Held, still);
    assert_eq!(by_the_span("900", &year, "annual_heating_mwh"), 1.0);
    assert_eq!(by_the_span("900", &year, "peak_heating_kw"), 1.0);
    assert_eq!(format!("{:.2}", by_the_span("900", &year, "annual_cooling_mwh")), "0.96");
    assert_eq!(format!("{:.2}", by_the_span("900", &year, "peak_cooling_kw")), "0.88");
}

#[test]
fn case_900_free_floating_is_hardly_warm_enough() {
    let year = year(&HEAVY, Control::Free, still);
    assert_eq!(by_the_span("900FF", &year, "min_c"), 1.0);
    assert_eq!(by_the_span("900FF", &year, "mean_c"), 1.0);
    assert!((43.0..43.3).contains(&year.max_c), "{year:?}");
}
