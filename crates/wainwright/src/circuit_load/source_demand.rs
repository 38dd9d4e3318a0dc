//! The demand on each source of a mode over the day.

use super::demand::{self, Demand};
use super::drawn::Flow;
use super::ratings::Rating;
use super::through::{Through, through};
use super::wiring::{Index, Load, Switching, Wiring, is_on};
use crate::build::Leg;

/// Hours of the day.
pub const HOURS: usize = 24;

/// The chance of passing a rating is worked out up to this product of loads and rating [A]; a supply of 100 A with 200
/// loads is within it.
const MOST_RISK_WORK_A: f64 = 20_000.0;

/// The demand on a source over the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SourceDemand {
    /// Hour by hour.
    pub hours: [HourNumbers; HOURS],
    /// Does a load say in which hours it runs?
    pub by_hour: bool,
}

/// The demand on a source in one hour, of two legs the greatest figure of either.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HourNumbers {
    /// Mean of the current [A].
    pub expected_a: f64,
    /// Everything that may be on [A].
    pub peak_a: f64,
    /// Chance of passing the rating.
    pub risk: Option<f64>,
}

impl HourNumbers {
    /// Of two legs the greater of each figure.
    fn worse(self, other: Self) -> Self {
        Self {
            expected_a: self.expected_a.max(other.expected_a),
            peak_a: self.peak_a.max(other.peak_a),
            risk: self.risk.into_iter().chain(other.risk).reduce(f64::max),
        }
    }
}

/// The demand on a source in a mode; none where it feeds nothing. `cells` is room to work in, and can be passed again.
pub fn source_demand(
    wiring: &Wiring,
    mode: &Switching,
    flow: &Flow,
    ratings: &[Rating],
    source: Index,
    cells: &mut Vec<f64>,
) -> Option<SourceDemand> {
    flow.sources[source]?;
    let split = wiring.sources[source].split;
    let legs: &[Leg] = if split { &[Leg::A, Leg::B] } else { &[Leg::A] };
    let loads: Vec<Vec<(Index, f64)>> =
        legs.iter().map(|&leg| taken(wiring, mode, flow, source, split, leg)).collect();
    let all = || loads.iter().flatten().map(|(load, _)| &wiring.loads[*load]);
    let by_hour = all().any(|load| load.hours.is_some() || load.draw.on_fraction.is_some());
    let hours_are_known = all().all(Load::says_hours);
    let few = |rating_a: &f64| rating_a * all().count() as f64 <= MOST_RISK_WORK_A;
    let rating_a = ratings[source].rating_a.filter(|_| hours_are_known).filter(few);
    let on_one_leg = |loads: &[(Index, f64)], hour: usize, cells: &mut Vec<f64>| {
        let demands: Vec<Demand> = loads
            .iter()
            .map(|&(index, current_a)| {
                let load = &wiring.loads[index];
                let of_stated = load.share_of_stated(hour, flow.loads[index].power_w);
                Demand { current_a: current_a * of_stated, on: load.on(hour) }
            })
            .collect();
        HourNumbers {
            expected_a: demand::expected_a(&demands),
            peak_a: demand::certain_peak_a(&demands),
            risk: rating_a.map(|rating_a| demand::risk(&demands, rating_a, cells)),
        }
    };
    let hour = |hour: usize, cells: &mut Vec<f64>| {
        let of_legs = loads.iter().map(|loads| on_one_leg(loads, hour, cells));
        of_legs.reduce(HourNumbers::worse).unwrap_or_default()
    };
    let hours = if by_hour { std::array::from_fn(|h| hour(h, cells)) } else { [hour(0, cells); HOURS] };
    Some(SourceDemand { hours, by_hour })
}

/// What each load takes from one leg of a source, directly or through the inverters between [A].
fn taken(
    wiring: &Wiring,
    mode: &Switching,
    flow: &Flow,
    source: Index,
    split: bool,
    leg: Leg,
) -> Vec<(Index, f64)> {
    let ways: Vec<Option<Through>> =
        (0..wiring.sources.len()).map(|below| through(wiring, mode, below, source)).collect();
    let of_load = |load: Index| {
        let circuit = wiring.loads[load].circuit;
        let own = mode.feeds[circuit].filter(|_| flow.powered[load])?;
        let drawn = &flow.loads[load];
        let (entered, current_a) = match ways[own] {
            _ if own == source => (Some(circuit), drawn.current_a),
            Some(way) => (wiring.sources[way.entry].circuit, way.current_a(drawn)),
            None => return None,
        };
        let of_circuit = entered.and_then(|circuit| wiring.leg(circuit)).filter(|_| split);
        is_on(of_circuit, leg).then_some((load, current_a))
    };
    (0..wiring.loads.len()).filter_map(of_load).collect()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::fixture::{sources, wired};
    use super::super::numbers::numbers;
    use super::*;

    #[test]
    fn the_demand_on_two_legs_is_that_of_the_worse_leg() {
        let sources = json!({"shore": {"kind": "shore", "voltage_v": 120, "rating_a": 50, "legs": 2}});
        let circuits = json!({"left": {"leg": "a"}, "right": {"leg": "b"}, "across": {"leg": "both"}});
        let modes = json!({"on": {"feeds": {"left": "shore", "right": "shore", "across": "shore"}}});
        let loads = json!({
            "one": {"circuit": "left", "current_a": 31.5, "hours_per_day": 12},
            "other": {"circuit": "right", "current_a": 18, "hours_per_day": 24},
            "dryer": {"circuit": "across", "current_a": 10, "kind": "resistive", "hours_per_day": 24},
        });
        let build = wired(sources, circuits, modes, loads);
        let wiring = Wiring::of(&build).unwrap();
        let hour = numbers(&build, &wiring).modes[0].demands[0].unwrap().hours[0];
        // Leg b: 18 and 10 A always; leg a: 10 A always, 31.5 A half of the time.
        assert_eq!((hour.expected_a, hour.peak_a, hour.risk), (28.0, 41.5, Some(0.0)));
    }

    #[test]
    fn a_load_that_says_its_hours_counts_in_those_alone() {
        let mut evening = vec![0.0; 24];
        evening[19] = 1.0;
        let loads = json!({
            "kettle": {"circuit": "outlets", "current_a": 20, "on_fraction": evening},
            "heater": {"circuit": "outlets", "current_a": 20, "hours_per_day": 6},
        });
        let circuits = json!({"outlets": {}, "cable": {}});
        let build = wired(sources(), circuits, json!({"on": {"feeds": {"outlets": "shore"}}}), loads);
        let wiring = Wiring::of(&build).unwrap();
        let demand = numbers(&build, &wiring).modes[0].demands[0].unwrap();
        assert!(demand.by_hour);
        assert_eq!((demand.hours[3].expected_a, demand.hours[3].risk), (5.0, Some(0.0)));
        assert_eq!((demand.hours[19].expected_a, demand.hours[19].peak_a), (25.0, 40.0));
        assert_eq!(demand.hours[19].risk, Some(0.25));
    }
}
