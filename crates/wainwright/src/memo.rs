//! The last few things that were worked out, so that the next question about the same finds them.
//!
//! What is found again is the same to the bit as what would be worked out: an answer never depends on what was asked before.
//! A battery does not move the sun, and a dealer's page asks about one place all day.

/// The last few values, each with what it was worked out from.
#[derive(Debug)]
pub struct Recent<K, V> {
    most: usize,
    entries: Vec<(K, V)>,
}

impl<K, V: Clone> Recent<K, V> {
    /// None yet, and at most so many; the one that was not asked for the longest is forgotten first.
    pub const fn new(most: usize) -> Self {
        Self { most, entries: Vec::new() }
    }

    /// The value of the first key that is the one looked for.
    pub fn find(&mut self, is_it: impl FnMut(&K) -> bool) -> Option<V> {
        let mut is_it = is_it;
        let index = self.entries.iter().position(|(key, _)| is_it(key))?;
        self.entries[..=index].rotate_right(1);
        Some(self.entries[0].1.clone())
    }

    /// Keeps a value.
    pub fn keep(&mut self, key: K, value: V) {
        self.entries.truncate(self.most.saturating_sub(1));
        self.entries.insert(0, (key, value));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_one_not_asked_for_the_longest_is_forgotten() {
        let mut recent = Recent::new(2);
        assert_eq!(recent.find(|key: &u32| *key == 1), None::<&str>);
        recent.keep(1, "one");
        recent.keep(2, "two");
        assert_eq!(recent.find(|key| *key == 1), Some("one"));
        recent.keep(3, "three");
        assert_eq!(recent.find(|key| *key == 2), None);
        assert_eq!(
            (recent.find(|key| *key == 1), recent.find(|key| *key == 3)),
            (Some("one"), Some("three"))
        );
    }
}
