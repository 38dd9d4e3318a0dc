//! What questions read of a build, so that none is asked again of what it does not read.
//!
//! There are two halves of a build. Payload and axle load read masses and where they stand, and what is to bear them;
//! circuits, energy and heat read all the rest. A part belongs to both: its mass to the one, what it draws to the other.

use serde_json::Value;

use crate::axle_load::AxleLoad;
use crate::payload::Payload;
use crate::question::Question;

/// Sections that the masses' half reads, beside the parts.
const MASS_SECTIONS: &[&str] = &["trailer", "tow_vehicle", "tanks", "cargo", "states", "bay", "road"];
/// Members of a part that the masses' half does not read.
const POWER_MEMBERS: &[&str] = &["electrical", "heat_w"];

/// One half of a build.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Half {
    /// Masses, where they stand, and what bears them.
    Masses,
    /// Everything else.
    Powers,
}

impl Half {
    /// Both.
    pub const BOTH: [Self; 2] = [Self::Masses, Self::Powers];

    /// The half that a question reads.
    pub fn of<Q: Question>() -> Self {
        if Q::NAME == Payload::NAME || Q::NAME == AxleLoad::NAME { Self::Masses } else { Self::Powers }
    }

    /// Does it read a section, or the parts in part?
    pub fn reads(self, section: &str) -> bool {
        section == "parts" || MASS_SECTIONS.contains(&section) == (self == Self::Masses)
    }

    /// Does it read a member of a part?
    pub fn reads_of_part(self, member: &str) -> bool {
        POWER_MEMBERS.contains(&member) == (self == Self::Powers)
    }

    /// Everything in a build that this half reads, as text: where it is the same, so are the answers.
    pub fn key(self, build: &Value) -> String {
        let mut key = String::with_capacity(8 * 1024);
        let Value::Object(sections) = build else { return key };
        for (name, section) in sections.iter().filter(|(name, _)| self.reads(name)) {
            push(&mut key, name);
            match (name.as_str(), section) {
                ("parts", Value::Object(parts)) => {
                    parts.iter().for_each(|(id, part)| self.push_part(&mut key, id, part))
                }
                _ => push(&mut key, &section.to_string()),
            }
        }
        key
    }

    fn push_part(self, key: &mut String, id: &str, part: &Value) {
        let Value::Object(members) = part else { return push(key, &part.to_string()) };
        let mut read = members.iter().filter(|(name, _)| self.reads_of_part(name)).peekable();
        // A part that draws nothing is none to what reads what parts draw.
        if self == Self::Powers && read.peek().is_none() {
            return;
        }
        push(key, id);
        // How many of a part there are counts in both halves.
        let quantity = members.get("quantity").filter(|_| self == Self::Powers);
        push(key, &quantity.unwrap_or(&Value::Null).to_string());
        read.for_each(|(name, member)| {
            push(key, name);
            push(key, &member.to_string());
        });
    }
}

/// Appends a piece, and an end that no text of JSON has in it.
fn push(key: &mut String, piece: &str) {
    key.push_str(piece);
    key.push('\u{1}');
}
