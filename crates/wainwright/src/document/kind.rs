//! What a field may hold, and how one is read.

use std::borrow::Cow;
use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error as _, MapAccess, SeqAccess, Visitor};
use serde_json::Value;

use super::fault::echo;
use super::schema::Definitions;
use super::{Faults, NESTING_LIMIT, Place, Slot};

/// What a field may hold.
///
/// One method for each JSON type; a kind implements those it accepts, and the others note a fault and give
/// a blank. `Err` is for text that is not JSON, never for a fault.
pub trait Kind: Copy {
    /// What the field becomes.
    type Value;

    /// What belongs here, as in "must be a number".
    fn expected(self) -> Cow<'static, str>;

    /// Stands in for a value that could not be read, so that the reading can go on.
    fn blank(self) -> Self::Value;

    /// The JSON Schema of the field.
    fn schema(self, definitions: &mut Definitions) -> Value;

    /// An example made of the examples of its members, for kinds that have members.
    fn example(self) -> Option<Value> {
        None
    }

    /// The number that keys lead to in a value of this kind; none where they lead to no number, and into what was left
    /// out. A number that was left out is there from then on.
    fn slot<'v>(self, _: &'v mut Self::Value, _: &[&str]) -> Option<Slot<'v>> {
        None
    }

    /// A JSON number stands here.
    fn number(self, _: f64, at: &Place, faults: &mut Faults) -> Self::Value {
        faults.wrong_type(at, &self.expected(), "a number");
        self.blank()
    }

    /// A JSON string stands here.
    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> Self::Value {
        faults.wrong_type(at, &self.expected(), &format!("the text {}", echo(value)));
        self.blank()
    }

    /// `true` or `false` stands here.
    fn flag(self, value: bool, at: &Place, faults: &mut Faults) -> Self::Value {
        faults.wrong_type(at, &self.expected(), if value { "true" } else { "false" });
        self.blank()
    }

    /// `null` stands here, which is the same as leaving the member out.
    fn null(self, at: &Place, faults: &mut Faults) -> Self::Value {
        faults.missing(at, &self.expected());
        self.blank()
    }

    /// A JSON array stands here.
    fn list<'de, A: SeqAccess<'de>>(
        self,
        items: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<Self::Value, A::Error> {
        faults.wrong_type(at, &self.expected(), "a list");
        Drain { at, faults }.visit_seq(items)?;
        Ok(self.blank())
    }

    /// A JSON object stands here.
    fn object<'de, A: MapAccess<'de>>(
        self,
        members: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<Self::Value, A::Error> {
        faults.wrong_type(at, &self.expected(), "an object");
        Drain { at, faults }.visit_map(members)?;
        Ok(self.blank())
    }
}

/// The kind itself; says which type it holds, where that is written beside it.
pub const fn holding<T, K: Kind<Value = T>>(kind: K) -> K {
    kind
}

/// Reads one value of a kind at a place.
pub struct Seed<'a, K> {
    /// What belongs here.
    pub kind: K,
    /// Where it stands.
    pub at: &'a Place<'a>,
    /// Where faults are noted.
    pub faults: &'a mut Faults,
}

impl<'de, K: Kind> DeserializeSeed<'de> for Seed<'_, K> {
    type Value = K::Value;

    fn deserialize<D: Deserializer<'de>>(self, input: D) -> Result<K::Value, D::Error> {
        input.deserialize_any(self)
    }
}

impl<'de, K: Kind> Visitor<'de> for Seed<'_, K> {
    type Value = K::Value;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&self.kind.expected())
    }

    fn visit_bool<E>(self, value: bool) -> Result<K::Value, E> {
        Ok(self.kind.flag(value, self.at, self.faults))
    }

    fn visit_i64<E>(self, value: i64) -> Result<K::Value, E> {
        Ok(self.kind.number(value as f64, self.at, self.faults))
    }

    fn visit_u64<E>(self, value: u64) -> Result<K::Value, E> {
        Ok(self.kind.number(value as f64, self.at, self.faults))
    }

    fn visit_f64<E>(self, value: f64) -> Result<K::Value, E> {
        Ok(self.kind.number(value, self.at, self.faults))
    }

    fn visit_str<E>(self, value: &str) -> Result<K::Value, E> {
        Ok(self.kind.text(value, self.at, self.faults))
    }

    fn visit_unit<E>(self) -> Result<K::Value, E> {
        Ok(self.kind.null(self.at, self.faults))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, items: A) -> Result<K::Value, A::Error> {
        self.kind.list(items, self.at, self.faults)
    }

    fn visit_map<A: MapAccess<'de>>(self, members: A) -> Result<K::Value, A::Error> {
        self.kind.object(members, self.at, self.faults)
    }
}

/// Reads past a value that is not wanted, and refuses to follow it too deep.
pub struct Drain<'a> {
    /// Where the value stands.
    pub at: &'a Place<'a>,
    /// Where it is noted that the limit was passed.
    pub faults: &'a mut Faults,
}

impl<'de> DeserializeSeed<'de> for Drain<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, input: D) -> Result<(), D::Error> {
        input.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Drain<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("any value")
    }

    fn visit_bool<E>(self, _: bool) -> Result<(), E> {
        Ok(())
    }

    fn visit_i64<E>(self, _: i64) -> Result<(), E> {
        Ok(())
    }

    fn visit_u64<E>(self, _: u64) -> Result<(), E> {
        Ok(())
    }

    fn visit_f64<E>(self, _: f64) -> Result<(), E> {
        Ok(())
    }

    fn visit_str<E>(self, _: &str) -> Result<(), E> {
        Ok(())
    }

    fn visit_unit<E>(self) -> Result<(), E> {
        Ok(())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<(), A::Error> {
        let inner = self.at.index(0);
        if inner.depth() > NESTING_LIMIT {
            self.faults.too_deep = true;
            return Err(A::Error::custom("too deep"));
        }
        while items.next_element_seed(Drain { at: &inner, faults: self.faults })?.is_some() {}
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<(), A::Error> {
        let inner = self.at.index(0);
        if inner.depth() > NESTING_LIMIT {
            self.faults.too_deep = true;
            return Err(A::Error::custom("too deep"));
        }
        while members.next_key::<serde::de::IgnoredAny>()?.is_some() {
            members.next_value_seed(Drain { at: &inner, faults: self.faults })?;
        }
        Ok(())
    }
}

/// A kind that may be left out; `null` is the same as leaving it out.
#[derive(Debug, Clone, Copy)]
pub struct Optional<K>(pub K);

impl<K: Kind> Kind for Optional<K> {
    type Value = Option<K::Value>;

    fn expected(self) -> Cow<'static, str> {
        self.0.expected()
    }

    fn blank(self) -> Self::Value {
        None
    }

    fn schema(self, definitions: &mut Definitions) -> Value {
        super::schema::nullable(self.0.schema(definitions))
    }

    fn example(self) -> Option<Value> {
        self.0.example()
    }

    fn slot<'v>(self, value: &'v mut Self::Value, keys: &[&str]) -> Option<Slot<'v>> {
        if value.is_none() {
            // A number alone, never a section with nothing in it.
            let mut blank = self.0.blank();
            self.0.slot(&mut blank, keys).filter(|_| keys.is_empty())?;
            *value = Some(blank);
        }
        self.0.slot(value.as_mut()?, keys)
    }

    fn number(self, value: f64, at: &Place, faults: &mut Faults) -> Self::Value {
        Some(self.0.number(value, at, faults))
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> Self::Value {
        Some(self.0.text(value, at, faults))
    }

    fn flag(self, value: bool, at: &Place, faults: &mut Faults) -> Self::Value {
        Some(self.0.flag(value, at, faults))
    }

    fn null(self, _: &Place, _: &mut Faults) -> Self::Value {
        None
    }

    fn list<'de, A: SeqAccess<'de>>(
        self,
        items: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<Self::Value, A::Error> {
        self.0.list(items, at, faults).map(Some)
    }

    fn object<'de, A: MapAccess<'de>>(
        self,
        members: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<Self::Value, A::Error> {
        self.0.object(members, at, faults).map(Some)
    }
}

/// `true` or `false`.
#[derive(Debug, Clone, Copy)]
pub struct Flag;

impl Kind for Flag {
    type Value = bool;

    fn expected(self) -> Cow<'static, str> {
        "true or false".into()
    }

    fn blank(self) -> bool {
        false
    }

    fn schema(self, _: &mut Definitions) -> Value {
        serde_json::json!({"type": "boolean"})
    }

    fn flag(self, value: bool, _: &Place, _: &mut Faults) -> bool {
        value
    }
}

/// A section that another question reads: any object is accepted here and nothing in it is looked at.
#[derive(Debug, Clone, Copy)]
pub struct Unread;

impl Kind for Unread {
    type Value = ();

    fn expected(self) -> Cow<'static, str> {
        "an object".into()
    }

    fn blank(self) {}

    fn schema(self, _: &mut Definitions) -> Value {
        serde_json::json!({"type": "object"})
    }

    fn object<'de, A: MapAccess<'de>>(
        self,
        members: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<(), A::Error> {
        Drain { at, faults }.visit_map(members)
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{chest, fault, faults};
    use super::super::{FaultCode, Refusal};
    use super::*;

    /// Lists inside one another.
    fn nested(depth: usize) -> String {
        format!("{}{}", "[".repeat(depth), "]".repeat(depth))
    }

    #[test]
    fn a_flag_is_true_or_false() {
        assert_eq!(chest(r#"{"length_in": 1, "locked": true}"#).unwrap().0.locked, Some(true));
        let fault = fault(r#"{"length_in": 1, "locked": "yes"}"#);
        assert_eq!(
            (fault.code, fault.detail.as_str()),
            (FaultCode::WrongType, r#"must be true or false; got the text "yes""#)
        );
        assert_eq!(
            faults(r#"{"length_in": 1, "locked": 1}"#),
            ["/locked must be true or false; got a number"]
        );
    }

    #[test]
    fn nothing_in_an_unread_section_is_looked_at() {
        assert!(
            faults(r#"{"length_in": 1, "other": {"a": 1, "a": [true, null, {"b": "c"}], "x y/z": -1e300}}"#)
                .is_empty()
        );
        assert_eq!(faults(r#"{"length_in": 1, "other": []}"#), ["/other must be an object; got a list"]);
    }

    #[test]
    fn text_that_is_not_wanted_comes_back_shortened_and_escaped() {
        let fault = fault(&format!(r#"{{"length_in": "\u0000\n{}"}}"#, "y".repeat(500)));
        let shown = "y".repeat(62);
        assert_eq!(fault.detail, format!(r#"must be a number; got the text "\u0000\u000a{shown}…""#));
    }

    /// The document is the first of 32 levels, a section the second.
    #[test]
    fn nesting_is_accepted_to_the_limit_and_refused_above_it() {
        let limit = usize::from(NESTING_LIMIT);
        let unread =
            |levels| chest(&format!(r#"{{"length_in": 1, "other": {{"a": {}}}}}"#, nested(levels - 2)));
        let unknown = |levels| chest(&format!(r#"{{"length_in": 1, "zzz": {}}}"#, nested(levels - 1)));
        let wrong = |levels| chest(&format!(r#"{{"length_in": {}}}"#, nested(levels - 1)));
        assert!(unread(limit).unwrap().1.is_empty());
        assert_eq!(unknown(limit).unwrap().1.list()[0].code, FaultCode::UnknownField);
        assert_eq!(wrong(limit).unwrap().1.list()[0].code, FaultCode::WrongType);
        for refused in [unread(limit + 1), unknown(limit + 1), wrong(limit + 1), unread(10_000)] {
            let Err(Refusal::Unreadable { detail, limit, line, column }) = refused else {
                panic!("{refused:?}")
            };
            assert_eq!(limit, Some(32));
            assert_eq!(detail, "objects and lists may lie 32 deep inside one another, no deeper");
            assert!(line == 1 && column > 30, "{line}, {column}");
        }
    }

    #[test]
    fn objects_count_as_lists_do() {
        let nested = |levels: usize| {
            let open = r#"{"a":"#.repeat(levels - 2);
            chest(&format!(r#"{{"length_in": 1, "other": {open}{{}}{}}}"#, "}".repeat(levels - 2)))
        };
        assert!(nested(32).unwrap().1.is_empty());
        assert!(matches!(nested(33), Err(Refusal::Unreadable { limit: Some(32), .. })));
    }
}
