//! A trailer of our own for the tests (invented), and the comparison with printed figures.

use crate::masses::{PointMass, Totals};
use crate::units::{kg, m};

/// Sprung and unsprung items of the trailer: mass [lb], x, y, z [in].
/// The second and third are the unsprung masses of its two axles.
pub const ITEMS_LB_IN: [[f64; 4]; 9] = [
    [1950.0, 176.0, 0.0, 44.0],
    [330.0, 173.0, 0.0, 13.5],
    [330.0, 207.0, 0.0, 13.5],
    [820.0, 172.0, 0.0, 46.0],
    [310.0, 120.0, -30.0, 48.0],
    [260.0, 150.0, 28.0, 46.0],
    [105.0, 92.0, -20.0, 26.0],
    [55.0, 70.0, 0.0, 75.0],
    [76.0, 18.0, 0.0, 32.0],
];

/// Axle stations [in].
pub const AXLE_X_IN: [f64; 2] = [173.0, 207.0];
/// Midpoint of the axles [in].
pub const GROUP_X_IN: f64 = 190.0;
/// Ball height [in].
pub const BALL_HEIGHT_IN: f64 = 19.0;
/// Track [in].
pub const TRACK_IN: f64 = 81.5;
/// Hub height [in].
pub const HUB_HEIGHT_IN: f64 = 13.5;

/// The items in SI.
pub fn items() -> [PointMass; 9] {
    ITEMS_LB_IN.map(|[mass, x, y, z]| PointMass { mass_kg: kg(mass), x_m: m(x), y_m: m(y), z_m: m(z) })
}

/// The sums over the items.
pub fn totals() -> Totals {
    items().into_iter().map(Totals::from).sum()
}

/// Asserts that `value` rounds to the printed figure: within half a unit of its last digit.
/// Commas in the figure group its digits.
#[track_caller]
pub fn assert_printed(value: f64, printed: &str) {
    let digits = printed.replace(',', "");
    let expected: f64 = digits.parse().unwrap();
    let decimals = digits.split_once('.').map_or(0, |(_, after)| after.len());
    // The last factor lets an exact tie, such as 0.5 of a digit, fall either way.
    let half_a_digit = 0.5 * 10f64.powi(-(decimals as i32)) * (1.0 + 1e-9);
    assert!((value - expected).abs() <= half_a_digit, "{value} is not {printed}");
}

#[test]
fn totals_of_the_trailer_are_as_printed() {
    let t = totals();
    assert_printed(crate::units::lb(t.mass_kg), "4236");
    assert_printed(crate::units::inches(t.center_x_m()), "165.41974");
    assert_printed(crate::units::inches(t.center_y_m()), "-0.9726157");
    assert_printed(crate::units::inches(t.center_z_m()), "39.791549");
}
