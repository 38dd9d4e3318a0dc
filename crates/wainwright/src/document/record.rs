//! An object with named fields.

use std::borrow::Cow;
use std::fmt;
use std::marker::PhantomData;

use serde::de::{DeserializeSeed, Deserializer, MapAccess, Visitor};
use serde_json::Value;

use super::schema::Definitions;
use super::{Faults, Kind, Place, Slot};

/// An object with named fields, as declared by [`record!`].
pub trait Record: Sized {
    /// What it is, as in "is not a field of a part".
    const NOUN: &'static str;
    /// The names of its fields, in order.
    const FIELDS: &'static [&'static str];

    /// All fields blank.
    fn blank() -> Self;

    /// Reads the members of the object at `at`.
    fn read<'de, A: MapAccess<'de>>(members: A, at: &Place, faults: &mut Faults) -> Result<Self, A::Error>;

    /// The number that keys lead to, the first of them a field; see [`Kind::slot`].
    fn slot(&mut self, keys: &[&str]) -> Option<Slot<'_>>;

    /// Reference to its JSON Schema, which is put into `definitions`.
    fn schema(definitions: &mut Definitions) -> Value;

    /// An object of all its fields' examples.
    fn example() -> Value;
}

/// The kind of field that holds a record.
#[derive(Debug)]
pub struct Section<R>(PhantomData<R>);

impl<R> Section<R> {
    /// A field that holds a record `R`.
    pub const fn of() -> Self {
        Self(PhantomData)
    }
}

impl<R> Clone for Section<R> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<R> Copy for Section<R> {}

impl<R: Record> Kind for Section<R> {
    type Value = R;

    fn expected(self) -> Cow<'static, str> {
        "an object".into()
    }

    fn blank(self) -> R {
        R::blank()
    }

    fn schema(self, definitions: &mut Definitions) -> Value {
        R::schema(definitions)
    }

    fn example(self) -> Option<Value> {
        Some(R::example())
    }

    fn slot<'v>(self, value: &'v mut R, keys: &[&str]) -> Option<Slot<'v>> {
        value.slot(keys)
    }

    fn object<'de, A: MapAccess<'de>>(
        self,
        members: A,
        at: &Place,
        faults: &mut Faults,
    ) -> Result<R, A::Error> {
        R::read(members, at, faults)
    }
}

/// Reads a member's name and looks it up among the known ones.
pub struct FieldName(pub &'static [&'static str]);

/// A member's name.
pub enum Key {
    /// The index of a known field.
    Known(usize),
    /// A name that no field has.
    Unknown(String),
}

impl<'de> DeserializeSeed<'de> for FieldName {
    type Value = Key;

    fn deserialize<D: Deserializer<'de>>(self, input: D) -> Result<Key, D::Error> {
        input.deserialize_identifier(self)
    }
}

impl Visitor<'_> for FieldName {
    type Value = Key;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a member's name")
    }

    fn visit_str<E>(self, name: &str) -> Result<Key, E> {
        Ok(match self.0.iter().position(|known| *known == name) {
            Some(index) => Key::Known(index),
            None => Key::Unknown(name.to_owned()),
        })
    }
}

/// Declares a section of the document: the struct, its reader and its published schema.
///
/// Each field: its doc comment, `required` or `optional`, its name and type, `=` its [`Kind`] and, for a
/// kind without members, an example. An optional field becomes an `Option`. Of what other members of the example rule
/// out, a section's example is `null`, and another's stands `aside`: published, and left out of the whole.
macro_rules! record {
    (
        $(#[doc = $doc:literal])+
        pub struct $name:ident: $noun:literal {
            $(
                $(#[doc = $field_doc:literal])+
                $mode:ident $field:ident: $type:ty = $kind:expr $(, $example:expr $(, $aside:ident)?)?;
            )+
        }
    ) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name {
            $( $(#[doc = $field_doc])+ pub $field: $crate::document::record!(@type $mode $type), )+
        }

        impl $crate::document::Record for $name {
            const NOUN: &'static str = $noun;
            const FIELDS: &'static [&'static str] = &[$(stringify!($field)),+];

            fn blank() -> Self {
                Self { $( $field: $crate::document::Kind::blank($crate::document::record!(@kind $mode $type, $kind)) ),+ }
            }

            fn read<'de, A: serde::de::MapAccess<'de>>(
                mut members: A,
                at: &$crate::document::Place,
                faults: &mut $crate::document::Faults,
            ) -> Result<Self, A::Error> {
                use $crate::document::{Drain, FieldName, Key, Kind, Seed};
                #[allow(non_camel_case_types, clippy::upper_case_acronyms)]
                enum Index { $($field),+ }
                $( let mut $field = None; )+
                while let Some(key) = members.next_key_seed(FieldName(Self::FIELDS))? {
                    match key {
                        $(
                            Key::Known(i) if i == Index::$field as usize => {
                                let place = at.key(stringify!($field));
                                let kind = $crate::document::record!(@kind $mode $type, $kind);
                                let value = members.next_value_seed(Seed { kind, at: &place, faults })?;
                                if $field.is_some() {
                                    faults.duplicate_key(&place);
                                }
                                $field = Some(value);
                            }
                        )+
                        Key::Known(_) => unreachable!("FIELDS and Index list the same fields"),
                        Key::Unknown(name) => {
                            let place = at.key(&name);
                            faults.unknown_field(&place, Self::NOUN, &name, Self::FIELDS);
                            members.next_value_seed(Drain { at: &place, faults })?;
                        }
                    }
                }
                Ok(Self {
                    $( $field: match $field {
                        Some(value) => value,
                        None => $crate::document::record!(@kind $mode $type, $kind).null(&at.key(stringify!($field)), faults),
                    }, )+
                })
            }

            fn slot(&mut self, keys: &[&str]) -> Option<$crate::document::Slot<'_>> {
                let (key, rest) = keys.split_first()?;
                $(
                    if *key == stringify!($field) {
                        let kind = $crate::document::record!(@kind $mode $type, $kind);
                        return $crate::document::Kind::slot(kind, &mut self.$field, rest);
                    }
                )+
                None
            }

            fn schema(definitions: &mut $crate::document::schema::Definitions) -> serde_json::Value {
                $crate::document::schema::request_object(
                    definitions,
                    stringify!($name),
                    concat!($($doc, "\n"),+),
                    |definitions| vec![
                        $( $crate::document::schema::Member {
                            name: stringify!($field),
                            doc: concat!($($field_doc, "\n"),+),
                            required: $crate::document::record!(@required $mode),
                            schema: $crate::document::Kind::schema($crate::document::record!(@kind $mode $type, $kind), definitions),
                            example: $crate::document::record!(@example $type, $kind $(, $example)?),
                        } ),+
                    ],
                )
            }

            fn example() -> serde_json::Value {
                let mut members = serde_json::Map::new();
                $(
                    let example: Option<serde_json::Value> = $crate::document::record!(@example $type, $kind $(, $example)?);
                    let stands = $crate::document::record!(@stands $($($aside)?)?);
                    if let Some(example) = example.filter(|example| stands && !example.is_null()) {
                        members.insert(stringify!($field).to_owned(), example);
                    }
                )+
                members.into()
            }
        }
    };
    (@type required $type:ty) => { $type };
    (@type optional $type:ty) => { Option<$type> };
    (@kind required $type:ty, $kind:expr) => { $crate::document::holding::<$type, _>($kind) };
    (@kind optional $type:ty, $kind:expr) => { $crate::document::Optional($crate::document::holding::<$type, _>($kind)) };
    (@required required) => { true };
    (@required optional) => { false };
    (@stands) => { true };
    (@stands aside) => { false };
    (@example $type:ty, $kind:expr) => { $crate::document::Kind::example($crate::document::holding::<$type, _>($kind)) };
    (@example $type:ty, $kind:expr, $example:expr) => { Some(serde_json::json!($example)) };
}
pub(crate) use record;

#[cfg(test)]
mod tests {
    use super::super::FaultCode;
    use super::super::fixture::{chest, fault, faults};

    #[test]
    fn null_is_left_out_where_a_member_may_be_and_missing_where_it_may_not() {
        assert!(faults(r#"{"length_in": 1, "depth_in": null, "drawers": null, "lid": null}"#).is_empty());
        let missing = fault(r#"{"length_in": null}"#);
        assert_eq!((missing.code, missing.pointer.as_str()), (FaultCode::MissingField, "/length_in"));
        assert_eq!(missing.detail, "is missing; give a number");
        assert_eq!(fault("{}"), missing);
    }

    #[test]
    fn a_missing_member_is_pointed_at_where_it_would_stand() {
        assert_eq!(
            faults(r#"{"lid": {}, "drawers": {"a": {"color": "red"}}}"#),
            [
                "/lid/width_in is missing; give a number",
                "/drawers/a/width_in is missing; give a number",
                "/length_in is missing; give a number"
            ]
        );
    }

    #[test]
    fn an_unknown_member_is_answered_with_the_nearest_or_with_all() {
        let slip = fault(r#"{"length_in": 1, "colour": "red"}"#);
        assert_eq!((slip.code, slip.pointer.as_str()), (FaultCode::UnknownField, "/colour"));
        assert_eq!(slip.detail, "is not a field of a chest; did you mean color?");
        assert_eq!(slip.suggestion.as_deref(), Some("color"));
        let other = fault(r#"{"length_in": 1, "lid": {"width_in": 1, "handle": {"a": [1]}}}"#);
        assert_eq!(other.detail, "is not a field of a drawer; its fields are width_in, color");
        assert_eq!(other.suggestion, None);
    }

    #[test]
    fn a_name_without_its_unit_is_known() {
        assert_eq!(fault(r#"{"length_in": 1, "depth": 4}"#).suggestion.as_deref(), Some("depth_in"));
        assert_eq!(fault(r#"{"length_in": 1, "depth_ft": 4}"#).suggestion.as_deref(), Some("depth_in"));
    }

    #[test]
    fn an_unknown_name_over_64_characters_comes_back_shortened() {
        let fault =
            fault(&format!(r#"{{"length_in": 1, "lid": {{"width_in": 1, "{}": 1}}}}"#, "x".repeat(9000)));
        assert_eq!((fault.code, fault.pointer.as_str()), (FaultCode::UnknownField, "/lid"));
        let shown = "x".repeat(64);
        assert_eq!(
            fault.detail,
            format!(
                r#"has a member "{shown}…" of 9000 characters, which is not a field of a drawer; its fields are width_in, color"#
            )
        );
    }

    #[test]
    fn odd_names_are_escaped_in_the_pointer() {
        assert_eq!(fault(r#"{"length_in": 1, "a/b~c": 1}"#).pointer, "/a~1b~0c");
        assert_eq!(fault(r#"{"length_in": 1, "": 1}"#).pointer, "/");
    }

    #[test]
    fn a_member_that_stands_twice_is_refused() {
        let fault = fault(r#"{"length_in": 1, "count": 1, "count": 2}"#);
        assert_eq!((fault.code, fault.pointer.as_str()), (FaultCode::DuplicateKey, "/count"));
        assert_eq!(fault.detail, "is given more than once; keep one");
    }

    #[test]
    fn faults_of_both_of_two_equal_members_are_noted() {
        let pointers = faults(r#"{"length_in": "a", "length_in": 1}"#);
        assert_eq!(pointers.len(), 2, "{pointers:?}");
    }

    #[test]
    fn another_type_than_an_object_is_named_and_nothing_in_it_is_looked_at() {
        assert_eq!(fault(r#"{"length_in": 1, "lid": [{"x": 1}]}"#).detail, "must be an object; got a list");
        assert_eq!(faults("[]"), ["the document must be an object; got a list"]);
        assert_eq!(faults("3"), ["the document must be an object; got a number"]);
        assert_eq!(faults("null"), ["the document is missing; give an object"]);
    }

    #[test]
    fn members_may_stand_in_any_order() {
        let (chest, faults) = chest(r#"{"count": 3, "length_in": 7}"#).unwrap();
        assert_eq!((chest.count, chest.length_in, faults.count()), (Some(3), 7.0, 0));
    }
}
