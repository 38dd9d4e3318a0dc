//! A rule's two builds, and what is asked of them.

use serde_json::Value;
use wainwright::Build;
use wainwright::question::{Answer, Question, ask};
use wainwright::report::{Finding, LimitKind};

/// A rule, and where two builds that differ in one place stand on either side of it.
pub struct Twins {
    /// The rule's code.
    pub code: &'static str,
    /// The build that both are made from.
    pub base: Value,
    /// Where they differ.
    pub at: &'static str,
    /// What stands there in the build that breaks the rule.
    pub breaks: Value,
    /// What stands there in the one that keeps it.
    pub keeps: Value,
}

/// The build with a value at a pointer, objects made on the way as needed.
pub fn with(mut build: Value, pointer: &str, value: Value) -> Value {
    let mut at = &mut build;
    for key in pointer.split('/').skip(1) {
        at = &mut at[key];
    }
    *at = value;
    build
}

/// What a question finds in a build.
pub fn findings<Q: Question>(build: &Value) -> Vec<Finding> {
    let read = Build::from_json(build.to_string().as_bytes());
    let read = read.unwrap_or_else(|refusal| panic!("{refusal:?}\n{build}"));
    ask::<Q>(&read).unwrap().findings().to_vec()
}

fn codes<Q: Question>(build: &Value) -> Vec<&'static str> {
    findings::<Q>(build).iter().map(|finding| finding.code).collect()
}

/// Asserts that every rule of a question has its twins, that one breaks it and the other does not, and that the
/// rule says where it is from.
pub fn check<Q: Question>(twins: &[Twins]) {
    for rule in Q::RULES {
        assert!(!rule.citation.is_empty() && !rule.meaning.is_empty(), "{}", rule.code);
        assert_eq!(
            twins.iter().filter(|twins| twins.code == rule.code).count(),
            1,
            "{} has no twins",
            rule.code
        );
        assert_eq!(
            Q::RULES.iter().filter(|other| other.code == rule.code).count(),
            1,
            "{} stands twice",
            rule.code
        );
    }
    for Twins { code, base, at, breaks, keeps } in twins {
        assert!(Q::RULES.iter().any(|rule| rule.code == *code), "there is no rule {code}");
        let found = codes::<Q>(&with(base.clone(), at, breaks.clone()));
        assert!(found.contains(code), "{at} = {breaks} does not break {code}: {found:?}");
        let found = codes::<Q>(&with(base.clone(), at, keeps.clone()));
        assert!(!found.contains(code), "{at} = {keeps} breaks {code}: {found:?}");
    }
}

/// Every finding of every twin, with the build that it is about.
pub fn provoked<Q: Question>(all: Vec<Twins>) -> impl Iterator<Item = (Value, Finding)> {
    let builds =
        |twins: Twins| [twins.breaks, twins.keeps].map(|value| with(twins.base.clone(), twins.at, value));
    all.into_iter().flat_map(builds).flat_map(|build| {
        let found = findings::<Q>(&build);
        found.into_iter().map(move |finding| (build.clone(), finding))
    })
}

/// Asserts that a sentence is one for a person; it may begin with the name of a part.
pub fn assert_for_a_person(sentence: &str, build: &Value) {
    assert!(sentence.ends_with('.'), "{sentence}");
    let part = build["parts"].as_object().into_iter().flatten().any(|(id, _)| sentence.starts_with(&**id));
    assert!(
        part || sentence.starts_with(|c: char| c.is_ascii_uppercase() || c.is_ascii_digit()),
        "{sentence}"
    );
    for word in ["NaN", "inf", "Some", "None", "null", "invalid", "please", "  "] {
        assert!(!sentence.contains(word), "{sentence}");
    }
}

/// Asserts that every rule of a question says what it means in a sentence.
pub fn assert_meanings_are_sentences<Q: Question>() {
    for meaning in Q::RULES.iter().map(|rule| rule.meaning) {
        assert!(meaning.ends_with('.') && meaning.starts_with(char::is_uppercase), "{meaning}");
    }
}

/// Asserts that the figure of a finding is past its limit, and has a unit.
pub fn assert_past_its_limit(finding: &Finding) {
    let past = match (finding.limit_kind, finding.value, finding.limit) {
        (Some(LimitKind::Maximum), Some(value), Some(limit)) => value > limit,
        (Some(LimitKind::Minimum), Some(value), Some(limit)) => value < limit,
        (None, _, None) => true,
        _ => false,
    };
    assert!(past, "{finding:?}");
    assert!(finding.value.is_none() || finding.unit.is_some(), "{finding:?}");
}
