//! Everything circuit load works out, in numbers alone.

use super::charging::{EnergyLoop, loops};
use super::circuit_fault::fault_a;
use super::circuit_sizing::{circuit_sizings, lead_sizing};
use super::drawn::{Flow, flow};
use super::energized::upstream;
use super::inverter::{self, Losses};
use super::ratings::{Rating, rating};
use super::shared_limits::{SharedLimit, shared_limits};
use super::sizing::Sizing;
use super::solar_numbers::{SolarNumbers, solar_numbers};
use super::source_demand::{SourceDemand, source_demand};
use super::together::{Together, together};
use super::voltages::{Loop, Voltages, voltages};
use super::wiring::{Index, Switching, Wiring};
use super::{constant_power, defaults};
use crate::build::{Build, SourceKind};

/// At most so many conflicts, and so many largest sets, are listed.
pub const MOST_LISTED: usize = 100;

/// What a build comes to.
#[derive(Debug, Clone)]
pub struct Numbers<'b> {
    /// Each supply mode.
    pub modes: Vec<ModeNumbers<'b>>,
    /// The solar arrays and their controller.
    pub solar: Option<SolarNumbers>,
}

/// What a supply mode comes to.
#[derive(Debug, Clone)]
pub struct ModeNumbers<'b> {
    /// What flows.
    pub flow: Flow,
    /// What each source may give.
    pub ratings: Vec<Rating<'b>>,
    /// The conductor of each circuit that is fed.
    pub sizings: Vec<Option<Sizing>>,
    /// The cord or cable of each source in use.
    pub leads: Vec<Option<Sizing>>,
    /// Current of a short circuit at the device of each circuit of a battery [A].
    pub faults_a: Vec<Option<f64>>,
    /// What arrives where.
    pub voltages: Voltages,
    /// Voltage at the input of each inverter while its worst load starts [V], 0 where the battery cannot bring the power.
    pub starts_v: Vec<Option<f64>>,
    /// The demand on each source by hour.
    pub demands: Vec<Option<SourceDemand>>,
    /// What may run together.
    pub together: Together,
    /// Chargers that are fed by what they charge.
    pub loops: Vec<EnergyLoop>,
}

/// Works everything out.
pub fn numbers<'b>(build: &'b Build, wiring: &'b Wiring<'b>) -> Numbers<'b> {
    let mut cells = Vec::new();
    Numbers {
        modes: wiring.modes.iter().map(|mode| mode_numbers(wiring, mode, &mut cells)).collect(),
        solar: build.solar.as_ref().map(|solar| solar_numbers(solar, wiring)),
    }
}

fn mode_numbers<'b>(wiring: &'b Wiring<'b>, mode: &Switching, cells: &mut Vec<f64>) -> ModeNumbers<'b> {
    let flow = flow(wiring, mode);
    let sources = 0..wiring.sources.len();
    let ratings: Vec<Rating> = sources.clone().map(|source| rating(wiring, mode, source)).collect();
    let leads: Vec<Option<Sizing>> =
        sources.clone().map(|source| lead_sizing(wiring, &flow, &ratings[source], source)).collect();
    let sizings = circuit_sizings(wiring, &flow, &leads);
    let way = |sizing: &Option<Sizing>| sizing.map(|sizing| sizing.way).unwrap_or_default();
    let ways: Vec<_> = sizings.iter().map(way).collect();
    let lead_ways: Vec<_> = leads.iter().map(way).collect();
    let ampacities_a: Vec<Option<f64>> = sizings
        .iter()
        .zip(&wiring.circuits)
        .map(|(sizing, line)| {
            // A wire that is still to be chosen limits nothing.
            line.wire.and_then(|wire| wire.size).and(sizing.as_ref()?.ampacity_a)
        })
        .collect();
    let limits = shared_limits(wiring, mode, &flow, &ratings, &ampacities_a);
    let limits: Vec<_> = limits.iter().map(SharedLimit::limit).collect();
    let weighs = |values: &dyn Fn(Index) -> f64| -> Vec<f64> {
        (0..wiring.loads.len()).map(|load| if flow.powered[load] { values(load) } else { 0.0 }).collect()
    };
    let priorities = weighs(&|load| wiring.loads[load].draw.priority.unwrap_or(1.0));
    let currents_a = weighs(&|load| flow.loads[load].current_a);
    ModeNumbers {
        faults_a: (0..wiring.circuits.len())
            .map(|circuit| fault_a(wiring, &flow, &sizings, &leads, circuit))
            .collect(),
        voltages: voltages(wiring, mode, &flow, &ways, &lead_ways),
        starts_v: sources
            .clone()
            .map(|source| start_v(wiring, mode, &flow, &ways, &lead_ways, source))
            .collect(),
        demands: sources.map(|source| source_demand(wiring, mode, &flow, &ratings, source, cells)).collect(),
        together: together(&limits, &priorities, &currents_a, MOST_LISTED),
        loops: loops(wiring, mode, &flow),
        flow,
        ratings,
        sizings,
        leads,
    }
}

/// Voltage at an inverter's input while its worst load starts: what it then takes behind the resistance of battery and
/// cable, from the battery's voltage. The volt-amperes of the start count as power, which is the safe side.
fn start_v(
    wiring: &Wiring,
    mode: &Switching,
    flow: &Flow,
    ways: &[Loop],
    lead_ways: &[Loop],
    source: Index,
) -> Option<f64> {
    let supply = &wiring.sources[source];
    let gives = flow.sources[source].filter(|_| supply.source.kind == SourceKind::Inverter)?;
    let above = upstream(wiring, mode, source).filter(|&above| !wiring.sources[above].is_ac())?;
    let cable = |circuit: Index| {
        ways[circuit].ohm + wiring.circuits[circuit].feeder.map_or(0.0, |feeder| ways[feeder].ohm)
    };
    let battery_ohm = wiring.battery.map_or(0.0, |battery| battery.ohm);
    let ohm = battery_ohm + lead_ways[above].ohm + supply.circuit.map_or(0.0, cable);
    let (idle_w, efficiency) = defaults::inverter_losses(supply.source);
    let taken_w = inverter::input_w(&Losses::from_efficiency(idle_w, efficiency), gives.start_va);
    // Where the battery cannot bring it at all, the voltage falls below any cut-off.
    let arrival = constant_power::behind(wiring.sources[above].source.voltage_v, ohm, taken_w);
    Some(arrival.map_or(0.0, |arrival| arrival.voltage_v))
}
