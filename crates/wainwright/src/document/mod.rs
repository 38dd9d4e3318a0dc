//! Reading a JSON document into typed sections, with every fault reported at its place.
//!
//! One pass does it all: [`record!`] declares a section's fields once, and from that declaration come the
//! struct, its reader and its published schema. A fault never ends the reading; it is noted with its JSON
//! Pointer, a blank stands in for the value, and the reading goes on. Only text that is not JSON ends it.
//!
//! - [`Place`]: where in the document the reader is, rendered to a JSON Pointer when a fault is found
//! - [`Fault`], [`Faults`], [`Refusal`]: what was wrong
//! - [`Kind`]: what a field may hold: [`Bound`], [`Whole`], [`Among`], [`Flag`], [`Text`], [`Choice`],
//!   [`Stamp`], [`DayOfYear`], [`Section`], [`Map`], [`List`], [`Inner`]

mod among;
mod choice;
mod date;
mod fault;
#[cfg(test)]
mod fixture;
mod inner;
mod kind;
mod list;
mod map;
mod number;
mod order;
mod place;
mod read;
mod record;
pub mod schema;
mod slot;
mod text;

pub use among::Among;
pub use choice::{Choice, Options};
pub use date::{DayOfYear, MonthDay, Stamp};
pub use fault::{Fault, FaultCode, Faults, Refusal};
pub(crate) use fault::{echo, nearest_name};
pub use inner::Inner;
pub use kind::{Drain, Flag, Kind, Optional, Seed, Unread, holding};
pub use list::List;
pub use map::{Keyed, Map};
pub use number::{Bound, Whole};
pub use place::Place;
pub use read::{read, read_value};
pub(crate) use record::record;
pub use record::{FieldName, Key, Record, Section};
pub use slot::Slot;
pub use text::Text;

/// Objects and lists may lie this deep inside one another.
pub const NESTING_LIMIT: u16 = 32;
