//! A list.

use serde::de::{SeqAccess, Visitor};
use serde_json::{Value, json};

use super::schema::Definitions;
use super::{Drain, FaultCode, Faults, Kind, Place, Seed};

/// A list of values of one kind.
#[derive(Debug, Clone, Copy)]
pub struct List<K> {
    /// What each item holds.
    pub of: K,
    /// At most so many items.
    pub most: usize,
}

impl<K: Kind> Kind for List<K> {
    type Value = Vec<K::Value>;

    fn expected(self) -> &'static str {
        "a list"
    }

    fn blank(self) -> Self::Value {
        Vec::new()
    }

    fn schema(self, definitions: &mut Definitions) -> Value {
        json!({"type": "array", "items": self.of.schema(definitions), "maxItems": self.most})
    }

    fn example(self) -> Option<Value> {
        self.of.example().map(|item| json!([item]))
    }

    fn list<'de, A: SeqAccess<'de>>(
        self,
        mut items: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<Self::Value, A::Error> {
        let mut values = Vec::new();
        loop {
            let place = at.index(values.len());
            if values.len() == self.most {
                if items.next_element_seed(Drain { at: &place, faults })?.is_some() {
                    let detail = format!("must have {} items or fewer", self.most);
                    if let Some(fault) = faults.add(at, FaultCode::TooMany, detail) {
                        fault.maximum = Some(self.most as f64);
                    }
                    Drain { at, faults }.visit_seq(items)?;
                }
                return Ok(values);
            }
            match items.next_element_seed(Seed { kind: self.of, at: &place, faults })? {
                Some(value) => values.push(value),
                None => return Ok(values),
            }
        }
    }
}
