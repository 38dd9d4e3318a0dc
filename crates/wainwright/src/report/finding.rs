//! Findings: what a rule says of a build.

use std::borrow::Cow;

use serde::Serialize;

use super::described::report;

/// How grave a finding is. Closed: there will be no fourth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// A rating, a law or an adopted standard is broken.
    Violation,
    /// Within them, yet against good practice or with little margin.
    Caution,
    /// Worth knowing.
    Note,
}

impl Severity {
    /// All, gravest first, as they stand in a report.
    pub const WORDS: &'static [&'static str] = &["violation", "caution", "note"];

    /// Its word.
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }
}

/// Which side of its limit a value must stay on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LimitKind {
    /// The value must not be above the limit.
    Maximum,
    /// The value must not be below the limit.
    Minimum,
}

impl LimitKind {
    /// All words.
    pub const WORDS: &'static [&'static str] = &["maximum", "minimum"];
}

/// One rule that builds are held against. The list of all rules is published.
#[derive(Debug, PartialEq)]
pub struct Rule {
    /// Stable name: callers branch on it; it is never renamed or reused.
    pub code: &'static str,
    /// How grave a breach is.
    pub severity: Severity,
    /// What a breach means, in a sentence.
    pub meaning: &'static str,
    /// Unit of value and limit.
    pub unit: Option<&'static str>,
    /// Which side of the limit is wanted.
    pub limit_kind: Option<LimitKind>,
    /// Where the rule is from: document, edition and place; `common practice`; or a text `(from memory)`.
    pub citation: &'static str,
}

/// Declares a question's rules and lists them in `RULES`.
///
/// Each: its name, severity, side of the limit and unit (`-` for none), code, meaning and citation. Rules
/// that stand elsewhere are listed under `shared`.
macro_rules! rules {
    (
        shared { $($shared:path),* $(,)? }
        $($name:ident: $severity:ident $kind:tt $unit:tt, $code:literal, $meaning:literal, $citation:literal;)+
    ) => {
        $(
            static $name: $crate::report::Rule = $crate::report::Rule {
                code: $code,
                severity: $crate::report::Severity::$severity,
                meaning: $meaning,
                unit: $crate::report::rules!(@unit $unit),
                limit_kind: $crate::report::rules!(@kind $kind),
                citation: $citation,
            };
        )+
        /// Every rule of this question.
        pub(super) const RULES: &[&$crate::report::Rule] = &[$(&$shared,)* $(&$name),+];
    };
    (@unit -) => { None };
    (@unit $unit:literal) => { Some($unit) };
    (@kind -) => { None };
    (@kind $kind:ident) => { Some($crate::report::LimitKind::$kind) };
}
pub(crate) use rules;

report! {
    /// What a rule says of this build.
    pub struct Finding {
        /// The rule's stable name. Later versions add names and never rename one.
        code: &'static str = "axle_over_gawr",
        /// `violation`: a rating, a law or a standard is broken; `caution`: within it, with little margin or
        /// against good practice; `note`: worth knowing.
        severity: Severity = "violation",
        /// JSON Pointer into the build, to what a person would look at or change.
        subject: Cow<'static, str> = "/trailer/axles/rear",
        /// What is found, for a person. The words may change in any release.
        message: String = "Axle rear carries 4,486.4 lb in state homebound; its rating is 4,400 lb.",
        /// The figure that was judged.
        value: Option<f64> = 4486.4,
        /// What it was judged against.
        limit: Option<f64> = 4400.0,
        /// Which side of the limit is wanted.
        limit_kind: Option<LimitKind> = "maximum",
        /// Unit of `value` and `limit`.
        unit: Option<&'static str> = "lb",
        /// What would put it right.
        remedy: Cow<'static, str> = "Lower the ball to 19 in, or move 87 lb off the rear axle.",
        /// Where the rule is from.
        citation: &'static str = "49 CFR 571.3 (GAWR)",
    }
}

impl Rule {
    /// A finding under this rule.
    pub fn finding(
        &'static self,
        subject: impl Into<Cow<'static, str>>,
        value: Option<f64>,
        limit: Option<f64>,
        message: String,
        remedy: impl Into<Cow<'static, str>>,
    ) -> Finding {
        Finding {
            code: self.code,
            severity: self.severity,
            subject: subject.into(),
            message,
            value,
            limit,
            limit_kind: self.limit_kind,
            unit: self.unit,
            remedy: remedy.into(),
            citation: self.citation,
        }
    }
}

impl Finding {
    /// How far past the limit, relative to it; 0 where there is no limit.
    fn excess(&self) -> f64 {
        let (Some(value), Some(limit)) = (self.value, self.limit) else { return 0.0 };
        let past = match self.limit_kind {
            Some(LimitKind::Maximum) => value - limit,
            Some(LimitKind::Minimum) => limit - value,
            None => return 0.0,
        };
        // Past a limit of nothing is past it by all.
        let scale = if limit == 0.0 { value.abs() } else { limit.abs() };
        if scale == 0.0 { 0.0 } else { past / scale }
    }
}

/// Findings as they are collected: the worst one for each rule and subject.
#[derive(Debug, Default)]
pub struct Findings(Vec<Finding>);

impl Findings {
    /// Adds a finding, unless a worse one of the same rule about the same subject is there.
    pub fn add(&mut self, finding: Finding) {
        let same = |f: &&mut Finding| f.code == finding.code && f.subject == finding.subject;
        match self.0.iter_mut().find(same) {
            Some(other) if other.excess() >= finding.excess() => {}
            Some(other) => *other = finding,
            None => self.0.push(finding),
        }
    }

    /// The findings in the order of a report: gravest first, then farthest past the limit, then by subject
    /// and code.
    pub fn in_order(mut self) -> Vec<Finding> {
        self.0.sort_by(|a, b| {
            (a.severity.cmp(&b.severity))
                .then_with(|| b.excess().total_cmp(&a.excess()))
                .then_with(|| a.subject.cmp(&b.subject))
                .then_with(|| a.code.cmp(b.code))
        });
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    static OVER: Rule = Rule {
        code: "over",
        severity: Severity::Violation,
        meaning: "above",
        unit: Some("lb"),
        limit_kind: Some(LimitKind::Maximum),
        citation: "common practice",
    };
    static NEAR: Rule = Rule { code: "near", severity: Severity::Caution, ..OVER };

    fn found(rule: &'static Rule, subject: &'static str, value: f64) -> Finding {
        rule.finding(subject, Some(value), Some(100.0), String::new(), "")
    }

    #[test]
    fn findings_stand_gravest_first_then_farthest_past_the_limit() {
        let mut findings = Findings::default();
        findings.add(found(&NEAR, "/c", 199.0));
        findings.add(found(&OVER, "/b", 110.0));
        findings.add(found(&OVER, "/a", 105.0));
        let order: Vec<_> = findings.in_order().into_iter().map(|f| f.subject).collect();
        assert_eq!(order, ["/b", "/a", "/c"]);
    }

    #[test]
    fn of_one_rule_about_one_subject_the_worst_stays() {
        let mut findings = Findings::default();
        for value in [105.0, 120.0, 110.0] {
            findings.add(found(&OVER, "/a", value));
        }
        let left = findings.in_order();
        assert_eq!(left.len(), 1);
        assert_eq!(left[0].value, Some(120.0));
    }
}
