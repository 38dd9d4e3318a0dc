use super::*;

const HERON: &str = include_str!("../../../../tests/builds/heron.json");

fn compared(before: &Value, after: &Value) -> CompareReport {
    let request = json!({"before": before, "after": after}).to_string();
    Compare::answer(request.as_bytes(), &NamedFiles::default()).unwrap_or_else(|refusal| panic!("{refusal}"))
}

fn heron() -> Value {
    serde_json::from_str(HERON).unwrap()
}

#[test]
fn a_build_is_the_same_as_itself() {
    let report = compared(&heron(), &heron());
    assert_eq!(report.summary, "The two builds are the same.");
    assert!(report.changes.is_empty() && report.figures.is_empty() && report.words.is_empty());
    assert!(report.findings_gone.is_empty() && report.findings_new.is_empty());
    assert!(report.findings_changed.is_empty());
}

#[test]
fn a_heavier_part_moves_masses_and_loads_and_nothing_else() {
    let (before, mut after) = (heron(), heron());
    after["parts"]["galley"]["mass_lb"] = json!(225);
    let report = compared(&before, &after);
    assert_eq!(report.changes.len(), 1);
    assert_eq!(report.changes[0].pointer, "/parts/galley/mass_lb");
    let figure = |path: &str| report.figures.iter().find(|change| change.path == path);
    for (path, difference) in [
        ("margins.payload_left_lb", -60.0),
        ("payload.unloaded_mass_lb", 60.0),
        ("payload.states.outbound.payload_left_lb", -60.0),
        ("payload.categories.furniture.mass_lb", 60.0),
        ("axle_load.states.outbound.gross_mass_lb", 60.0),
        ("axle_load.worst.gross_mass_lb.max.value", 60.0),
    ] {
        let change = figure(path).unwrap_or_else(|| panic!("{path}"));
        assert!((change.difference.unwrap() - difference).abs() < 1e-6, "{path} {change:?}");
        assert_eq!(change.unit, Some("lb"), "{path}");
    }
    assert!(figure("payload.gvwr_lb").is_none());
    let others = ["circuit_load.", "energy_budget.", "cooling_load."];
    assert!(!report.figures.iter().any(|change| others.iter().any(|other| change.path.starts_with(other))));
    assert!(report.summary.contains("Payload left goes from"), "{}", report.summary);
}

#[test]
fn figures_stand_in_the_order_of_the_answer_with_verdict_and_margins_first() {
    let (before, mut after) = (heron(), heron());
    after["trailer"]["gvwr_lb"] = json!(5_000);
    after["battery"]["capacity_ah"] = json!(100);
    after["parts"].as_object_mut().unwrap().remove("bay_heater");
    let report = compared(&before, &after);
    assert_eq!((report.verdict.before, report.verdict.after), ("caution", "violation"));
    let sections: Vec<&str> =
        report.figures.iter().filter_map(|change| change.path.split('.').next()).collect();
    let order =
        ["verdict", "margins", "payload", "axle_load", "circuit_load", "energy_budget", "cooling_load"];
    let place = |section: &&str| order.iter().position(|known| known == section).unwrap();
    assert!(sections.iter().is_sorted_by_key(place), "{sections:?}");
    assert_eq!(sections[0], "verdict");
    assert!(report.findings_new.iter().any(|finding| finding.code == "gross_over_gvwr"));
    assert!(report.summary.contains("The verdict goes from caution to violation."), "{}", report.summary);
    assert!(report.summary.contains("gross_over_gvwr (3 times, violation)"), "{}", report.summary);
    let removed = report.changes.iter().find(|change| change.pointer == "/parts/bay_heater").unwrap();
    assert_eq!((removed.kind, &removed.after.0), ("removed", &Value::Null));
    // Months are told by the one that differs most.
    let months: Vec<_> =
        report.figures.iter().filter(|change| change.path.starts_with("energy_budget.months.")).collect();
    assert!(!months.is_empty() && months.len() < 20);
    assert!(months.iter().all(|change| change.items.is_some_and(|items| items <= 12)));
}

#[test]
fn back_again_everything_is_turned_around() {
    let (before, mut after) = (heron(), heron());
    after["cargo"]["atv"]["x_in"] = json!(150);
    after["climate"]["cooling"]["capacity_btu_h"] = json!(5_000);
    let (there, back) = (compared(&before, &after), compared(&after, &before));
    assert_eq!(there.findings_new, back.findings_gone);
    assert_eq!(there.findings_gone, back.findings_new);
    assert_eq!(there.figures.len(), back.figures.len());
    for one in &there.figures {
        // Checks stand in the order of how near they are, which is another one for each build.
        let other = back.figures.iter().find(|other| other.path == one.path).unwrap();
        assert_eq!(
            (one.before, one.after, one.items),
            (other.after, other.before, other.items),
            "{}",
            one.path
        );
        assert_eq!(one.difference, other.difference.map(|difference| -difference));
    }
    assert_eq!(there.verdict.before, back.verdict.after);
}

#[test]
fn what_only_one_build_answers_is_listed_with_null_for_the_other() {
    let (before, mut after) = (heron(), heron());
    after.as_object_mut().unwrap().remove("envelope");
    let report = compared(&before, &after);
    let held = report.figures.iter().find(|change| change.path == "cooling_load.held_f").unwrap();
    assert!(held.before.is_some() && held.after.is_none() && held.difference.is_none());
    assert!(report.findings_new.iter().any(|finding| finding.code == "cooling_load_not_worked_out"));
}

#[test]
fn faults_of_both_builds_are_named_at_their_places() {
    let request = json!({"before": {"parts": {"a": {"mass_lb": -1}}}, "after": {"cargo": 3}, "x": 1});
    let Err(Refusal::Faults(faults)) =
        Compare::answer(request.to_string().as_bytes(), &NamedFiles::default())
    else {
        panic!("not refused")
    };
    let places: Vec<_> = faults.list().iter().map(|fault| fault.pointer.as_str()).collect();
    assert_eq!(places, ["/before/parts/a/mass_lb", "/after/cargo", "/x"]);
}
