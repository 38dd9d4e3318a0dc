//! Which findings went, came or changed.

use super::report::FindingChange;
use crate::report::Finding;

/// The findings that only the first list has, of a rule about a subject.
pub fn only_in(some: &[Finding], others: &[Finding]) -> Vec<Finding> {
    some.iter().filter(|finding| twin(finding, others).is_none()).cloned().collect()
}

/// The findings that both lists have, with another value or limit.
pub fn changed(before: &[Finding], after: &[Finding]) -> Vec<FindingChange> {
    let pairs = before.iter().filter_map(|finding| Some((finding, twin(finding, after)?)));
    let differ = pairs.filter(|(one, other)| (one.value, one.limit) != (other.value, other.limit));
    differ.map(|(before, after)| FindingChange { before: before.clone(), after: after.clone() }).collect()
}

/// The finding of the same rule about the same subject.
fn twin<'f>(finding: &Finding, others: &'f [Finding]) -> Option<&'f Finding> {
    others.iter().find(|other| (other.code, &other.subject) == (finding.code, &finding.subject))
}
