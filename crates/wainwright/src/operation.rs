//! What is asked with a request of its own: more than one build, or a build and what to do with it.

use std::fmt;

use serde::Serialize;
use serde_json::Value;

use crate::document::Refusal;
use crate::document::schema::Definitions;
use crate::named_files::NamedFiles;
use crate::report::{Described, Rule};

/// Something that can be asked of more than one build, or of a build and what to do with it.
///
/// Route, Python function and published contract of an operation all follow from this.
pub trait Operation: 'static {
    /// Its name in `snake_case`.
    const NAME: &'static str;
    /// Its last path segment over HTTP.
    const PATH: &'static str;
    /// What it answers, in a line.
    const SUMMARY: &'static str;
    /// What it reads and what it answers, in a paragraph.
    const DESCRIPTION: &'static str;
    /// Every rule its findings come from, beside those of the questions.
    const RULES: &'static [&'static Rule] = &[];
    /// May it take long, whatever the size of its request? Then others do not wait for it.
    const MAY_TAKE_LONG: bool = false;
    /// What it answers with.
    type Answer: Serialize + Described + Clone + PartialEq + fmt::Debug + Send + Sync + 'static;

    /// The JSON Schema of its request.
    fn request_schema(definitions: &mut Definitions) -> Value;

    /// A request that is answered, for the published contract and the tests.
    fn example() -> Value;

    /// The answer to the JSON of a request.
    ///
    /// - `named_files`  the weather files and catalogues that a request may name
    ///
    /// # Errors
    ///
    /// All faults of the request together, each with its JSON Pointer into it.
    fn answer(json: &[u8], named_files: &NamedFiles) -> Result<Self::Answer, Refusal>;
}

/// Does something with every operation, each with its own type.
pub trait ForEachOperation {
    /// Does it with `O`.
    fn operation<O: Operation>(&mut self);
}

/// Every operation, in the order of the documentation. A new operation is one line here.
pub fn for_each_operation(visitor: &mut impl ForEachOperation) {
    visitor.operation::<crate::solve::Solve>();
    visitor.operation::<crate::compare::Compare>();
    visitor.operation::<crate::options::PackageOptions>();
    visitor.operation::<crate::search::Search>();
    visitor.operation::<crate::batch::ScoreTable>();
}
