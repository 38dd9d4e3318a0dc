//! The five figures that choices are compared by.

use super::request::Weights;

/// A battery that lasts longer without sun counts in a score as one that lasts so long [h]: two weeks. Common practice.
pub const LONGEST_AUTONOMY_H: f64 = 336.0;

/// Units of a figure as it is compared: what differs by less than half of one differs by rounding alone.
const PRICE_UNIT_USD: f64 = 1e-4;
const PAYLOAD_UNIT_LB: f64 = 1e-6;
const FRACTION_UNIT: f64 = 1e-9;
const AUTONOMY_UNIT_H: f64 = 1e-6;

/// No figure: below any there is.
const NONE: i64 = i64::MIN;
/// A battery that never runs out: above any hours.
const NEVER: i64 = i64::MAX;

/// The five figures as they are compared, each in its own small unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Figures {
    /// Price: less is better.
    pub price: i64,
    /// Payload left in the heaviest state.
    pub payload: i64,
    /// How far the tongue's share stays within its bounds.
    pub tongue: i64,
    /// How long the battery lasts without sun.
    pub autonomy: i64,
    /// How much more the air conditioner gives than the load.
    pub cooling: i64,
}

/// Without sun: how long the battery lasts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Autonomy {
    /// There is no energy budget.
    Unknown,
    /// So long [h].
    Hours(f64),
    /// It never runs out.
    Never,
}

impl Figures {
    /// The figures of a choice.
    ///
    /// - `price_usd`                price
    /// - `payload_left_lb`          payload left in the heaviest state; none without payload
    /// - `tongue_margin_fraction`   how far the tongue's share stays within its bounds; none without axle load
    /// - `autonomy`                 how long the battery lasts without sun
    /// - `cooling_margin_fraction`  how much more the air conditioner gives than the load; none without one
    pub fn of(
        price_usd: f64,
        payload_left_lb: Option<f64>,
        tongue_margin_fraction: Option<f64>,
        autonomy: Autonomy,
        cooling_margin_fraction: Option<f64>,
    ) -> Self {
        let whole = |value: f64, unit: f64| (value / unit).round() as i64;
        Self {
            price: whole(price_usd, PRICE_UNIT_USD),
            payload: payload_left_lb.map_or(NONE, |value| whole(value, PAYLOAD_UNIT_LB)),
            tongue: tongue_margin_fraction.map_or(NONE, |value| whole(value, FRACTION_UNIT)),
            autonomy: match autonomy {
                Autonomy::Unknown => NONE,
                Autonomy::Hours(hours) => whole(hours, AUTONOMY_UNIT_H),
                Autonomy::Never => NEVER,
            },
            cooling: cooling_margin_fraction.map_or(NONE, |value| whole(value, FRACTION_UNIT)),
        }
    }

    /// Points: the weighted sum of the figures, the price taken off.
    ///
    /// A figure that is not there counts 0: no payload, no tongue margin, no hours. The cooling margin of a box without air
    /// conditioner counts -1, as of one that gives nothing. Hours count up to [`LONGEST_AUTONOMY_H`].
    pub fn score(&self, weights: &Weights) -> f64 {
        let value = |figure: i64, unit: f64, otherwise: f64| {
            if figure == NONE { otherwise } else { figure as f64 * unit }
        };
        let autonomy_h = value(self.autonomy, AUTONOMY_UNIT_H, 0.0).min(LONGEST_AUTONOMY_H);
        let points = |weight: Option<f64>, value: f64| weight.unwrap_or(0.0) * value;
        points(weights.payload_left_lb, value(self.payload, PAYLOAD_UNIT_LB, 0.0))
            + points(weights.tongue_margin_fraction, value(self.tongue, FRACTION_UNIT, 0.0))
            + points(weights.autonomy_h, autonomy_h)
            + points(weights.cooling_margin_fraction, value(self.cooling, FRACTION_UNIT, -1.0))
            - points(weights.price_usd, self.price as f64 * PRICE_UNIT_USD)
    }

    /// Is it at least as good in every figure, and better in one? A figure that is not there is worse than any.
    pub fn dominates(&self, other: &Self) -> bool {
        self != other
            && self.price <= other.price
            && self.payload >= other.payload
            && self.tongue >= other.tongue
            && self.autonomy >= other.autonomy
            && self.cooling >= other.cooling
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::Record;

    fn figures(price_usd: f64, autonomy: Autonomy, cooling: Option<f64>) -> Figures {
        Figures::of(price_usd, Some(100.0), Some(0.01), autonomy, cooling)
    }

    #[test]
    fn a_lower_price_is_better_and_rounding_is_nothing() {
        let (dear, cheap) = (figures(2.0, Autonomy::Unknown, None), figures(1.0, Autonomy::Unknown, None));
        assert!(cheap.dominates(&dear) && !dear.dominates(&cheap) && !dear.dominates(&dear));
        assert_eq!(figures(0.1 + 0.2, Autonomy::Unknown, None), figures(0.3, Autonomy::Unknown, None));
    }

    #[test]
    fn a_battery_that_never_runs_out_is_better_than_any_hours_and_none_is_worse() {
        let of = |autonomy| figures(1.0, autonomy, None);
        let [none, hours, never] = [Autonomy::Unknown, Autonomy::Hours(5_000.0), Autonomy::Never].map(of);
        assert!(never.dominates(&hours) && hours.dominates(&none));
        let weights = Weights { autonomy_h: Some(2.0), ..Weights::blank() };
        assert_eq!([none, hours, never].map(|figures| figures.score(&weights)), [0.0, 672.0, 672.0]);
    }

    #[test]
    fn a_box_without_air_conditioner_counts_as_one_that_gives_nothing() {
        let weights = Weights { cooling_margin_fraction: Some(10.0), ..Weights::blank() };
        assert_eq!(figures(1.0, Autonomy::Unknown, None).score(&weights), -10.0);
        assert!((figures(1.0, Autonomy::Unknown, Some(0.25)).score(&weights) - 2.5).abs() < 1e-12);
        assert_eq!(figures(3.0, Autonomy::Unknown, None).score(&Weights::cheapest()), -3.0);
    }
}
