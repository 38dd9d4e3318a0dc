use super::*;
use crate::report::Severity;

const HERON: &str = include_str!("../../../../tests/builds/heron.json");

fn evaluated(json: &str) -> EvaluateReport {
    Evaluate::answer(&Build::from_json(json.as_bytes()).unwrap())
}

#[test]
fn a_build_without_anything_is_answered_with_notes() {
    let report = evaluated("{}");
    assert_eq!(report.verdict.not_worked_out.len(), 5);
    assert_eq!(report.verdict.status, "clear");
    assert!(report.payload.is_none() && report.cooling_load.is_none());
    assert_eq!(report.findings.len(), 5);
    assert!(report.findings.iter().all(|finding| finding.severity == Severity::Note));
    let payload = report.findings.iter().find(|finding| finding.code == "payload_not_worked_out").unwrap();
    assert!(payload.remedy.contains("/trailer is missing"), "{}", payload.remedy);
    assert!(report.verdict.sentence.contains("Not worked out: payload, axle load"));
}

#[test]
fn the_findings_of_all_questions_stand_in_one_list_gravest_first() {
    let report = evaluated(HERON);
    assert!(report.verdict.not_worked_out.is_empty());
    let order: Vec<_> = report.findings.iter().map(|finding| finding.severity).collect();
    assert!(order.is_sorted());
    for finding in report.axle_load.as_ref().unwrap().findings() {
        assert!(report.findings.iter().any(|other| other.code == finding.code), "{}", finding.code);
    }
    let mut seen: Vec<_> = report.findings.iter().map(|finding| (finding.code, &finding.subject)).collect();
    seen.sort();
    let count = seen.len();
    seen.dedup();
    assert_eq!(seen.len(), count);
}
