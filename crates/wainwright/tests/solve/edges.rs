//! Answers without a value, ranges that are cut, spans, defaults.

use serde_json::json;

use super::asked::{demonstration, request, solve};

#[test]
fn what_holds_everywhere_or_nowhere_has_a_reason_and_no_value() {
    let heron = demonstration("heron");
    let asked = |least: f64| {
        let target = json!({"figure": "payload.states.outbound.payload_left_lb", "at_least": least});
        let mut request = request(&heron, "cargo.atv.mass_lb", &target);
        request["from"] = json!(100);
        request["to"] = json!(900);
        solve(&request)
    };
    let everywhere = asked(0.0);
    assert_eq!(everywhere.value, None);
    assert_eq!(everywhere.reason, Some("It holds for every value of the range that was looked at."));
    assert_eq!((everywhere.spans[0].low, everywhere.spans[0].high), (100.0, 900.0));
    assert!(everywhere.there.is_none() && everywhere.beyond.is_none() && everywhere.method.is_none());
    let nowhere = asked(5_000.0);
    assert_eq!(nowhere.reason, Some("It holds for no value of the range that was looked at."));
    assert!(nowhere.spans.is_empty() && !nowhere.present.holds);
    let nearest = nowhere.nearest.unwrap();
    assert_eq!(nearest.value, Some(100.0));
    assert!(nearest.figure.unwrap() < 5_000.0);
    assert!(nowhere.summary.contains("from 100 lb to 900 lb"), "{}", nowhere.summary);
}

#[test]
fn an_input_that_the_figure_does_not_depend_on_is_told() {
    let target = json!({"figure": "payload.states.outbound.payload_left_lb", "at_least": 9_000});
    let report = solve(&request(&demonstration("heron"), "occupancy.people", &target));
    assert_eq!((report.value, report.reason), (None, Some("The figure does not depend on this input.")));
    let report = solve(&request(&demonstration("heron"), "cargo.atv.x_in", &target));
    assert_eq!(report.reason, Some("The figure does not depend on this input."));
}

#[test]
fn without_a_range_the_field_s_own_is_looked_at_where_a_nearer_one_shows_nothing() {
    let heron = demonstration("heron");
    let target = json!({"figure": "payload.states.outbound.payload_left_lb", "at_least": 0});
    // 14 lb of tank shell: twenty times that is not enough, the bound of the field is.
    let report = solve(&request(&heron, "parts.fresh_tank_shell.mass_lb", &target));
    assert!(report.value.unwrap() > 2_000.0, "{}", report.summary);
    let assumed: Vec<_> = report.assumptions.iter().map(|assumption| assumption.pointer.as_str()).collect();
    assert_eq!(assumed, ["/from", "/to"]);
    assert_eq!(report.searched.high, 100_000.0);
    let near = solve(&request(&heron, "cargo.atv.mass_lb", &target));
    assert_eq!(near.searched.high, 690.0 * 21.0);
    let mut given = request(&heron, "cargo.atv.mass_lb", &target);
    given["to"] = json!(4_000);
    let given = solve(&given);
    assert_eq!((given.searched.low, given.searched.high), (0.0, 4_000.0));
    assert_eq!(given.assumptions.len(), 1);
    assert!((given.value.unwrap() - near.value.unwrap()).abs() < 1e-9);
}

#[test]
fn a_range_is_cut_to_what_the_build_takes() {
    // More grey days than days are refused.
    let target = json!({"figure": "energy_budget.stay.lowest_soc", "at_least": 0.01});
    let mut heron = demonstration("heron");
    heron["battery"]["capacity_ah"] = json!(500);
    heron["stay"]["days"] = json!(9);
    heron["stay"]["grey_days"] = json!(0);
    let mut asked = request(&heron, "stay.grey_days", &target);
    asked["to"] = json!(40);
    let report = solve(&asked);
    assert_eq!((report.searched.low, report.searched.high), (0.0, 9.0), "{}", report.summary);
    assert!(report.searched.is_whole);
    let refused = "Values above 9 are refused: /stay/grey_days must be days, 9, or less; got 10.";
    assert_eq!(report.notes, [refused]);
}

#[test]
fn of_several_spans_the_boundary_nearest_to_the_present_value_is_given() {
    let pika = demonstration("pika");
    let target = json!({"finding": "heater_without_warm_up"});
    let report = solve(&request(&pika, "climate.heating.capacity_btu_h", &target));
    assert_eq!(report.spans.len(), 2, "{}", report.summary);
    assert_eq!((report.holds, report.value), (Some("at_most"), Some(report.spans[0].high)));
    assert!(report.summary.contains("It holds in 2 spans"), "{}", report.summary);
    // Too small a heater is found instead, which is told.
    assert!(report.brings.iter().any(|finding| finding.code == "heater_too_small"), "{:?}", report.brings);
    assert!(report.summary.contains("heater_too_small"), "{}", report.summary);
    let mut larger = request(&pika, "climate.heating.capacity_btu_h", &target);
    larger["from"] = json!(5_118);
    let larger = solve(&larger);
    assert_eq!((larger.holds, larger.spans.len()), (Some("at_least"), 1), "{}", larger.summary);
    assert!(larger.brings.is_empty(), "{:?}", larger.brings);
    let wanted = report.spans[1].low;
    assert!((larger.value.unwrap() - wanted).abs() < 5.0, "{wanted} {}", larger.summary);
}

#[test]
fn a_finding_carries_its_figure_on_the_side_on_which_it_is_raised() {
    let report = solve(&request(
        &demonstration("bison"),
        "trailer.axles.rear.gawr_lb",
        &json!({"finding": "axle_over_gawr", "subject": "/trailer/axles/rear/gawr_lb"}),
    ));
    let (present, there, beyond) = (report.present, report.there.unwrap(), report.beyond.unwrap());
    let raised = present.finding.unwrap();
    assert_eq!((raised.code, raised.value), ("axle_over_gawr", present.figure));
    assert!(!present.holds && there.holds && there.finding.is_none() && there.figure.is_none());
    assert!(!beyond.holds && beyond.finding.is_some());
    assert_eq!(report.figure_unit, Some("lb"));
    assert!((report.change.unwrap() - (report.value.unwrap() - 4_400.0)).abs() < 1e-9);
}

#[test]
fn a_default_that_was_assumed_is_the_present_value() {
    let mut heron = demonstration("heron");
    let stands_at = heron["parts"]["galley"].as_object_mut().unwrap().remove("x_in");
    assert!(stands_at.is_some());
    let target = json!({"figure": "payload.states.outbound.payload_left_lb", "at_least": 0});
    let quantity = solve(&request(&heron, "parts.galley.quantity", &target));
    assert!(quantity.present.value.is_none() || quantity.present.value == Some(1.0));
    assert!(quantity.value.is_some(), "{}", quantity.summary);
    // The density of water is assumed where the build does not give it.
    let density = solve(&request(&heron, "tanks.fresh.density_lb_per_gal", &target));
    assert_eq!(density.present.value, Some(8.34));
    assert_eq!(density.reason, Some("It holds for every value of the range that was looked at."));
}

#[test]
fn a_figure_that_jumps_past_what_is_asked_for_is_never_hit() {
    let target = json!({"figure": "payload.states.outbound.payload_left_lb", "equal": 100.5});
    let report = solve(&request(&demonstration("heron"), "parts.battery_bank.quantity", &target));
    assert_eq!(report.value, None);
    let reason = "The figure jumps past what is asked for: no value of the input gives it.";
    assert_eq!(report.reason, Some(reason), "{}", report.summary);
    let target = json!({"figure": "payload.states.outbound.payload_left_lb", "equal": 1e6});
    let report = solve(&request(&demonstration("heron"), "parts.battery_bank.mass_lb", &target));
    let reason = "The figure comes past what is asked for nowhere in the range that was looked at.";
    assert_eq!(report.reason, Some(reason));
}

#[test]
fn one_of_a_few_values_is_found_among_them() {
    let target = json!({"finding": "breaker_over_conductor"});
    let report =
        solve(&request(&demonstration("pika"), "electrical.circuits.galley.wire.insulation_c", &target));
    assert!(report.searched.points <= 7);
    for span in &report.spans {
        assert!([60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0].contains(&span.low));
    }
}

#[test]
fn items_of_lists_are_inputs_and_figures_too() {
    let heron = demonstration("heron");
    let target = json!({"figure": "energy_budget.months.11.unmet_h", "at_most": 0});
    let report = solve(&request(&heron, "solar.arrays.roof.power_w", &target));
    assert!(report.value.is_some_and(|value| value > 400.0), "{}", report.summary);
    let target = json!({"figure": "payload.categories.furniture.mass_lb", "at_most": 500});
    let report = solve(&request(&heron, "parts.galley.mass_lb", &target));
    let furniture = ["bunk_left", "bunk_right", "galley", "wardrobe", "tongue_box"];
    assert!(report.value.is_some(), "{furniture:?} {}", report.summary);
    assert_eq!(report.method, Some("linear"));
}
