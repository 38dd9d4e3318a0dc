//! Supplies of a recreational vehicle: 15, 20, 30 and 50 A.

use std::sync::LazyLock;

use super::table::rows;

/// A supply assembly: the cord and plug that feed the vehicle.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// Rating [A], of each leg where there are two.
    pub supply_a: f64,
    /// Legs of 120 V: 1, or 2 with 240 V between them.
    pub legs: u32,
    /// Configuration of the plug.
    pub plug: &'static str,
    /// Fewest branch circuits it is for.
    pub least_circuits: u32,
    /// Most branch circuits it may feed without listed energy management; none where nothing limits them.
    pub most_circuits: Option<u32>,
    /// Continuous current of each leg [A]: 80 % of the rating.
    pub continuous_a: f64,
    /// Sections that say so.
    pub section: &'static str,
}

static SUPPLIES: LazyLock<Vec<Supply>> = LazyLock::new(|| {
    rows(include_str!("../../data/supply_551.csv"))
        .filter_map(|row| {
            let count = |column| row.text(column).parse().ok();
            Some(Supply {
                supply_a: row.number("supply_a")?,
                legs: count("legs")?,
                plug: row.text("plug"),
                least_circuits: count("circuits_min")?,
                most_circuits: count("circuits_max"),
                continuous_a: row.number("continuous_a")?,
                section: row.text("section"),
            })
        })
        .collect()
});

/// The supply of a rating.
///
/// - `rating_a`  rating of the supply assembly [A]
///
/// Returns it, or none where no supply assembly has the rating.
///
/// Source: NEC 551.42, 551.44, 551.46(C), `from memory` but for the plugs of 20, 30 and 50 A; the continuous current
/// from 210.20(A) and 215.3.
pub fn of_rating(rating_a: f64) -> Option<&'static Supply> {
    SUPPLIES.iter().find(|supply| supply.supply_a == rating_a)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_supplies_are_known() {
        let ratings = SUPPLIES.iter().map(|supply| supply.supply_a);
        assert_eq!(ratings.collect::<Vec<_>>(), [15.0, 20.0, 30.0, 50.0]);
        assert_eq!(of_rating(40.0), None);
    }

    #[test]
    fn eighty_percent_is_continuous() {
        assert!(SUPPLIES.iter().all(|supply| supply.continuous_a == 0.8 * supply.supply_a));
    }

    #[test]
    fn only_50_amperes_feed_more_than_five_circuits() {
        let thirty = of_rating(30.0).unwrap();
        assert_eq!((thirty.legs, thirty.most_circuits, thirty.plug), (1, Some(5), "TT-30P"));
        let fifty = of_rating(50.0).unwrap();
        assert_eq!((fifty.legs, fifty.least_circuits, fifty.most_circuits), (2, 6, None));
        assert_eq!(of_rating(15.0).unwrap().section, "551.42(A) 551.44(A)");
    }
}
