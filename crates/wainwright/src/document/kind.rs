//! What a field may hold, and how one is read.

use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error as _, MapAccess, SeqAccess, Visitor};
use serde_json::Value;

use super::schema::Definitions;
use super::{Faults, NESTING_LIMIT, Place};

/// What a field may hold.
///
/// One method for each JSON type; a kind implements those it accepts, and the others note a fault and give
/// a blank. `Err` is for text that is not JSON, never for a fault.
pub trait Kind: Copy {
    /// What the field becomes.
    type Value;

    /// What belongs here, as in "must be a number".
    fn expected(self) -> &'static str;

    /// Stands in for a value that could not be read, so that the reading can go on.
    fn blank(self) -> Self::Value;

    /// The JSON Schema of the field.
    fn schema(self, definitions: &mut Definitions) -> Value;

    /// An example made of the examples of its members, for kinds that have members.
    fn example(self) -> Option<Value> {
        None
    }

    /// A JSON number stands here.
    fn number(self, _: f64, at: &Place, faults: &mut Faults) -> Self::Value {
        faults.wrong_type(at, self.expected(), "a number");
        self.blank()
    }

    /// A JSON string stands here.
    fn text(self, _: &str, at: &Place, faults: &mut Faults) -> Self::Value {
        faults.wrong_type(at, self.expected(), "text");
        self.blank()
    }

    /// `true` or `false` stands here.
    fn flag(self, _: bool, at: &Place, faults: &mut Faults) -> Self::Value {
        faults.wrong_type(at, self.expected(), "true or false");
        self.blank()
    }

    /// `null` stands here, which is the same as leaving the member out.
    fn null(self, at: &Place, faults: &mut Faults) -> Self::Value {
        faults.missing(at, self.expected());
        self.blank()
    }

    /// A JSON array stands here.
    fn list<'de, A: SeqAccess<'de>>(
        self,
        items: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<Self::Value, A::Error> {
        faults.wrong_type(at, self.expected(), "a list");
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
        faults.wrong_type(at, self.expected(), "an object");
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
        f.write_str(self.kind.expected())
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

    fn expected(self) -> &'static str {
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

    fn expected(self) -> &'static str {
        "true or false"
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

    fn expected(self) -> &'static str {
        "an object"
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
