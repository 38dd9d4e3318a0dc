//! An object with named fields.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{DeserializeSeed, Deserializer, MapAccess, Visitor};
use serde_json::Value;

use super::schema::Definitions;
use super::{Faults, Kind, Place};

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

    fn expected(self) -> &'static str {
        "an object"
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
/// kind without members, an example. An optional field becomes an `Option`.
macro_rules! record {
    (
        $(#[doc = $doc:literal])+
        pub struct $name:ident: $noun:literal {
            $(
                $(#[doc = $field_doc:literal])+
                $mode:ident $field:ident: $type:ty = $kind:expr $(, $example:expr)?;
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
                    if let Some(example) = example {
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
    (@example $type:ty, $kind:expr) => { $crate::document::Kind::example($crate::document::holding::<$type, _>($kind)) };
    (@example $type:ty, $kind:expr, $example:expr) => { Some(serde_json::json!($example)) };
}
pub(crate) use record;
