//! The smallest flat array for a share of the load that may go unmet, the controller's limit lifted.
//!
//! Source of the table: as in `year.rs`, found by halving in tenths of a watt.

use wainwright::sky::sun::Direction;

use super::year::{Year, by_the_algorithm, rows};

const SIZING: &str = include_str!("sizing.csv");

/// Share of the load that goes unmet, and hours in which any does.
fn unmet(year: &Year, suns: &[Direction], rated_w: f64, rated_wh: f64) -> (f64, usize) {
    let given_w = year.given_w(suns, 0.0, 100.0);
    let steps = year.steps(&given_w, rated_w / 100.0, f64::INFINITY, rated_wh);
    let unmet_wh: f64 = steps.iter().map(|step| step.unmet_wh).sum();
    (unmet_wh / year.load_w.iter().sum::<f64>(), steps.iter().filter(|step| step.unmet_wh > 1e-9).count())
}

#[test]
fn every_smallest_array() {
    let year = Year::of_greensboro();
    let suns = by_the_algorithm();
    let table = rows(SIZING);
    assert_eq!(table.len(), 12);
    for row in &table {
        let (rated_wh, most, rated_w) = (row["cap_wh"], row["max_unmet_share"], row["min_pdc0_w"]);
        let (share, hours) = unmet(&year, &suns, rated_w, rated_wh);
        assert!((share - row["unmet_share_at_min"]).abs() < 2e-9, "{rated_wh} {most}: {share}");
        assert_eq!(hours as f64, row["lol_hours_at_min"], "{rated_wh} {most}");
        // A tenth of a watt less is too little.
        assert!(unmet(&year, &suns, rated_w - 0.1, rated_wh).0 > most + 1e-12, "{rated_wh} {most}");
    }
}
