//! Everything circuit load works out, in numbers alone.

use super::demand::{self, Demand};
use super::drawn::{Flow, flow};
use super::energized::{charges_its_own_source, efficiency_from};
use super::ratings::{Rating, rating};
use super::shared_limits::shared_limits;
use super::sizing::{Duty, Sizing, fault_ohm, sizing, withstand_s};
use super::solar_numbers::{SolarNumbers, solar_numbers};
use super::together::{Together, together};
use super::voltages::{Voltages, voltages};
use super::wiring::{Index, Switching, Wiring};
use super::{converter, defaults};
use crate::build::{Build, LoadKind, SourceKind};

/// At most so many conflicts, and so many largest sets, are listed.
pub const MOST_LISTED: usize = 100;
/// Hours of the day.
pub const HOURS: usize = 24;

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
    /// The demand on each source by hour.
    pub demands: Vec<Option<SourceDemand>>,
    /// What may run together.
    pub together: Together,
    /// Chargers that are fed by what they charge.
    pub loops: Vec<EnergyLoop>,
}

/// A charger that is fed by the battery it charges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnergyLoop {
    /// The charger.
    pub load: Index,
    /// The battery.
    pub battery: Index,
    /// What the battery gains by it: less than nothing [W].
    pub net_w: f64,
}

/// The demand on a source over the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SourceDemand {
    /// Hour by hour.
    pub hours: [HourNumbers; HOURS],
    /// Does a load say in which hours it runs?
    pub by_hour: bool,
}

/// The demand on a source in one hour.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HourNumbers {
    /// Mean of the current [A].
    pub expected_a: f64,
    /// Everything that may be on [A].
    pub peak_a: f64,
    /// Chance of passing the rating.
    pub risk: Option<f64>,
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
    let sizings: Vec<Option<Sizing>> =
        (0..wiring.circuits.len()).map(|circuit| circuit_sizing(wiring, &flow, circuit)).collect();
    let leads: Vec<Option<Sizing>> =
        sources.clone().map(|source| lead_sizing(wiring, &flow, &ratings[source], source)).collect();
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
    let limits: Vec<_> = limits.iter().map(super::shared_limits::SharedLimit::limit).collect();
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
        demands: sources.map(|source| source_demand(wiring, mode, &flow, &ratings, source, cells)).collect(),
        together: together(&limits, &priorities, &currents_a, MOST_LISTED),
        loops: loops(wiring, mode, &flow),
        flow,
        ratings,
        sizings,
        leads,
    }
}

/// Share of its voltage that a circuit may lose where the build does not say.
pub fn usual_drop(wiring: &Wiring, circuit: Index, alternating: bool) -> f64 {
    let line = &wiring.circuits[circuit];
    let is_light = |&load: &Index| wiring.loads[load].kind == LoadKind::Lighting;
    let feeds_inverter =
        line.feeds.is_some_and(|source| wiring.sources[source].source.kind == SourceKind::Inverter);
    if feeds_inverter {
        defaults::INVERTER_DROP
    } else if !alternating
        && !line.loads.is_empty()
        && line.branches.is_empty()
        && line.loads.iter().all(is_light)
    {
        defaults::LIGHTING_DROP
    } else {
        defaults::DROP
    }
}

fn circuit_sizing(wiring: &Wiring, flow: &Flow, circuit: Index) -> Option<Sizing> {
    let carried = flow.circuits[circuit]?;
    let line = &wiring.circuits[circuit];
    let alternating = wiring.sources[carried.source].is_ac();
    let duty = Duty {
        voltage_v: carried.voltage_v,
        by_code: alternating,
        current_a: carried.drawn.current_a,
        required_a: carried.drawn.required_a(),
        most_drop: line.circuit.max_drop_fraction.unwrap_or(usual_drop(wiring, circuit, alternating)),
        device_a: line.circuit.breaker_a,
        family: line.circuit.device,
        may_round_up: line.outlets() <= 1,
    };
    Some(sizing(line.wire.as_ref(), &duty))
}

/// The cord or cable of a source, which must carry what the source may give.
fn lead_sizing(wiring: &Wiring, flow: &Flow, rating: &Rating, source: Index) -> Option<Sizing> {
    let gives = flow.sources[source]?;
    let supply = &wiring.sources[source];
    let lead = supply.lead?;
    let current_a =
        rating.rating_a.map_or(gives.drawn.current_a, |rating_a| rating_a.min(gives.drawn.current_a));
    let duty = Duty {
        voltage_v: supply.source.voltage_v,
        by_code: supply.is_ac(),
        current_a,
        required_a: rating.rating_a.unwrap_or(current_a),
        most_drop: defaults::DROP,
        device_a: rating.rating_a,
        family: None,
        may_round_up: true,
    };
    Some(sizing(Some(&lead), &duty))
}

/// Current of a short circuit at the device of a circuit: battery, its cable, and the feeder.
fn fault_a(
    wiring: &Wiring,
    flow: &Flow,
    sizings: &[Option<Sizing>],
    leads: &[Option<Sizing>],
    circuit: Index,
) -> Option<f64> {
    let source = flow.circuits[circuit]?.source;
    let battery = wiring.battery.filter(|_| !wiring.sources[source].is_ac())?;
    let way_ohm =
        |wire: Option<super::wiring::Conductors>, sizing: Option<Sizing>| fault_ohm(&wire?, sizing?.size?);
    let lead_ohm = way_ohm(wiring.sources[source].lead, leads[source]).unwrap_or(0.0);
    let feeder = wiring.circuits[circuit].feeder;
    let feeder_ohm =
        feeder.and_then(|feeder| way_ohm(wiring.circuits[feeder].wire, sizings[feeder])).unwrap_or(0.0);
    Some(super::fault::battery_fault_a(
        battery.open_v,
        battery.open_v / battery.fault_a,
        lead_ohm + feeder_ohm,
    ))
}

/// How long the wire of a circuit bears a fault at its device [s].
pub fn circuit_withstand_s(wiring: &Wiring, numbers: &ModeNumbers, circuit: Index) -> Option<f64> {
    let wire = wiring.circuits[circuit].wire.as_ref()?;
    withstand_s(wire, numbers.sizings[circuit]?.size?, numbers.faults_a[circuit]?)
}

fn source_demand(
    wiring: &Wiring,
    mode: &Switching,
    flow: &Flow,
    ratings: &[Rating],
    source: Index,
    cells: &mut Vec<f64>,
) -> Option<SourceDemand> {
    flow.sources[source]?;
    let on_it = |load: &Index| flow.powered[*load] && mode.feeds[wiring.loads[*load].circuit] == Some(source);
    let loads: Vec<Index> = (0..wiring.loads.len()).filter(on_it).collect();
    let by_hour = loads.iter().any(|&load| wiring.loads[load].draw.on_fraction.is_some());
    let hour = |hour: usize, cells: &mut Vec<f64>| {
        let demands: Vec<Demand> = loads
            .iter()
            .map(|&load| Demand { current_a: flow.loads[load].current_a, on: wiring.loads[load].on(hour) })
            .collect();
        HourNumbers {
            expected_a: demand::expected_a(&demands),
            peak_a: demand::certain_peak_a(&demands),
            risk: ratings[source].rating_a.map(|rating_a| demand::risk(&demands, rating_a, cells)),
        }
    };
    let hours = if by_hour { std::array::from_fn(|h| hour(h, cells)) } else { [hour(0, cells); HOURS] };
    Some(SourceDemand { hours, by_hour })
}

fn loops(wiring: &Wiring, mode: &Switching, flow: &Flow) -> Vec<EnergyLoop> {
    let mut loops = Vec::new();
    for (index, load) in wiring.loads.iter().enumerate() {
        let Some(source) = mode.feeds[load.circuit].filter(|_| flow.powered[index]) else { continue };
        let Some(battery) = charges_its_own_source(wiring, mode, load, source) else { continue };
        let charger = load.draw.charger.as_ref();
        let efficiency =
            charger.and_then(|charger| charger.efficiency).unwrap_or(defaults::CHARGER_EFFICIENCY);
        let net_w = converter::loop_net_w(
            flow.loads[index].power_w,
            efficiency,
            efficiency_from(wiring, mode, source, battery),
        );
        loops.push(EnergyLoop { load: index, battery, net_w });
    }
    loops
}

/// Current of the low-voltage loads of a battery in a mode, without those that are switched for moments [A].
pub fn connected_a(wiring: &Wiring, mode: &Switching, numbers: &ModeNumbers, battery: Index) -> f64 {
    let counts = |load: usize| {
        numbers.flow.powered[load]
            && mode.feeds[wiring.loads[load].circuit] == Some(battery)
            && wiring.loads[load].draw.momentary != Some(true)
    };
    (0..wiring.loads.len()).filter(|&load| counts(load)).map(|load| numbers.flow.loads[load].current_a).sum()
}

/// What live chargers on alternating current give a battery in a mode [A].
pub fn charging_a(wiring: &Wiring, mode: &Switching, numbers: &ModeNumbers, battery: Index) -> f64 {
    let gives = |(index, load): (usize, &super::wiring::Load)| {
        let source = mode.feeds[load.circuit].filter(|_| numbers.flow.powered[index])?;
        let is_own = !wiring.sources[source].is_ac() || load.charges != Some(battery);
        let charger = load.draw.charger.as_ref().filter(|_| !is_own)?;
        Some(charger.output_a * load.quantity)
    };
    wiring.loads.iter().enumerate().filter_map(gives).sum()
}
