//! Faults in the order of the document.
//!
//! Most faults are met in that order. Members that are held against one another are so only after the reading:
//! their places are looked up in the text again, which costs nothing where there is no fault.

use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};

use super::Fault;

/// Rank of each fault by its place in the text; a missing member stands at the end of its object.
pub(super) fn ranks(json: &[u8], faults: &[Fault]) -> Vec<usize> {
    let mut ranks = Ranks { of: vec![usize::MAX; faults.len()], next: 0 };
    let sought = faults.iter().map(|fault| fault.pointer.as_str()).enumerate().collect();
    // The text was read before. Were it not JSON, the rest would stay in the order in which it was met.
    _ = Walk { sought, ranks: &mut ranks }.deserialize(&mut serde_json::Deserializer::from_slice(json));
    ranks.of
}

struct Ranks {
    of: Vec<usize>,
    next: usize,
}

impl Ranks {
    /// Gives the next rank to those of these faults that have none.
    fn give<'s>(&mut self, faults: impl Iterator<Item = &'s Sought<'s>>) {
        for (fault, _) in faults {
            self.of[*fault] = self.of[*fault].min(self.next);
        }
        self.next += 1;
    }
}

/// A fault by its index, and what is left of its pointer.
type Sought<'a> = (usize, &'a str);

/// One value of the document, and the faults sought in it.
struct Walk<'a> {
    sought: Vec<Sought<'a>>,
    ranks: &'a mut Ranks,
}

impl<'de> DeserializeSeed<'de> for Walk<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, input: D) -> Result<(), D::Error> {
        let Self { sought, ranks } = self;
        ranks.give(sought.iter().filter(|(_, rest)| rest.is_empty()));
        if sought.iter().all(|(_, rest)| rest.is_empty()) {
            input.deserialize_ignored_any(IgnoredAny)?;
        } else {
            input.deserialize_any(Members { sought: &sought, ranks: &mut *ranks })?;
        }
        ranks.give(sought.iter());
        Ok(())
    }
}

/// What stands in one value.
struct Members<'a> {
    sought: &'a [Sought<'a>],
    ranks: &'a mut Ranks,
}

impl Members<'_> {
    /// The member or item at a token.
    fn at(&mut self, token: &str) -> Walk<'_> {
        let sought = self.sought.iter().filter_map(|&(fault, rest)| {
            let rest = rest.strip_prefix('/')?;
            let end = rest.find('/').unwrap_or(rest.len());
            (unescaped(&rest[..end]) == token).then_some((fault, &rest[end..]))
        });
        Walk { sought: sought.collect(), ranks: self.ranks }
    }
}

/// A reference token as RFC 6901 section 4 reads it.
fn unescaped(token: &str) -> String {
    token.replace("~1", "/").replace("~0", "~")
}

impl<'de> Visitor<'de> for Members<'_> {
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

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut items: A) -> Result<(), A::Error> {
        let mut index = 0;
        while items.next_element_seed(self.at(&index.to_string()))?.is_some() {
            index += 1;
        }
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut members: A) -> Result<(), A::Error> {
        while let Some(key) = members.next_key::<String>()? {
            members.next_value_seed(self.at(&key))?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::chest;
    use super::super::{FaultCode, Faults, Place};

    fn ordered(json: &str, pointers: &[&[&str]]) -> Vec<String> {
        let mut faults = Faults::default();
        for keys in pointers {
            note(&mut faults, &Place::ROOT, keys);
        }
        let faults = faults.in_document_order(json.as_bytes());
        faults.list().iter().map(|fault| fault.pointer.clone()).collect()
    }

    fn note(faults: &mut Faults, at: &Place, keys: &[&str]) {
        match keys {
            [] => _ = faults.add(at, FaultCode::WrongType, String::new()),
            [key, rest @ ..] => note(faults, &at.key(key), rest),
        }
    }

    #[test]
    fn faults_stand_as_their_places_do_and_missing_members_at_the_end_of_their_object() {
        let json = r#"{"b": {"y": 1, "x/~": [0, {"q": 1}]}, "a": 2}"#;
        let met: [&[&str]; 7] =
            [&["a"], &["c"], &["b", "z"], &["b", "x/~", "1", "q"], &["b", "x/~", "0"], &["b"], &["b", "y"]];
        assert_eq!(ordered(json, &met), ["/b", "/b/y", "/b/x~1~0/0", "/b/x~1~0/1/q", "/b/z", "/a", "/c"]);
    }

    #[test]
    fn faults_at_one_place_stay_as_they_were_met() {
        let (_, faults) = chest(r#"{"length_in": "a", "length_in": 1}"#).unwrap();
        let ordered = faults.clone().in_document_order(br#"{"length_in": "a", "length_in": 1}"#);
        assert_eq!(ordered, faults);
    }

    #[test]
    fn a_place_below_a_scalar_or_after_broken_text_does_not_matter() {
        assert_eq!(ordered(r#"{"a": 1, "b": 2}"#, &[&["b"], &["a", "x"]]), ["/a/x", "/b"]);
        assert_eq!(ordered(r#"{"a": 1, ]"#, &[&["b"], &["a"]]), ["/a", "/b"]);
    }
}
