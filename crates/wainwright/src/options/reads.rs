//! What questions read of a build, so that none is asked again of what it does not read.
//!
//! There are two halves of a build. Payload and axle load read masses and where they stand, and what is to bear them;
//! circuits, energy and heat read all the rest. A part belongs to both: its mass to the one, what it draws to the other.

use std::fmt::{Display, Write};

use serde_json::Value;

use crate::axle_load::AxleLoad;
use crate::build::Build;
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

    /// The build with this half alone: what the questions of the other half read is not there.
    pub fn alone(self, build: &Build) -> Build {
        let mut alone = build.clone();
        match self {
            Self::Masses => {
                alone.electrical = None;
                alone.battery = None;
                alone.solar = None;
                alone.envelope = None;
                alone.climate = None;
                alone.occupancy = None;
                alone.site = None;
                alone.stay = None;
                for part in alone.parts.iter_mut().flat_map(|parts| parts.values_mut()) {
                    part.electrical = None;
                    part.heat_w = None;
                }
            }
            Self::Powers => {
                alone.trailer = None;
                alone.tow_vehicle = None;
                alone.tanks = None;
                alone.cargo = None;
                alone.states = None;
                alone.bay = None;
                alone.road = None;
            }
        }
        alone
    }

    /// Everything in a build that this half reads, as text: where it is the same, so are the answers.
    pub fn key(self, build: &Value) -> String {
        let mut key = String::with_capacity(16 * 1024);
        let Value::Object(sections) = build else { return key };
        for (name, section) in sections.iter().filter(|(name, _)| self.reads(name)) {
            push(&mut key, name);
            match (name.as_str(), section) {
                ("parts", Value::Object(parts)) => {
                    parts.iter().for_each(|(id, part)| self.push_part(&mut key, id, part))
                }
                _ => push(&mut key, section),
            }
        }
        key
    }

    fn push_part(self, key: &mut String, id: &str, part: &Value) {
        let Value::Object(members) = part else { return push(key, part) };
        let mut read = members.iter().filter(|(name, _)| self.reads_of_part(name)).peekable();
        // A part that draws nothing is none to what reads what parts draw.
        if self == Self::Powers && read.peek().is_none() {
            return;
        }
        push(key, id);
        // How many of a part there are counts in both halves.
        let quantity = members.get("quantity").filter(|_| self == Self::Powers);
        push(key, quantity.unwrap_or(&Value::Null));
        read.for_each(|(name, member)| {
            push(key, name);
            push(key, member);
        });
    }
}

/// Appends a piece, and an end that no text of JSON has in it.
fn push(key: &mut String, piece: impl Display) {
    // Writing to a string cannot fail.
    _ = write!(key, "{piece}\u{1}");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::evaluate::{Evaluate, EvaluateReport};
    use crate::report::Severity;

    const DEMOS: [&str; 3] = [
        include_str!("../../../../tests/builds/heron.json"),
        include_str!("../../../../tests/builds/pika.json"),
        include_str!("../../../../tests/builds/bison.json"),
    ];

    /// What is broken, as code and subject.
    fn broken(report: &EvaluateReport) -> Vec<(&str, &str)> {
        let violations = report.findings.iter().filter(|finding| finding.severity == Severity::Violation);
        violations.map(|finding| (finding.code, &*finding.subject)).collect()
    }

    #[test]
    fn each_half_alone_gives_its_margins_and_its_violations() {
        for demo in DEMOS {
            let build = Build::from_json(demo.as_bytes()).unwrap();
            let whole = Evaluate::answer(&build);
            let [masses, powers] = Half::BOTH.map(|half| Evaluate::answer(&half.alone(&build)));
            assert_eq!(whole.margins.payload_left_lb, masses.margins.payload_left_lb);
            assert_eq!(whole.margins.tongue_margin_fraction, masses.margins.tongue_margin_fraction);
            assert_eq!(whole.margins.autonomy_h, powers.margins.autonomy_h);
            assert_eq!(whole.margins.cooling_margin_fraction, powers.margins.cooling_margin_fraction);
            let mut both = [broken(&masses), broken(&powers)].concat();
            let mut all = broken(&whole);
            both.sort_unstable();
            all.sort_unstable();
            assert_eq!(all, both);
            assert_eq!(whole.axle_load, masses.axle_load);
            assert_eq!(whole.circuit_load, powers.circuit_load);
        }
    }

    #[test]
    fn what_a_half_does_not_read_leaves_its_key_as_it_is() {
        let build: Value = serde_json::from_str(DEMOS[0]).unwrap();
        let with = |pointer: &str, value: Value| {
            let mut other = build.clone();
            *other.pointer_mut(pointer).unwrap() = value;
            Half::BOTH.map(|half| half.key(&other) == half.key(&build))
        };
        assert_eq!(with("/parts/galley/mass_lb", 166.into()), [false, true]);
        assert_eq!(with("/parts/kettle/electrical/power_w", 1201.into()), [true, false]);
        assert_eq!(with("/battery/capacity_ah", 300.into()), [true, false]);
        assert_eq!(with("/cargo/atv/mass_lb", 691.into()), [false, true]);
        assert_eq!(with("/parts/galley/mass_lb", 165.into()), [true, true]);
    }
}
