use super::*;

fn solved(request: &Value) -> SolveReport {
    Solve::answer(request.to_string().as_bytes(), &NamedFiles::default()).unwrap_or_else(|e| panic!("{e}"))
}

#[test]
fn the_example_is_solved() {
    let report = solved(&Solve::example());
    // 7,000 lb less 300 lb, 2,431 lb of trailer and parts, and 22 gal of water at 8.34 lb.
    let expected_lb = 7000.0 - 300.0 - 2180.0 - 165.0 - 86.0 - 22.0 * 8.34;
    assert!((report.value.unwrap() - expected_lb).abs() < 1e-6, "{report:?}");
    assert_eq!((report.holds, report.method), (Some("at_most"), Some("linear")));
    let summary = "cargo.atv.mass_lb may be 4,085.52 lb at most, so that payload.states.outbound.payload_left_lb is 300 lb or more; it is 690 lb now. With it these are found that are not found now: gross_near_gvwr.";
    assert_eq!(report.summary, summary);
}
