//! An object that is kept as JSON, for what is read only after something was done to it.

use std::borrow::Cow;
use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error as _, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Value};

use super::schema::Definitions;
use super::{Faults, Kind, NESTING_LIMIT, Place};

/// An object that is kept as JSON. That a key stands twice in it is noted; nothing else in it is looked at.
#[derive(Debug, Clone, Copy)]
pub struct RawObject {
    /// Its published schema.
    pub schema: fn(&mut Definitions) -> Value,
}

impl Kind for RawObject {
    type Value = Value;

    fn expected(self) -> Cow<'static, str> {
        "an object".into()
    }

    fn blank(self) -> Value {
        Map::new().into()
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
        Whole { at, faults }.visit_map(members)
    }
}

/// Any value, kept as it is.
struct Whole<'a> {
    at: &'a Place<'a>,
    faults: &'a mut Faults,
}

impl<'de> DeserializeSeed<'de> for Whole<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, input: D) -> Result<Value, D::Error> {
        input.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Whole<'_> {
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
        Ok(value.into())
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut values = Vec::new();
        loop {
            let at = self.at.index(values.len());
            if at.depth() > NESTING_LIMIT {
                self.faults.too_deep = true;
                return Err(A::Error::custom("too deep"));
            }
            match items.next_element_seed(Whole { at: &at, faults: self.faults })? {
                Some(value) => values.push(value),
                None => return Ok(values.into()),
            }
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Value, A::Error> {
        if self.at.depth() >= NESTING_LIMIT {
            self.faults.too_deep = true;
            return Err(A::Error::custom("too deep"));
        }
        let mut object = Map::new();
        while let Some(key) = members.next_key::<String>()? {
            let at = self.at.key(&key);
            let value = members.next_value_seed(Whole { at: &at, faults: self.faults })?;
            if object.contains_key(&key) {
                self.faults.duplicate_key(&at);
            } else {
                object.insert(key, value);
            }
        }
        Ok(object.into())
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::{FaultCode, Refusal, read, record};
    use super::*;

    record! {
        /// Holds one.
        pub struct Holder: "a holder" {
            /// The object.
            required raw: Value = RawObject { schema: |_| json!({"type": "object"}) }, json!({});
        }
    }

    #[test]
    fn it_is_kept_as_it_stands() {
        let raw = json!({"b": [1, -2, 0.1, 18446744073709551615_u64, null, true, "x"], "a": {"c": {}}});
        let (holder, faults) = read::<Holder>(json!({"raw": raw}).to_string().as_bytes()).unwrap();
        assert!(faults.is_empty());
        assert_eq!(holder.raw.to_string(), raw.to_string());
    }

    #[test]
    fn a_key_that_stands_twice_and_another_type_are_faults() {
        let (_, faults) = read::<Holder>(br#"{"raw": {"a": {"b": 1, "b": 2}}}"#).unwrap();
        assert_eq!(
            (faults.list()[0].code, faults.list()[0].pointer.as_str()),
            (FaultCode::DuplicateKey, "/raw/a/b")
        );
        let (_, faults) = read::<Holder>(br#"{"raw": [1]}"#).unwrap();
        assert_eq!(faults.list()[0].detail, "must be an object; got a list");
    }

    #[test]
    fn nesting_is_accepted_to_the_limit_and_refused_above_it() {
        let nested =
            |lists: usize| format!(r#"{{"raw": {{"a": {}{}}}}}"#, "[".repeat(lists), "]".repeat(lists));
        assert!(read::<Holder>(nested(30).as_bytes()).unwrap().1.is_empty());
        let refused = read::<Holder>(nested(31).as_bytes());
        assert!(matches!(refused, Err(Refusal::Unreadable { limit: Some(32), .. })), "{refused:?}");
    }
}
