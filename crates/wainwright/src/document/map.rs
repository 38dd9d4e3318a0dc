//! A map of entries keyed by ids of the caller's choosing.

use std::borrow::Cow;

use indexmap::map::Entry;
use serde::de::{MapAccess, Visitor};
use serde_json::{Value, json};

use super::schema::Definitions;
use super::{Drain, FaultCode, Faults, Kind, Place, Seed, Slot};

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

    fn expected(self) -> Cow<'static, str> {
        "an object of entries by id".into()
    }

    fn slot<'v>(self, value: &'v mut Self::Value, keys: &[&str]) -> Option<Slot<'v>> {
        let (id, rest) = keys.split_first()?;
        self.of.slot(value.get_mut(*id)?, rest)
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
        while let Some(key) = members.next_key::<String>()? {
            let place = at.key(&key);
            if entries.len() == self.most {
                let detail = format!("must have {} entries or fewer; it has more", self.most);
                if let Some(fault) = faults.add(at, FaultCode::TooMany, detail) {
                    fault.maximum = Some(self.most as f64);
                }
                members.next_value_seed(Drain { at: &place, faults })?;
                Drain { at, faults }.visit_map(members)?;
                break;
            }
            if !is_id(&key) {
                faults.bad_key(&place, &key);
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

#[cfg(test)]
mod tests {
    use super::super::fixture::{chest, fault, faults};
    use super::*;

    fn with_key(key: &str) -> String {
        format!(r#"{{"length_in": 1, "drawers": {{"{key}": {{"width_in": 1}}}}}}"#)
    }

    #[test]
    fn ids_are_1_to_64_letters_digits_underscores_and_hyphens() {
        for good in ["a", "0", "_", "-", "Top_Left-2", &"x".repeat(64)] {
            assert!(faults(&with_key(good)).is_empty(), "{good}");
        }
        for (bad, pointer) in [
            ("", "/drawers/"),
            ("my bench", "/drawers/my bench"),
            ("a.b", "/drawers/a.b"),
            ("a/b", "/drawers/a~1b"),
            ("a~b", "/drawers/a~0b"),
            ("é", "/drawers/é"),
        ] {
            let fault = fault(&with_key(bad));
            assert_eq!((fault.code, fault.pointer.as_str()), (FaultCode::BadId, pointer));
            assert_eq!(fault.detail, "cannot be a key; use 1 to 64 letters, digits, _ or -");
        }
    }

    #[test]
    fn a_key_over_64_characters_is_pointed_at_by_its_map_and_comes_back_shortened() {
        let fault = fault(&with_key(&"x".repeat(65)));
        assert_eq!((fault.code, fault.pointer.as_str()), (FaultCode::BadId, "/drawers"));
        let shown = "x".repeat(64);
        assert_eq!(
            fault.detail,
            format!(r#"has a key "{shown}…" of 65 characters; a key is 1 to 64 letters, digits, _ or -"#)
        );
    }

    #[test]
    fn what_stands_under_a_bad_key_is_read_all_the_same() {
        assert_eq!(
            faults(r#"{"length_in": 1, "drawers": {"a b": {"width_in": "x"}}}"#),
            [
                "/drawers/a b cannot be a key; use 1 to 64 letters, digits, _ or -",
                r#"/drawers/a b/width_in must be a number; got the text "x""#
            ]
        );
    }

    #[test]
    fn a_control_character_in_a_key_is_shown_escaped() {
        let json = r#"{"length_in": 1, "drawers": {"a\u0007": {"width_in": 1}}}"#;
        assert_eq!(fault(json).pointer, "/drawers/a\u{7}");
        assert!(faults(json)[0].starts_with(r"/drawers/a\u0007 cannot be a key"), "{:?}", faults(json));
    }

    #[test]
    fn a_key_that_stands_twice_is_one_fault_and_the_first_entry_stays() {
        let json = r#"{"length_in": 1, "drawers": {"a": {"width_in": 1}, "b": {"width_in": 2}, "a": {"width_in": 3}}}"#;
        let fault = fault(json);
        assert_eq!((fault.code, fault.pointer.as_str()), (FaultCode::DuplicateKey, "/drawers/a"));
        assert_eq!(fault.detail, "is given more than once; keep one");
        assert_eq!(chest(json).unwrap().0.drawers.unwrap()["a"].width_in, 1.0);
    }

    #[test]
    fn keys_that_differ_in_their_escapes_alone_are_the_same() {
        assert_eq!(
            fault(r#"{"length_in": 1, "drawers": {"a": {"width_in": 1}, "\u0061": {"width_in": 3}}}"#).code,
            FaultCode::DuplicateKey
        );
    }

    #[test]
    fn one_entry_more_than_allowed_is_one_fault() {
        let entries = |n: usize| {
            let entries: Vec<String> = (0..n).map(|i| format!(r#""d{i}": {{"width_in": 1}}"#)).collect();
            format!(r#"{{"length_in": 1, "drawers": {{{}}}}}"#, entries.join(","))
        };
        assert!(faults(&entries(3)).is_empty());
        for n in [4, 7] {
            let fault = fault(&entries(n));
            assert_eq!((fault.code, fault.maximum), (FaultCode::TooMany, Some(3.0)));
            assert_eq!(fault.pointer, "/drawers");
            assert_eq!(fault.detail, "must have 3 entries or fewer; it has more");
        }
    }

    #[test]
    fn entries_stay_in_the_order_of_the_document() {
        let json = r#"{"length_in": 1, "drawers": {"z": {"width_in": 1}, "a": {"width_in": 1}}}"#;
        let drawers = chest(json).unwrap().0.drawers.unwrap();
        assert_eq!(drawers.keys().collect::<Vec<_>>(), ["z", "a"]);
    }

    #[test]
    fn a_list_is_no_map() {
        assert_eq!(
            fault(r#"{"length_in": 1, "drawers": [{"id": "a"}]}"#).detail,
            "must be an object of entries by id; got a list"
        );
    }
}
