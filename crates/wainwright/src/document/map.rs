//! A map of entries keyed by ids of the caller's choosing.

use std::borrow::Cow;

use indexmap::map::Entry;
use serde::de::{MapAccess, Visitor};
use serde_json::{Value, json};

use super::schema::Definitions;
use super::{Drain, FaultCode, Faults, Kind, Place, Seed};

/// Entries by id, in the order of the document.
pub type Keyed<T> = indexmap::IndexMap<String, T, foldhash::fast::RandomState>;

/// A map of entries of one kind.
#[derive(Debug, Clone, Copy)]
pub struct Map<K> {
    /// What each entry holds.
    pub of: K,
    /// At most so many entries.
    pub most: usize,
    /// An id for the published example.
    pub example_id: &'static str,
}

/// An id: 1 to 64 letters, digits, `_` or `-`, so that a chain of keys needs no escaping.
fn is_id(key: &str) -> bool {
    (1..=64).contains(&key.len()) && key.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'_' || b == b'-')
}

impl<K: Kind> Kind for Map<K> {
    type Value = Keyed<K::Value>;

    fn expected(self) -> &'static str {
        "an object of entries by id"
    }

    fn blank(self) -> Self::Value {
        Keyed::default()
    }

    fn schema(self, definitions: &mut Definitions) -> Value {
        json!({
            "type": "object",
            "additionalProperties": self.of.schema(definitions),
            "propertyNames": {"pattern": "^[A-Za-z0-9_-]{1,64}$"},
            "maxProperties": self.most,
        })
    }

    fn example(self) -> Option<Value> {
        self.of.example().map(|entry| json!({self.example_id: entry}))
    }

    fn object<'de, A: MapAccess<'de>>(
        self,
        mut members: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<Self::Value, A::Error> {
        let mut entries = Keyed::default();
        while let Some(key) = members.next_key::<Cow<str>>()? {
            let key = key.into_owned();
            let place = at.key(&key);
            if entries.len() == self.most {
                let detail = format!("must have {} entries or fewer", self.most);
                if let Some(fault) = faults.add(at, FaultCode::TooMany, detail) {
                    fault.maximum = Some(self.most as f64);
                }
                members.next_value_seed(Drain { at: &place, faults })?;
                Drain { at, faults }.visit_map(members)?;
                break;
            }
            if !is_id(&key) {
                let detail = "has a key that is no id; use 1 to 64 letters, digits, _ or -".to_owned();
                faults.add(&place, FaultCode::BadId, detail);
            }
            let value = members.next_value_seed(Seed { kind: self.of, at: &place, faults })?;
            match entries.entry(key) {
                Entry::Occupied(entry) => faults.duplicate_key(&at.key(entry.key())),
                Entry::Vacant(entry) => _ = entry.insert(value),
            }
        }
        Ok(entries)
    }
}
