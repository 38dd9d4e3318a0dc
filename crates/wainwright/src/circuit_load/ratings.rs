//! What a source may give.

use super::defaults;
use super::wiring::{Supply, Switching, Wiring};
use crate::build::SourceKind;

/// What a source may give in a mode.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rating<'b> {
    /// The least rating on its path, which a short load may reach [A].
    pub rating_a: Option<f64>,
    /// What it may give for hours, leg by leg [A].
    pub limit_a: Option<f64>,
    /// What sets that limit.
    pub by: LimitedBy<'b>,
}

/// What sets the limit of a source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitedBy<'b> {
    /// Nothing does.
    Nothing,
    /// Its own rating.
    Rating,
    /// A rating on its path, by name.
    Path(&'b str),
    /// What the mode leaves it.
    Mode,
    /// The power it can give for hours.
    Power,
}

impl LimitedBy<'_> {
    /// Its word in a report.
    pub fn word(self) -> Option<String> {
        match self {
            Self::Nothing => None,
            Self::Rating => Some("rating".to_owned()),
            Self::Path(name) => Some(name.to_owned()),
            Self::Mode => Some("mode".to_owned()),
            Self::Power => Some("power".to_owned()),
        }
    }
}

/// Share of its rating that a source may give for hours: 0.8 for supplies behind a breaker, all of it for a battery
/// or an inverter, whose rating is a continuous one.
pub fn continuous_fraction(supply: &Supply) -> f64 {
    let default = match supply.source.kind {
        SourceKind::Shore | SourceKind::Generator => defaults::CONTINUOUS_FRACTION,
        SourceKind::Inverter | SourceKind::Battery => 1.0,
    };
    supply.source.continuous_fraction.unwrap_or(default)
}

/// What a source may give in a mode: the least of its rating, those on its path and what the mode leaves it, for hours
/// the continuous share of it, and no more than its power.
pub fn rating<'b>(wiring: &'b Wiring, mode: &Switching, index: usize) -> Rating<'b> {
    let supply = &wiring.sources[index];
    let source = supply.source;
    let mut least = (None, LimitedBy::Nothing);
    let mut lower = |rating_a: Option<f64>, by| {
        if let Some(rating_a) = rating_a
            && least.0.is_none_or(|least_a| rating_a < least_a)
        {
            least = (Some(rating_a), by);
        }
    };
    lower(source.rating_a, LimitedBy::Rating);
    if source.kind == SourceKind::Battery {
        lower(wiring.battery.and_then(|battery| battery.most_a), LimitedBy::Rating);
    }
    for (name, rating_a) in source.path_a.iter().flatten() {
        lower(Some(*rating_a), LimitedBy::Path(name));
    }
    lower(mode.limits_a[index], LimitedBy::Mode);
    let (rating_a, by) = least;
    let by_rating_a = rating_a.map(|rating_a| rating_a * continuous_fraction(supply));
    let legs = if supply.split { 2.0 } else { 1.0 };
    let by_power_a = source.continuous_w.map(|power_w| power_w / (source.voltage_v * legs));
    match (by_rating_a, by_power_a) {
        (None, Some(power_a)) => Rating { rating_a, limit_a: Some(power_a), by: LimitedBy::Power },
        (Some(limit_a), Some(power_a)) if power_a < limit_a => {
            Rating { rating_a, limit_a: Some(power_a), by: LimitedBy::Power }
        }
        (limit_a, _) => Rating { rating_a, limit_a, by },
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::fixture::wired;
    use super::*;

    #[track_caller]
    fn rated(source: Value, limits: Value, rating_a: Option<f64>, limit_a: Option<f64>, by: Option<&str>) {
        let modes = json!({"on": {"feeds": {}, "limits_a": limits}});
        let build = wired(json!({"it": source}), json!({"one": {}}), modes, json!({}));
        let wiring = Wiring::of(&build).unwrap();
        let rating = rating(&wiring, &wiring.modes[0], 0);
        assert_eq!((rating.rating_a, rating.limit_a), (rating_a, limit_a));
        assert_eq!(rating.by.word().as_deref(), by);
    }

    #[test]
    fn the_least_rating_on_the_path_counts_and_four_fifths_of_it_for_hours() {
        let path =
            json!({"kind": "shore", "voltage_v": 120, "rating_a": 30, "path_a": {"cord": 25, "inlet": 30}});
        rated(path.clone(), json!({}), Some(25.0), Some(20.0), Some("cord"));
        rated(path, json!({"it": 15}), Some(15.0), Some(12.0), Some("mode"));
        rated(json!({"kind": "shore", "voltage_v": 120}), json!({}), None, None, None);
        let listed = json!({"kind": "shore", "voltage_v": 120, "rating_a": 30, "continuous_fraction": 1});
        rated(listed, json!({}), Some(30.0), Some(30.0), Some("rating"));
    }

    #[test]
    fn no_source_gives_more_than_its_power() {
        let generator = json!({"kind": "generator", "voltage_v": 120, "rating_a": 20, "continuous_w": 1800});
        rated(generator.clone(), json!({}), Some(20.0), Some(15.0), Some("power"));
        let strong = json!({"kind": "generator", "voltage_v": 120, "rating_a": 20, "continuous_w": 2400});
        rated(strong, json!({}), Some(20.0), Some(16.0), Some("rating"));
        let two_legs = json!({"kind": "generator", "voltage_v": 120, "legs": 2, "continuous_w": 4800});
        rated(two_legs, json!({}), None, Some(20.0), Some("power"));
    }

    #[test]
    fn a_battery_gives_its_whole_rating() {
        rated(
            json!({"kind": "battery", "voltage_v": 12.8, "rating_a": 100}),
            json!({}),
            Some(100.0),
            Some(100.0),
            Some("rating"),
        );
    }
}
