//! The six ways that a surface of the box can face.

use crate::document::Options;

/// Which way a surface of the box faces, its tongue being in front.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Facing {
    /// Up.
    Roof,
    /// Down, over open air.
    Floor,
    /// To the tongue.
    Front,
    /// To the road behind.
    Rear,
    /// To the left, looking to the tongue.
    Left,
    /// To the right, looking to the tongue.
    Right,
}

impl Facing {
    /// All of them, in the order of their numbers.
    pub const ALL: [Self; 6] = [Self::Roof, Self::Floor, Self::Front, Self::Rear, Self::Left, Self::Right];

    /// Its word in a build.
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize].0
    }
}

impl Options for Facing {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("roof", Self::Roof),
        ("floor", Self::Floor),
        ("front", Self::Front),
        ("rear", Self::Rear),
        ("left", Self::Left),
        ("right", Self::Right),
    ];
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_has_its_word() {
        for (index, facing) in Facing::ALL.into_iter().enumerate() {
            assert_eq!((facing as usize, Facing::WORDS[index].1), (index, facing));
        }
        assert_eq!(Facing::Rear.word(), "rear");
    }
}
