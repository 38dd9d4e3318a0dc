//! Rainflow counting: the example of ASTM E1049-85, and a series of states of charge.

use crate::rows::{close, rows};
use std::collections::BTreeMap;
use wainwright::energy_budget::cycles::rainflow;

#[test]
fn every_series_of_the_vectors() {
    let mut expected: BTreeMap<&str, Vec<(f64, f64)>> = BTreeMap::new();
    for cells in rows(include_str!("rainflow.csv")) {
        let [_, values, range, count] = cells[..] else { panic!("{cells:?}") };
        expected.entry(values).or_default().push((range.parse().unwrap(), count.parse().unwrap()));
    }
    assert_eq!(expected.len(), 2);
    for (values, expected) in expected {
        let mut series: Vec<f64> = values.split(' ').map(|value| value.parse().unwrap()).collect();
        let mut found = Vec::new();
        rainflow(&mut series, |cycle| found.push(cycle));
        // The vectors show each range once, smallest first; those that differ by rounding alone may show apart.
        for &(range, _) in &expected {
            let near = |other: f64| (other - range).abs() < 1e-9;
            let expected_count: f64 = expected.iter().filter(|row| near(row.0)).map(|row| row.1).sum();
            let found_count: f64 =
                found.iter().filter(|cycle| near(cycle.range)).map(|cycle| cycle.count).sum();
            close(&[values], found_count, expected_count, 0.0);
        }
        let expected_sum: f64 = expected.iter().map(|row| row.1).sum();
        close(&[values], found.iter().map(|cycle| cycle.count).sum(), expected_sum, 0.0);
    }
}
