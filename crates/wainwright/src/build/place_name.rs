//! The name of a place that is built in.

use std::borrow::Cow;

use serde_json::{Value, json};

use crate::document::schema::Definitions;
use crate::document::{Faults, Kind, Place};
use crate::sky::places;

/// The id of one of the places built in; the published schema lists them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PlaceName;

impl Kind for PlaceName {
    type Value = String;

    fn expected(self) -> Cow<'static, str> {
        "the name of a place that is built in".into()
    }

    fn blank(self) -> String {
        String::new()
    }

    fn schema(self, _: &mut Definitions) -> Value {
        let ids: Vec<&str> = places::all().iter().map(|known| known.id).collect();
        json!({"type": "string", "enum": ids})
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> String {
        if places::find(value).is_none() {
            faults.unknown_name(at, value, "the places built in", places::all().iter().map(|known| known.id));
        }
        value.to_owned()
    }
}
