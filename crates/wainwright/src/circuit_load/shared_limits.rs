//! The limits that loads share in a mode, as the search for what may run together takes them.

use super::current::CONTINUOUS_FACTOR;
use super::defaults;
use super::drawn::{Flow, inrush_multiple};
use super::energized::{chain, efficiency_from};
use super::ratings::Rating;
use super::together::Limit;
use super::wiring::{Index, Switching, Wiring, is_on};
use crate::build::{Leg, SourceKind};
use crate::report::exceeds;

/// One limit: what each load weighs on it while it runs, what it weighs beyond that at its worst moment, and the most
/// that all may come to.
#[derive(Debug)]
pub struct SharedLimit {
    running: Vec<f64>,
    extra: Option<Vec<f64>>,
    bound: f64,
}

impl SharedLimit {
    /// The limit as the search takes it.
    pub fn limit(&self) -> Limit<'_> {
        match &self.extra {
            None => Limit::Sum { weights: &self.running, bound: self.bound },
            Some(extra) => Limit::Start { running: &self.running, extra, bound: self.bound },
        }
    }

    /// Can it be passed at all?
    fn binds(&self) -> bool {
        let worst = self.extra.iter().flatten().copied().fold(0.0, f64::max);
        exceeds(self.running.iter().sum::<f64>() + worst, self.bound)
    }
}

/// Every limit of a mode that everything together would pass.
pub fn shared_limits(
    wiring: &Wiring,
    mode: &Switching,
    flow: &Flow,
    ratings: &[Rating],
    ampacities_a: &[Option<f64>],
) -> Vec<SharedLimit> {
    let mut limits = Vec::new();
    let loads = || 0..wiring.loads.len();
    let source_of = |load: Index| mode.feeds[wiring.loads[load].circuit].filter(|_| flow.powered[load]);
    let mut keep = |limit: SharedLimit| {
        if limit.binds() {
            limits.push(limit);
        }
    };
    for (source, supply) in wiring.sources.iter().enumerate() {
        let Some(gives) = &flow.sources[source] else { continue };
        let sides: &[Leg] = if supply.split { &[Leg::A, Leg::B] } else { &[Leg::A] };
        if let Some(limit_a) = ratings[source].limit_a {
            for &side in sides {
                let own = |load: Index| {
                    let leg = wiring.leg(wiring.loads[load].circuit).filter(|_| supply.split);
                    source_of(load) == Some(source) && is_on(leg, side)
                };
                let mut bound = limit_a;
                let mut running: Vec<f64> =
                    loads().map(|load| if own(load) { flow.loads[load].current_a } else { 0.0 }).collect();
                if supply.source.kind == SourceKind::Battery {
                    add_inverters(wiring, mode, flow, source, &mut running, &mut bound);
                }
                keep(SharedLimit { running, extra: None, bound });
            }
        }
        if let Some(surge_w) = supply.source.surge_w
            && exceeds(gives.start_va, surge_w)
        {
            let va = |load: Index| {
                if source_of(load) != Some(source) {
                    return 0.0;
                }
                let circuit = wiring.loads[load].circuit;
                let volts = flow.circuits[circuit].map_or(0.0, |circuit| circuit.voltage_v);
                flow.loads[load].current_a * volts
            };
            let extra = |load: Index| va(load) * (inrush_multiple(&wiring.loads[load], supply.is_ac()) - 1.0);
            keep(SharedLimit {
                running: loads().map(va).collect(),
                extra: Some(loads().map(extra).collect()),
                bound: surge_w,
            });
        }
    }
    for (index, line) in wiring.circuits.iter().enumerate() {
        let Some(carried) = &flow.circuits[index] else { continue };
        if line.feeds.is_some() {
            continue;
        }
        let on_it = |load: Index| {
            let circuit = wiring.loads[load].circuit;
            flow.powered[load] && (circuit == index || wiring.circuits[circuit].feeder == Some(index))
        };
        let of = |load: Index, share: &dyn Fn(Index) -> f64| if on_it(load) { share(load) } else { 0.0 };
        if let Some(breaker_a) = line.circuit.breaker_a
            && exceeds(carried.drawn.required_a(), breaker_a)
        {
            let running = |load: Index| {
                let drawn = &flow.loads[load];
                drawn.current_a + (CONTINUOUS_FACTOR - 1.0) * drawn.continuous_a
            };
            let extra = |load: Index| (CONTINUOUS_FACTOR - 1.0) * flow.loads[load].motor_a;
            keep(SharedLimit {
                running: loads().map(|load| of(load, &running)).collect(),
                extra: Some(loads().map(|load| of(load, &extra)).collect()),
                bound: breaker_a,
            });
        }
        if let Some(ampacity_a) = ampacities_a[index]
            && exceeds(carried.drawn.current_a, ampacity_a)
        {
            let running = |load: Index| flow.loads[load].current_a;
            let running = loads().map(|load| of(load, &running)).collect();
            keep(SharedLimit { running, extra: None, bound: ampacity_a });
        }
    }
    limits
}

/// What loads behind inverters weigh on a battery: their power, and what the inverters lose, at the voltage at which they
/// shut off.
fn add_inverters(
    wiring: &Wiring,
    mode: &Switching,
    flow: &Flow,
    battery: Index,
    running: &mut [f64],
    bound: &mut f64,
) {
    for (source, supply) in wiring.sources.iter().enumerate() {
        let feeds_on_it = chain(wiring, mode, source).skip(1).any(|above| above == battery);
        if supply.source.kind != SourceKind::Inverter || flow.sources[source].is_none() || !feeds_on_it {
            continue;
        }
        *bound -= defaults::inverter_losses(supply.source).0 / supply.cutoff_v;
        let efficiency = efficiency_from(wiring, mode, source, battery);
        for (load, weight) in running.iter_mut().enumerate() {
            if flow.powered[load] && mode.feeds[wiring.loads[load].circuit] == Some(source) {
                *weight += flow.loads[load].power_w / efficiency / supply.cutoff_v;
            }
        }
    }
}
