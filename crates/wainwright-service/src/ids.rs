//! Request ids.

use std::hash::{BuildHasher, Hasher, RandomState};
use std::sync::atomic::{AtomicU64, Ordering};

use actix_web::http::header::HeaderValue;

/// Longest id that is taken from a caller.
const LONGEST: usize = 64;

/// Makes ids: a prefix drawn at start and a counter.
#[derive(Debug)]
pub struct Ids {
    prefix: u32,
    next: AtomicU64,
}

impl Ids {
    /// A new prefix.
    pub fn new() -> Self {
        // The standard library seeds this from the system's random source.
        let random = RandomState::new().build_hasher().finish();
        Self { prefix: (random >> 32) as u32, next: AtomicU64::new(0) }
    }

    /// The caller's id, if it is one, or the next of ours.
    pub fn of(&self, given: Option<&HeaderValue>) -> HeaderValue {
        match given {
            Some(given) if is_id(given.as_bytes()) => given.clone(),
            _ => self.make(),
        }
    }

    /// `pppppppp-nnnnnnnn`, hexadecimal. Distinct until the counter has gone round, after four billion.
    fn make(&self) -> HeaderValue {
        let count = self.next.fetch_add(1, Ordering::Relaxed) as u32;
        let mut text = [b'-'; 17];
        hexadecimal(self.prefix, &mut text[..8]);
        hexadecimal(count, &mut text[9..]);
        // Hexadecimal digits and a hyphen may stand in any field.
        HeaderValue::from_bytes(&text).unwrap_or(HeaderValue::from_static("0"))
    }
}

fn hexadecimal(mut number: u32, digits: &mut [u8]) {
    for digit in digits.iter_mut().rev() {
        *digit = b"0123456789abcdef"[(number & 15) as usize];
        number >>= 4;
    }
}

fn is_id(text: &[u8]) -> bool {
    (1..=LONGEST).contains(&text.len())
        && text.iter().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'_' | b'-'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_made_distinct() {
        let ids = Ids::new();
        let (a, b) = (ids.of(None), ids.of(None));
        assert_ne!(a, b);
        assert!(is_id(a.as_bytes()) && a.to_str().unwrap().ends_with("-00000000"), "{a:?}");
    }

    #[test]
    fn a_callers_id_is_taken_only_if_it_is_one() {
        let ids = Ids::new();
        let given = HeaderValue::from_static("shop-42_A");
        assert_eq!(ids.of(Some(&given)), given);
        for wrong in [String::new(), "a b".to_owned(), "é".to_owned(), "x".repeat(65)] {
            let wrong = HeaderValue::from_bytes(wrong.as_bytes()).unwrap();
            assert_ne!(ids.of(Some(&wrong)), wrong);
        }
    }
}
