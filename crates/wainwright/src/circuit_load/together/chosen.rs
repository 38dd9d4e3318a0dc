//! A set of loads while it is put together.

use super::case::Case;
use super::share::Share;

/// Loads that are on, and what they take of each limit.
pub(super) struct Chosen<'a> {
    case: &'a Case,
    /// Loads by their index, in the order in which they were added.
    pub members: Vec<usize>,
    /// What none, the first, the first two, … take of each limit.
    taken: Vec<Share>,
}

impl<'a> Chosen<'a> {
    pub fn none(case: &'a Case) -> Self {
        Self { case, members: Vec::new(), taken: vec![Share::NONE; case.limits] }
    }

    /// What the set takes of each limit.
    pub fn taken(&self) -> &[Share] {
        &self.taken[self.taken.len() - self.case.limits..]
    }

    /// Adds a load; says whether every limit still holds.
    pub fn add(&mut self, index: usize) -> bool {
        let before = self.taken.len() - self.case.limits;
        let mut fits = true;
        for (limit, share) in self.case.shares(index).iter().enumerate() {
            let taken = self.taken[before + limit].and(*share);
            fits &= taken.is_within();
            self.taken.push(taken);
        }
        self.members.push(index);
        fits
    }

    /// Takes out the load that was added last.
    pub fn take_out(&mut self) {
        self.members.pop();
        self.taken.truncate(self.taken.len() - self.case.limits);
    }
}
