//! An object within a request, kept as it stands: it is read by itself afterwards, and changed in between.

use std::borrow::Cow;
use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value, json};

use super::schema::Definitions;
use super::{Faults, Kind, NESTING_LIMIT, Place, Record};

/// The kind of field that holds an object as JSON. Of what is in it only keys that stand twice are noted.
#[derive(Debug, Clone, Copy)]
pub struct Inner {
    /// Its published schema.
    schema: fn(&mut Definitions) -> Value,
}

impl Inner {
    /// A field that holds a document `R`.
    pub const fn of<R: Record>() -> Self {
        Self { schema: R::schema }
    }

    /// A field that holds lists of anything by names of any kind.
    pub const fn lists() -> Self {
        Self { schema: |_| json!({"type": "object", "additionalProperties": {"type": "array"}}) }
    }

    /// A field that holds an object of any members.
    pub const fn any() -> Self {
        Self { schema: |_| json!({"type": "object"}) }
    }
}

impl Kind for Inner {
    type Value = Value;

    fn expected(self) -> Cow<'static, str> {
        "an object".into()
    }

    /// `null`: no object, for which a fault is noted already.
    fn blank(self) -> Value {
        Value::Null
    }

    fn schema(self, definitions: &mut Definitions) -> Value {
        (self.schema)(definitions)
    }

    fn object<'de, A: MapAccess<'de>>(
        self,
        members: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<Value, A::Error> {
        Gather { at, faults }.visit_map(members)
    }
}

/// Gathers one value.
struct Gather<'a> {
    at: &'a Place<'a>,
    faults: &'a mut Faults,
}

impl Gather<'_> {
    /// Notes where objects and lists lie too deep inside one another, which ends the reading.
    fn go_in<E: serde::de::Error>(&mut self, depth: u16) -> Result<(), E> {
        if depth > NESTING_LIMIT {
            self.faults.too_deep = true;
            return Err(E::custom("too deep"));
        }
        Ok(())
    }
}

impl<'de> DeserializeSeed<'de> for Gather<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, input: D) -> Result<Value, D::Error> {
        input.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Gather<'_> {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("any value")
    }

    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_f64<E>(self, value: f64) -> Result<Value, E> {
        Ok(Number::from_f64(value).map_or(Value::Null, Value::Number))
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut items: A) -> Result<Value, A::Error> {
        self.go_in(self.at.depth() + 1)?;
        let mut list = Vec::new();
        loop {
            let place = self.at.index(list.len());
            match items.next_element_seed(Gather { at: &place, faults: self.faults })? {
                Some(item) => list.push(item),
                None => return Ok(list.into()),
            }
        }
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut members: A) -> Result<Value, A::Error> {
        self.go_in(self.at.depth() + 1)?;
        let mut object = Map::new();
        while let Some(key) = members.next_key::<String>()? {
            let place = self.at.key(&key);
            let value = members.next_value_seed(Gather { at: &place, faults: self.faults })?;
            if object.contains_key(&key) {
                self.faults.duplicate_key(&place);
            }
            object.insert(key, value);
        }
        Ok(object.into())
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::Chest;
    use super::super::{FaultCode, Refusal, read, record};
    use super::*;

    record! {
        /// A crate that a chest stands in.
        pub struct Crate: "a crate" {
            /// What stands in it.
            required chest: Value = Inner::of::<Chest>();
        }
    }

    #[test]
    fn a_document_within_is_kept_as_it_stands() {
        let text =
            r#"{"chest": {"length_in": 0.1, "b": [1, -2, 18446744073709551615, true, null, "x"], "a": {}}}"#;
        let (holder, faults) = read::<Crate>(text.as_bytes()).unwrap();
        assert!(faults.is_empty());
        assert_eq!(holder.chest, serde_json::from_str::<Value>(text).unwrap()["chest"]);
        assert_eq!(holder.chest.as_object().unwrap().keys().collect::<Vec<_>>(), ["length_in", "b", "a"]);
    }

    #[test]
    fn no_object_is_a_fault_and_a_key_that_stands_twice_is_another() {
        for (text, code, pointer) in [
            ("{}", FaultCode::MissingField, "/chest"),
            (r#"{"chest": null}"#, FaultCode::MissingField, "/chest"),
            (r#"{"chest": [1]}"#, FaultCode::WrongType, "/chest"),
            (r#"{"chest": {"lid": {"a": 1, "a": 2}}}"#, FaultCode::DuplicateKey, "/chest/lid/a"),
        ] {
            let (_, faults) = read::<Crate>(text.as_bytes()).unwrap();
            let fault = &faults.list()[0];
            assert_eq!((faults.count(), fault.code, fault.pointer.as_str()), (1, code, pointer), "{text}");
        }
    }

    #[test]
    fn it_may_not_lie_deeper_than_any_document() {
        let nested =
            |levels: usize| format!(r#"{{"chest": {{"a": {}{}}}}}"#, "[".repeat(levels), "]".repeat(levels));
        assert!(read::<Crate>(nested(30).as_bytes()).is_ok());
        let Err(Refusal::Unreadable { limit, .. }) = read::<Crate>(nested(31).as_bytes()) else { panic!() };
        assert_eq!(limit, Some(NESTING_LIMIT));
        assert_eq!(json!(limit), 32);
    }
}
