//! Cautions: what every report of a subject says, whatever the build.

use super::described::report;

report! {
    /// A fixed sentence of safety that goes with every report of its subject.
    #[derive(Copy)]
    pub struct Caution {
        /// Its stable name.
        code: &'static str = "weigh_it",
        /// The sentence.
        text: &'static str = "Weigh the trailer on a certified scale before it is driven.",
    }
}
