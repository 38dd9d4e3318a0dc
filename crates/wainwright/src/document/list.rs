//! A list.

use std::borrow::Cow;

use serde::de::{SeqAccess, Visitor};
use serde_json::{Value, json};

use super::schema::Definitions;
use super::{Drain, FaultCode, Faults, Kind, Place, Seed, Slot};

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

    fn expected(self) -> Cow<'static, str> {
        "a list".into()
    }

    fn slot<'v>(self, value: &'v mut Self::Value, keys: &[&str]) -> Option<Slot<'v>> {
        let (index, rest) = keys.split_first()?;
        self.of.slot(value.get_mut(index.parse::<usize>().ok()?)?, rest)
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
                    let detail = format!("must have {} items or fewer; it has more", self.most);
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

#[cfg(test)]
mod tests {
    use super::super::fixture::{chest, fault, faults};
    use super::*;

    #[test]
    fn faults_of_items_stand_at_their_index() {
        assert_eq!(
            faults(r#"{"length_in": 1, "labels": ["a", 7, "abcdef"]}"#),
            ["/labels/1 must be text; got a number", "/labels/2 must have 5 characters or fewer; got 6"]
        );
    }

    #[test]
    fn one_item_more_than_allowed_is_one_fault() {
        assert!(faults(r#"{"length_in": 1, "labels": ["a", "b", "c"]}"#).is_empty());
        for list in [r#"["a", "b", "c", "d"]"#, r#"["a", "b", "c", 4, {"x": [5]}, 6]"#] {
            let fault = fault(&format!(r#"{{"length_in": 1, "labels": {list}}}"#));
            assert_eq!((fault.code, fault.maximum), (FaultCode::TooMany, Some(3.0)));
            assert_eq!(fault.pointer, "/labels");
            assert_eq!(fault.detail, "must have 3 items or fewer; it has more");
        }
    }

    #[test]
    fn a_list_may_be_empty() {
        let (chest, faults) = chest(r#"{"length_in": 1, "labels": []}"#).unwrap();
        assert_eq!((chest.labels, faults.count()), (Some(vec![]), 0));
    }

    #[test]
    fn text_is_no_list() {
        assert_eq!(fault(r#"{"length_in": 1, "labels": "a"}"#).detail, r#"must be a list; got the text "a""#);
    }
}
