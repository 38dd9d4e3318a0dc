//! Any JSON in a report, such as what stands in a build.

use serde::ser::{Serialize, Serializer};
use serde_json::{Value, json};

use super::Described;
use crate::document::schema::Definitions;

/// Any JSON, as it stands in a build; null where nothing stands there.
#[derive(Debug, Clone, PartialEq)]
pub struct Json(pub Value);

impl Described for Json {
    fn schema(_: &mut Definitions) -> Value {
        json!({})
    }
}

impl Serialize for Json {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Borrowed(&self.0).serialize(serializer)
    }
}

/// The same, borrowed.
struct Borrowed<'v>(&'v Value);

impl Serialize for Borrowed<'_> {
    /// `null` is written as what is left out elsewhere in reports, not as a value without content: in Python it is `None`.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0 {
            Value::Null => serializer.serialize_none(),
            Value::Array(items) => serializer.collect_seq(items.iter().map(Borrowed)),
            Value::Object(members) => {
                serializer.collect_map(members.iter().map(|(key, member)| (key, Borrowed(member))))
            }
            single => single.serialize(serializer),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_written_as_it_stands() {
        let value = json!({"b": [1, 0.1, null, "x"], "a": {"c": true}});
        assert_eq!(serde_json::to_string(&Json(value.clone())).unwrap(), value.to_string());
        assert_eq!(serde_json::to_string(&Json(Value::Null)).unwrap(), "null");
    }
}
