//! What comparing answers with.

use crate::report::{Engine, Finding, Json, report};

report! {
    /// What changed between two builds, and what it did.
    pub struct CompareReport {
        /// The comparison in a few sentences.
        summary: String = "1 change in the build. The verdict stays caution. Payload left goes from 312 lb to 252 lb. Found anew: limit_near (caution).",
        /// The verdict of each build: `violation`, `caution` or `clear`.
        verdict: VerdictChange,
        /// What changed in the document, in its order. Something added or removed is one entry.
        changes: Vec<DocumentChange>,
        /// Every figure of the answers that differs, in their order: counts of the verdict and margins first, then question
        /// by question. Figures that differ by rounding alone (by 1e-12 of themselves) are the same.
        figures: Vec<FigureChange>,
        /// Every word of the answers that differs, sentences for people left out.
        words: Vec<WordChange>,
        /// What was found before and is found no more, gravest first.
        findings_gone: Vec<Finding>,
        /// What is found now and was not before, gravest first.
        findings_new: Vec<Finding>,
        /// What is found in both, of the same rule and subject, with another value or limit.
        findings_changed: Vec<FindingChange>,
        /// What worked it out.
        engine: Engine,
    }
}

report! {
    /// The verdict before and after.
    #[derive(Copy)]
    pub struct VerdictChange {
        /// That of the build as it was.
        before: &'static str = "caution",
        /// That of the build as it is to be.
        after: &'static str = "violation",
    }
}

report! {
    /// A place of the document that changed.
    pub struct DocumentChange {
        /// JSON Pointer to it.
        pointer: String = "/parts/galley/mass_lb",
        /// `added`, `removed` or `changed`.
        kind: &'static str = "changed",
        /// What stood there; null where nothing did. Of a list of more than 24 items it is the number of them, of text of more
        /// than 200 characters the start.
        before: Json = 165.0,
        /// What stands there now, in the same way.
        after: Json = 180.0,
    }
}

report! {
    /// A figure of the answers that differs.
    pub struct FigureChange {
        /// The keys that lead to it in the answer of evaluate, joined by dots; an item of a list by its name or its index.
        path: String = "payload.states.outbound.payload_left_lb",
        /// What it was; null where there was none.
        before: Option<f64> = 312.0,
        /// What it is; null where there is none.
        after: Option<f64> = 297.0,
        /// `after` less `before`; null where either is.
        difference: Option<f64> = -15.0,
        /// Its unit, where its name says one.
        unit: Option<&'static str> = "lb",
        /// Of figures that stand in each item of a list, such as those of hours and months, only the one with the greatest
        /// difference is listed; this is how many differ. Null for a figure that stands alone.
        items: Option<u32> = 12,
    }
}

report! {
    /// A word of the answers that differs.
    pub struct WordChange {
        /// The keys that lead to it in the answer of evaluate, joined by dots.
        path: String = "circuit_load.circuits.galley.smallest_awg",
        /// What it was; null where there was none.
        before: Option<String> = "14",
        /// What it is; null where there is none.
        after: Option<String> = "12",
    }
}

report! {
    /// A finding of both builds that differs.
    pub struct FindingChange {
        /// As it was.
        before: Finding,
        /// As it is.
        after: Finding,
    }
}
