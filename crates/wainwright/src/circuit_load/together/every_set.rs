//! Every set of up to 20 loads at once, one bit each.
//!
//! A set is a number whose highest bit is the first load, so that falling numbers of as many bits come in the
//! loads' order. The sets' bits stand in words of 64: the last six loads pick a bit within a word, the others the
//! word. With fewer than six loads, loads that weigh nothing make up the number: they are in no conflict, and in
//! every largest set.

use super::case::Case;
use super::share::{BOUND, Share};

/// Loads that pick a bit within a word.
const WITHIN: usize = 6;
/// Bits of a word whose sets have the load of bit 0, 1, … 5.
const HAS: [u64; WITHIN] = [
    0xAAAA_AAAA_AAAA_AAAA,
    0xCCCC_CCCC_CCCC_CCCC,
    0xF0F0_F0F0_F0F0_F0F0,
    0xFF00_FF00_FF00_FF00,
    0xFFFF_0000_FFFF_0000,
    0xFFFF_FFFF_0000_0000,
];

/// Which sets are feasible.
pub(super) struct EverySet {
    loads: usize,
    width: usize,
    feasible: Vec<u64>,
}

/// Sets of one kind.
pub(super) struct Sets {
    /// Those that were kept: by size, and of one size in the loads' order.
    pub by_size: Vec<Vec<u32>>,
    /// How many there are.
    pub count: usize,
    /// Loads that are in any.
    pub members: u32,
}

impl EverySet {
    pub fn of(case: &Case) -> Self {
        let loads = case.loads.len();
        let width = loads.max(WITHIN);
        let mut feasible = vec![!0; 1 << (width - WITHIN)];
        let mut words = Vec::with_capacity(feasible.len());
        let mut by_bit = vec![Share::NONE; width];
        for limit in 0..case.limits {
            for index in 0..loads {
                by_bit[width - 1 - index] = case.shares(index)[limit];
            }
            strike(&by_bit, &mut words, &mut feasible);
        }
        Self { loads, width, feasible }
    }

    /// Loads of a set by their index, ascending.
    pub fn indices(&self, set: u32) -> impl Iterator<Item = usize> {
        (0..self.loads).filter(move |index| set >> (self.width - 1 - index) & 1 == 1)
    }

    /// Sets that are too much while each becomes feasible when any one load is taken out.
    pub fn conflicts(&self, most_kept: usize) -> Sets {
        self.collect(most_kept, |word| {
            let too_much = !self.feasible[word];
            if too_much == 0 {
                return 0;
            }
            let mut with_a_part_too_much = 0;
            for (bit, has) in HAS.iter().enumerate() {
                with_a_part_too_much |= (too_much & !has) << (1 << bit);
            }
            for bit in bits(word as u64) {
                with_a_part_too_much |= !self.feasible[word ^ (1 << bit)];
            }
            too_much & !with_a_part_too_much
        })
    }

    /// Feasible sets to which nothing can be added.
    pub fn largest(&self, most_kept: usize) -> Sets {
        let full = self.feasible.len() - 1;
        self.collect(most_kept, |word| {
            let feasible = self.feasible[word];
            if feasible == 0 {
                return 0;
            }
            let mut with_room = 0;
            for (bit, has) in HAS.iter().enumerate() {
                with_room |= (feasible & has) >> (1 << bit);
            }
            for bit in bits((full ^ word) as u64) {
                with_room |= self.feasible[word | (1 << bit)];
            }
            feasible & !with_room
        })
    }

    fn collect(&self, most_kept: usize, word_of: impl Fn(usize) -> u64) -> Sets {
        let mut sets = Sets { by_size: vec![Vec::new(); self.width + 1], count: 0, members: 0 };
        for word in (0..self.feasible.len()).rev() {
            let found = word_of(word);
            sets.count += found.count_ones() as usize;
            for bit in bits(found) {
                let set = (word << WITHIN) as u32 | bit;
                sets.members |= set;
                let kept = &mut sets.by_size[set.count_ones() as usize];
                if kept.len() < most_kept {
                    kept.push(set);
                }
            }
        }
        sets
    }

    /// The feasible set that is worth most; of several that with the first load in which they differ.
    ///
    /// - `worth`: of each load by its index
    pub fn best(&self, worth: impl Fn(usize) -> i128) -> u32 {
        let of_bit =
            |bit: usize| if bit + self.loads >= self.width { worth(self.width - 1 - bit) } else { 0 };
        let within: [i128; WITHIN] = std::array::from_fn(of_bit);
        let most_within = within.iter().filter(|worth| **worth > 0).sum::<i128>();
        let within: [i128; 64] =
            std::array::from_fn(|set| bits(set as u64).map(|bit| within[bit as usize]).sum());
        let mut words = vec![0];
        for bit in WITHIN..self.width {
            let worth = of_bit(bit);
            words.extend_from_within(..);
            let half = words.len() / 2;
            words[half..].iter_mut().for_each(|sum| *sum += worth);
        }
        let (mut best, mut most) = (0, i128::MIN);
        for (word, of_word) in words.iter().enumerate().rev() {
            if of_word + most_within <= most {
                continue;
            }
            for bit in bits(self.feasible[word]) {
                let worth = of_word + within[bit as usize];
                if worth > most {
                    (best, most) = ((word << WITHIN) as u32 | bit, worth);
                }
            }
        }
        best
    }
}

/// Bits that are set, the highest first.
fn bits(mut word: u64) -> impl Iterator<Item = u32> {
    std::iter::from_fn(move || {
        let bit = 63_u32.checked_sub(word.leading_zeros())?;
        word ^= 1 << bit;
        Some(bit)
    })
}

/// Strikes out the sets that pass a limit.
///
/// - `by_bit`: what each load takes of it
/// - `words`: room to work in
fn strike(by_bit: &[Share], words: &mut Vec<Share>, feasible: &mut [u64]) {
    let (within, above) = by_bit.split_at(WITHIN);
    words.clear();
    words.push(Share::NONE);
    for share in above {
        for part in 0..words.len() {
            words.push(words[part].and(*share));
        }
    }
    let lightest = Lightest::of(within);
    for (feasible, taken) in feasible.iter_mut().zip(words).filter(|(feasible, _)| **feasible != 0) {
        let left = |extra: u64| lightest.that_fit(BOUND.checked_sub(taken.running + extra));
        let mut fit = left(taken.extra);
        for (has, share) in HAS.iter().zip(within) {
            if share.extra > taken.extra {
                fit &= !has | left(share.extra);
            }
        }
        *feasible &= fit;
    }
}

/// Sets of the loads that pick a bit within a word, by what they take while running.
struct Lightest {
    /// What they take, ascending.
    taken: [u64; 64],
    /// Bits of the lightest so many of them.
    sets: [u64; 65],
}

impl Lightest {
    fn of(within: &[Share]) -> Self {
        let take = |set: u64| bits(set).map(|bit| within[bit as usize].running).sum::<u64>();
        let mut order: [(u64, u64); 64] = std::array::from_fn(|set| (take(set as u64), set as u64));
        order.sort_unstable();
        let mut sets = [0; 65];
        for (count, (_, set)) in order.iter().enumerate() {
            sets[count + 1] = sets[count] | 1 << set;
        }
        Self { taken: order.map(|(taken, _)| taken), sets }
    }

    /// Bits of the sets that take no more than this.
    fn that_fit(&self, left: Option<u64>) -> u64 {
        left.map_or(0, |left| self.sets[self.taken.partition_point(|taken| *taken <= left)])
    }
}
