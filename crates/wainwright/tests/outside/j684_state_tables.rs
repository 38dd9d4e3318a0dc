//! Source: Maryland COMAR 11.13.08.10, table, and New York 15 NYCRR 57.5, table 1, both adapted from SAE J684; class
//! limits from COMAR 11.13.08.04 and 15 NYCRR 57.3. All read.
//!
//! Tolerance: rounding of the pound's conversion, 1e-9 lb.

use wainwright::axle_load::hitch::{CouplerClass, coupler_class, coupling_strengths};
use wainwright::units::{kg, lb};

/// Class; longitudinal, transverse, vertical tension (Maryland, New York), vertical compression [lb].
/// Class 4 for a rating of 10,000 lb.
const ROWS: [(CouplerClass, [f64; 5]); 4] = [
    (CouplerClass::One, [6_000.0, 2_000.0, 2_500.0, 2_500.0, 2_500.0]),
    (CouplerClass::Two, [10_500.0, 3_000.0, 4_500.0, 3_900.0, 4_500.0]),
    (CouplerClass::Three, [15_000.0, 4_000.0, 7_000.0, 3_900.0, 7_000.0]),
    (CouplerClass::Four, [30_000.0, 10_000.0, 13_000.0, 4_000.0, 14_000.0]),
];

#[test]
fn strengths_are_the_tables() {
    for (class, expected) in ROWS {
        let s = coupling_strengths(class, kg(10_000.0));
        let found = [
            s.longitudinal_kg,
            s.transverse_kg,
            s.vertical_tension_maryland_kg,
            s.vertical_tension_new_york_kg,
            s.vertical_compression_kg,
        ];
        for (found, expected) in found.into_iter().zip(expected) {
            assert!((lb(found) - expected).abs() < 1e-9, "{class:?}: {expected} lb");
        }
        assert_eq!(s.vertical_tension_kg(), found[2].max(found[3]));
    }
}

#[test]
fn classes_end_where_the_tables_say() {
    for (limit_lb, class) in [
        (2_000.0, CouplerClass::One),
        (3_500.0, CouplerClass::Two),
        (5_000.0, CouplerClass::Three),
        (10_000.0, CouplerClass::Four),
    ] {
        assert_eq!(coupler_class(kg(limit_lb)), Some(class));
        assert_ne!(coupler_class(kg(limit_lb + 1.0)), Some(class));
    }
}
