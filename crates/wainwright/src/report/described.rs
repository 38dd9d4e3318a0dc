//! Fields of reports that describe themselves: sentence, unit and example stand once, in the declaration.

use std::borrow::Cow;

use serde_json::{Value, json};

use super::{AssumedValue, LimitKind, Severity};
use crate::document::Keyed;
use crate::document::schema::{Definitions, nullable};

/// A type that can stand in a report.
pub trait Described {
    /// Its JSON Schema; a record puts itself into `definitions` and gives a reference.
    fn schema(definitions: &mut Definitions) -> Value;

    /// An example made of the examples of its fields, for types that have fields.
    fn example() -> Option<Value> {
        None
    }
}

macro_rules! described {
    ($($type:ty => $schema:tt;)+) => {
        $(impl Described for $type {
            fn schema(_: &mut Definitions) -> Value {
                json!($schema)
            }
        })+
    };
}

described! {
    f64 => {"type": "number", "format": "double"};
    u32 => {"type": "integer", "format": "int32", "minimum": 0};
    u64 => {"type": "integer", "format": "int64", "minimum": 0};
    bool => {"type": "boolean"};
    String => {"type": "string"};
    &'static str => {"type": "string"};
    Cow<'static, str> => {"type": "string"};
    Severity => {"type": "string", "enum": Severity::WORDS};
    LimitKind => {"type": "string", "enum": LimitKind::WORDS};
    AssumedValue => {"type": ["number", "string", "boolean"]};
}

impl<T: Described> Described for Option<T> {
    fn schema(definitions: &mut Definitions) -> Value {
        nullable(T::schema(definitions))
    }

    fn example() -> Option<Value> {
        T::example()
    }
}

impl<T: Described> Described for Vec<T> {
    fn schema(definitions: &mut Definitions) -> Value {
        json!({"type": "array", "items": T::schema(definitions)})
    }

    fn example() -> Option<Value> {
        T::example().map(|item| json!([item]))
    }
}

impl<T: Described + 'static> Described for &'static [T] {
    fn schema(definitions: &mut Definitions) -> Value {
        Vec::<T>::schema(definitions)
    }

    fn example() -> Option<Value> {
        Vec::<T>::example()
    }
}

impl<T: Described> Described for Keyed<T> {
    fn schema(definitions: &mut Definitions) -> Value {
        json!({"type": "object", "additionalProperties": T::schema(definitions)})
    }

    fn example() -> Option<Value> {
        T::example().map(|entry| json!({"id": entry}))
    }
}

/// Declares an object of a report: the struct, its serialisation and its published schema.
///
/// Each field: its doc comment, name and type, and `=` an example where its type has none of its own.
macro_rules! report {
    (
        $(#[doc = $doc:literal])+
        $(#[derive($($derive:ident),+)])?
        pub struct $name:ident {
            $(
                $(#[doc = $field_doc:literal])+
                $field:ident: $type:ty $(= $example:expr)?,
            )+
        }
    ) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, PartialEq, serde::Serialize $(, $($derive),+)?)]
        pub struct $name {
            $( $(#[doc = $field_doc])+ pub $field: $type, )+
        }

        impl $crate::report::Described for $name {
            fn schema(definitions: &mut $crate::document::schema::Definitions) -> serde_json::Value {
                $crate::document::schema::report_object(
                    definitions,
                    stringify!($name),
                    concat!($($doc, "\n"),+),
                    |definitions| vec![
                        $( $crate::document::schema::Member {
                            name: stringify!($field),
                            doc: concat!($($field_doc, "\n"),+),
                            required: true,
                            schema: <$type as $crate::report::Described>::schema(definitions),
                            example: $crate::report::report!(@example $type $(, $example)?),
                        } ),+
                    ],
                )
            }

            fn example() -> Option<serde_json::Value> {
                let mut members = serde_json::Map::new();
                $(
                    let example: Option<serde_json::Value> = $crate::report::report!(@example $type $(, $example)?);
                    if let Some(example) = example {
                        members.insert(stringify!($field).to_owned(), example);
                    }
                )+
                Some(members.into())
            }
        }
    };
    (@example $type:ty) => { <$type as $crate::report::Described>::example() };
    (@example $type:ty, $example:expr) => { Some(serde_json::json!($example)) };
}
pub(crate) use report;

report! {
    /// What worked the answer out. The same build and the same engine give the same bytes.
    #[derive(Copy)]
    pub struct Engine {
        /// Version of the calculation.
        version: &'static str = "0.1.0",
    }
}

impl Engine {
    /// This engine.
    pub const THIS: Self = Self { version: env!("CARGO_PKG_VERSION") };
}
