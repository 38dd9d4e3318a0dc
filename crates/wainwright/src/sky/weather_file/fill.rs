//! What stands in place of missing figures.
//!
//! - Temperatures and wind: a straight line between the figures before and after, over [`GAP_MOST_H`] at most. At the
//!   ends of the file it is the nearest figure.
//! - An irradiance: from the two others, by `GHI = DNI cos θz + DHI`. Where global irradiance is known alone, beam and
//!   diffuse are split by its clearness. Where even that cannot be done and the sun is down, it is 0.
//! - Dew points that are all missing are none.
//!
//! The sun is taken where it is at the middle of a record.

use super::super::air_mass::extraterrestrial_w_m2;
use super::super::almanac;
use super::super::clock::Clock;
use super::super::decomposition::{BEAM_ZENITH_MOST_RAD, erbs};
use super::super::sun::Observer;
use super::super::weather::Place;
use super::column::Column;
use super::fault::FileFaults;
use super::rows::Series;

/// Over so long a gap a straight line will do [h]: weather does not turn twice in that time. `common practice`
pub const GAP_MOST_H: u32 = 6;

/// What was done about figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Filling {
    /// Missing, put on a straight line between the figures before and after.
    Interpolated,
    /// Missing, worked out from the two other irradiances.
    Closed,
    /// Missing, split off global irradiance by its clearness.
    Split,
    /// Missing with the sun down, and so 0.
    Dark,
    /// A little below 0, and so 0.
    BelowZero,
}

/// How many figures of a column are not those of the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Filled {
    /// The column.
    pub column: Column,
    /// What was done.
    pub how: Filling,
    /// To how many figures.
    pub count: usize,
}

/// Fills the gaps of a temperature or of wind. Returns how many figures were missing.
///
/// - `step_min`    length of a record [min]
/// - `first_line`  line of the first row
pub(super) fn interpolate(
    series: &mut Series,
    step_min: u32,
    first_line: usize,
    faults: &mut FileFaults,
) -> usize {
    let named = series.named;
    let figures = &mut series.figures;
    let longest = (GAP_MOST_H * 60 / step_min) as usize;
    let (mut filled, mut next) = (0, 0);
    while let Some(begin) = (next..figures.len()).find(|&i| figures[i].is_nan()) {
        let end = (begin..figures.len()).find(|&i| !figures[i].is_nan()).unwrap_or(figures.len());
        next = end;
        let count = end - begin;
        let before = begin.checked_sub(1).map(|i| figures[i]);
        let (before, after) = match (before, figures.get(end).copied()) {
            (Some(before), Some(after)) => (before, after),
            (Some(one), None) | (None, Some(one)) => (one, one),
            (None, None) => (0.0, 0.0),
        };
        if count > longest || count == figures.len() {
            faults.add(named.at(first_line + begin), || {
                format!(
                    "is missing here and in {} rows after it; gaps are filled up to {GAP_MOST_H} hours, so that figures must be given",
                    count - 1
                )
            });
            continue;
        }
        filled += count;
        for (i, figure) in figures[begin..end].iter_mut().enumerate() {
            *figure = before + (after - before) * (i + 1) as f64 / (count + 1) as f64;
        }
    }
    filled
}

/// The three irradiances of a file.
pub(super) struct Irradiances<'a> {
    pub(super) ghi: &'a mut Series,
    pub(super) dni: &'a mut Series,
    pub(super) dhi: &'a mut Series,
}

impl Irradiances<'_> {
    /// Fills their gaps. None where no sun is known of the years of the clock.
    pub(super) fn fill(
        &mut self,
        place: &Place,
        clock: &Clock,
        first_line: usize,
        faults: &mut FileFaults,
    ) -> Option<Vec<Filled>> {
        let has_gap = |series: &Series| series.figures.iter().any(|figure| figure.is_nan());
        if !(has_gap(self.ghi) || has_gap(self.dni) || has_gap(self.dhi)) {
            return Some(Vec::new());
        }
        let observer = Observer::new(place.latitude_rad, place.longitude_rad, place.altitude_m);
        let suns = almanac::suns(clock, place.utc_offset_h)?;
        let mut tally = Tally::default();
        // First row and length of the gap that cannot be filled.
        let mut gap = (0, 0);
        for day in clock.days() {
            let extraterrestrial_w_m2 = extraterrestrial_w_m2(day.day_of_year());
            for i in day.steps {
                let (ghi, dni, dhi) = (self.ghi.figures[i], self.dni.figures[i], self.dhi.figures[i]);
                if !(ghi.is_nan() || dni.is_nan() || dhi.is_nan()) {
                    continue;
                }
                let zenith_rad = suns.suns().get(i)?.seen_from(&observer).zenith_rad();
                let sky = Sky { zenith_rad, extraterrestrial_w_m2 };
                match sky.fill([ghi, dni, dhi]) {
                    Some((how, figures)) => {
                        tally.note(how, [ghi, dni, dhi]);
                        [self.ghi.figures[i], self.dni.figures[i], self.dhi.figures[i]] = figures;
                    }
                    None if gap.0 + gap.1 == i && gap.1 > 0 => gap.1 += 1,
                    None => {
                        self.refuse(gap, first_line, faults);
                        gap = (i, 1);
                    }
                }
            }
        }
        self.refuse(gap, first_line, faults);
        Some(tally.filled())
    }

    fn refuse(&self, (begin, count): (usize, usize), first_line: usize, faults: &mut FileFaults) {
        if count > 0 {
            faults.add(self.ghi.named.at(first_line + begin), || {
                format!(
                    "is missing by day in {count} rows from here on, and one of the two other irradiances is too; give it, or both of them"
                )
            });
        }
    }
}

/// The sky at the middle of a record.
struct Sky {
    zenith_rad: f64,
    extraterrestrial_w_m2: f64,
}

impl Sky {
    /// Global, beam and diffuse irradiance with none missing, and how. None where it cannot be said.
    fn fill(&self, [ghi, dni, dhi]: [f64; 3]) -> Option<(Filling, [f64; 3])> {
        let cos_zenith = self.zenith_rad.cos().max(0.0);
        match [ghi.is_nan(), dni.is_nan(), dhi.is_nan()] {
            [true, false, false] => Some((Filling::Closed, [dni * cos_zenith + dhi, dni, dhi])),
            [false, false, true] => Some((Filling::Closed, [ghi, dni, (ghi - dni * cos_zenith).max(0.0)])),
            [false, true, false] => {
                let beam = (ghi - dhi) / cos_zenith;
                let has_beam = self.zenith_rad <= BEAM_ZENITH_MOST_RAD;
                let dni = if has_beam { beam.clamp(0.0, self.extraterrestrial_w_m2) } else { 0.0 };
                Some((Filling::Closed, [ghi, dni, dhi]))
            }
            [false, true, true] => {
                let split = erbs(ghi, self.zenith_rad, self.extraterrestrial_w_m2);
                Some((Filling::Split, [ghi, split.dni_w_m2, split.dhi_w_m2]))
            }
            _ if cos_zenith > 0.0 => None,
            _ => Some((
                Filling::Dark,
                [ghi, dni, dhi].map(|figure| if figure.is_nan() { 0.0 } else { figure }),
            )),
        }
    }
}

/// How many irradiances were filled, by filling and column.
#[derive(Default)]
struct Tally([[usize; 3]; 3]);

impl Tally {
    const FILLINGS: [Filling; 3] = [Filling::Closed, Filling::Split, Filling::Dark];
    const COLUMNS: [Column; 3] = [Column::Ghi, Column::Dni, Column::Dhi];

    fn note(&mut self, how: Filling, figures: [f64; 3]) {
        for (counts, of) in self.0.iter_mut().zip(Self::FILLINGS) {
            if of == how {
                counts
                    .iter_mut()
                    .zip(figures)
                    .for_each(|(count, figure)| *count += usize::from(figure.is_nan()));
            }
        }
    }

    fn filled(&self) -> Vec<Filled> {
        let mut filled = Vec::new();
        for (counts, how) in self.0.iter().zip(Self::FILLINGS) {
            let columns = counts.iter().zip(Self::COLUMNS);
            filled.extend(columns.map(|(&count, column)| Filled { column, how, count }));
        }
        filled
    }
}
