//! One number for all choices that are alike in what matters to a question.

use super::space::{Space, Touch};

/// Numbers choices by those of their options that matter; all others count as none.
#[derive(Debug)]
pub struct Keys {
    /// What each option adds to the number.
    pub adds: Vec<u64>,
    /// How many numbers there are.
    pub count: u64,
}

impl Keys {
    /// The numbers of a space's choices by the options that matter.
    pub fn of(space: &Space, matters: impl Fn(&Touch) -> bool) -> Self {
        let mut keys = Self { adds: vec![0; space.options.len()], count: 1 };
        for dimension in &space.dimensions {
            let stride = keys.count;
            let mut ways: u64 = 1;
            for option in dimension.iter().filter(|option| matters(&space.options[**option])) {
                keys.adds[*option] = stride.saturating_mul(ways);
                ways += 1;
            }
            keys.count = keys.count.saturating_mul(ways);
        }
        keys
    }

    /// The number of a choice.
    pub fn key(&self, chosen: &[usize]) -> u64 {
        chosen.iter().map(|option| self.adds[*option]).sum()
    }
}
