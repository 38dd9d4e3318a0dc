//! How hazy the air of a place is, month by month.

use std::sync::LazyLock;

use jiff::civil::Date;

use super::coefficients::last_columns;
use super::months::BetweenMonths;

/// Rows of cells from north to south.
const ROWS: usize = 26;
/// Cells of a row from west to east.
const COLUMNS: usize = 59;
/// Latitude of the centers of the northernmost cells [°].
const NORTHERNMOST_DEG: f64 = 49.5;
/// Longitude of the centers of the westernmost cells [°].
const WESTERNMOST_DEG: f64 = -124.5;
/// The table holds 20 times the turbidity.
const PER_TURBIDITY: f64 = 20.0;

/// Months of each cell, row by row.
static CELLS: LazyLock<Box<[[f64; 12]; ROWS * COLUMNS]>> =
    LazyLock::new(|| Box::new(last_columns(include_str!("../../data/linke_turbidity_us.csv"))));

/// Linke turbidity over the land of the contiguous United States, by month: the last resort where a place is not in the
/// table. Source: the mean of the table's source over cells above sea level between 24° and 50° N, 125° and 66° W.
pub const UNITED_STATES: [f64; 12] = [2.67, 2.80, 3.02, 3.37, 3.67, 3.81, 3.95, 3.87, 3.51, 3.11, 2.84, 2.64];

/// Where turbidity was taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// The table, at the place.
    Table,
    /// [`UNITED_STATES`]: the place is not in the table.
    UnitedStates,
}

/// Linke turbidity of a place: how many clean, dry atmospheres would dim the beam as much.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turbidity {
    /// In the middle of each month.
    pub months: [f64; 12],
    /// Where it was taken from.
    pub source: Source,
}

impl Turbidity {
    /// Turbidity of a place.
    ///
    /// Between the centers of the four cells around it the table is read by straight lines, so that it has no steps: a
    /// cell is a mean over 100 km, and its edge is no edge of the air. Within half a cell of the table's rim the
    /// outermost centers count.
    ///
    /// - `latitude_rad`   latitude [rad], positive north
    /// - `longitude_rad`  longitude [rad], positive east
    ///
    /// [`UNITED_STATES`] outside 24° to 50° N, 125° to 66° W, and where an argument is not a number.
    ///
    /// Source: SoDa, Remund and others 2003, Worldwide Linke turbidity information, Proceedings of the ISES Solar World
    /// Congress, averaged to cells of 1°.
    pub fn of(latitude_rad: f64, longitude_rad: f64) -> Self {
        let south = NORTHERNMOST_DEG - latitude_rad.to_degrees();
        let east = longitude_rad.to_degrees() - WESTERNMOST_DEG;
        let inside = |from_center: f64, cells: usize| (-0.5..=cells as f64 - 0.5).contains(&from_center);
        if !inside(south, ROWS) || !inside(east, COLUMNS) {
            return Self { months: UNITED_STATES, source: Source::UnitedStates };
        }
        let (row, south) = cell_and_share(south, ROWS);
        let (column, east) = cell_and_share(east, COLUMNS);
        let months = std::array::from_fn(|month| {
            let cell = |row: usize, column: usize| CELLS[row * COLUMNS + column][month] / PER_TURBIDITY;
            let [north_side, south_side] = [row, row + 1]
                .map(|row| cell(row, column) + (cell(row, column + 1) - cell(row, column)) * east);
            north_side + (south_side - north_side) * south
        });
        Self { months, source: Source::Table }
    }

    /// Turbidity at noon of a day, on the straight line between the middles of two months.
    pub fn on(&self, date: Date) -> f64 {
        BetweenMonths::of(date, 0.5).of_figures(&self.months)
    }
}

/// The cell before a place on an axis, and the share of the way from its center to the next one's, 0 to 1.
fn cell_and_share(from_center: f64, cells: usize) -> (usize, f64) {
    let held = from_center.clamp(0.0, (cells - 1) as f64);
    let cell = (held as usize).min(cells - 2);
    (cell, held - cell as f64)
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use proptest::prelude::*;

    use super::*;

    fn at(latitude_deg: f64, longitude_deg: f64) -> Turbidity {
        Turbidity::of(latitude_deg.to_radians(), longitude_deg.to_radians())
    }

    #[test]
    fn every_cell_has_its_months() {
        assert!(CELLS.iter().flatten().all(|figure| (33.0..=116.0).contains(figure)));
    }

    #[test]
    fn at_the_center_of_a_cell_stands_its_own_figure() {
        // Rows of the table: 49.5 N 124.5 W, and 49.5 N 106.5 W.
        for (longitude_deg, twenty_times) in [
            (-124.5, [49, 52, 56, 62, 65, 63, 64, 69, 62, 57, 54, 51]),
            (-106.5, [50, 50, 53, 58, 62, 51, 56, 56, 49, 47, 50, 46]),
        ] {
            let turbidity = at(49.5, longitude_deg);
            assert_eq!(turbidity.source, Source::Table);
            for (month, figure) in turbidity.months.iter().zip(twenty_times) {
                assert!((month * 20.0 - f64::from(figure)).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn outside_the_table_the_countrys_means_stand_in() {
        for (latitude_deg, longitude_deg) in
            [(55.3, -160.5), (23.9, -100.0), (50.1, -100.0), (40.0, -65.9), (40.0, 10.0), (f64::NAN, 0.0)]
        {
            assert_eq!(at(latitude_deg, longitude_deg).source, Source::UnitedStates);
        }
        for (latitude_deg, longitude_deg) in [(49.99, -124.99), (24.01, -66.01)] {
            assert_eq!(at(latitude_deg, longitude_deg).source, Source::Table);
        }
    }

    #[test]
    fn the_middle_of_a_month_has_the_months_figure() {
        let turbidity = at(35.0, -100.0);
        assert!((turbidity.on(date(2025, 7, 16)) - turbidity.months[6]).abs() < 1e-12);
        let new_year = (turbidity.on(date(2025, 12, 31)) - turbidity.on(date(2026, 1, 1))).abs();
        assert!(new_year < (turbidity.months[11] - turbidity.months[0]).abs() / 30.0 + 1e-12);
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn no_place_leaves_the_four_cells_around_it(
            latitude_deg in 24.5..49.5_f64,
            longitude_deg in -124.5..-66.5_f64,
        ) {
            let turbidity = at(latitude_deg, longitude_deg);
            let row = ((NORTHERNMOST_DEG - latitude_deg) as usize).min(ROWS - 2);
            let column = ((longitude_deg - WESTERNMOST_DEG) as usize).min(COLUMNS - 2);
            for (month, figure) in turbidity.months.iter().enumerate() {
                let around = [0, 1, COLUMNS, COLUMNS + 1].map(|next| CELLS[row * COLUMNS + column + next][month]);
                let least = around.iter().copied().fold(f64::INFINITY, f64::min) / PER_TURBIDITY;
                let most = around.iter().copied().fold(0.0, f64::max) / PER_TURBIDITY;
                prop_assert!((least - 1e-9..=most + 1e-9).contains(figure));
            }
        }
    }
}
