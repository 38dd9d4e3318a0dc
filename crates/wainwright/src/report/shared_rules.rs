//! Rules that more than one question applies.

use super::{LimitKind, Rule, Severity};

/// Gross mass over the trailer's rating.
pub static GROSS_OVER_GVWR: Rule = Rule {
    code: "gross_over_gvwr",
    severity: Severity::Violation,
    meaning: "In a state that moves, the trailer weighs more than its gross vehicle weight rating.",
    unit: Some("lb"),
    limit_kind: Some(LimitKind::Maximum),
    citation: "49 CFR 571.3 (GVWR)",
};
