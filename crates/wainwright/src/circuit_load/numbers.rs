//! Everything circuit load works out, in numbers alone.

use super::demand::{self, Demand};
use super::drawn::{CircuitFlow, Flow, flow};
use super::energized::{charges_its_own_source, efficiency_from, upstream};
use super::inverter::{self, Losses};
use super::ratings::{Rating, rating};
use super::shared_limits::shared_limits;
use super::sizing::{Duty, Sizing, fault_ohm, sizing, withstand_s};
use super::solar_numbers::{SolarNumbers, solar_numbers};
use super::through::{Through, through};
use super::together::{Together, together};
use super::voltages::{Loop, Voltages, voltages};
use super::wiring::{Index, Load, Switching, Wiring, is_on};
use super::{constant_power, converter, defaults};
use crate::build::{Build, Leg, LoadKind, SourceKind};

/// At most so many conflicts, and so many largest sets, are listed.
pub const MOST_LISTED: usize = 100;
/// The chance of passing a rating is worked out up to this product of loads and rating [A]; a supply of 100 A with 200
/// loads is within it.
const MOST_RISK_WORK_A: f64 = 20_000.0;
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
    /// Voltage at the input of each inverter while its worst load starts [V]; nothing where the battery cannot bring it.
    pub starts_v: Vec<Option<f64>>,
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

/// Share of its voltage that a circuit may lose where the build does not say.
pub fn usual_drop(wiring: &Wiring, circuit: Index, alternating: bool) -> f64 {
    let line = &wiring.circuits[circuit];
    let is_light = |&load: &Index| wiring.loads[load].kind == LoadKind::Lighting;
    let is_inverter = |&source: &Index| wiring.sources[source].source.kind == SourceKind::Inverter;
    let feeds_inverter = line.feeds.iter().any(is_inverter);
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

/// The conductors of all circuits: feeders first, since on low voltage what they lose is lost to their branches.
fn circuit_sizings(wiring: &Wiring, flow: &Flow, leads: &[Option<Sizing>]) -> Vec<Option<Sizing>> {
    let mut sizings = vec![None; wiring.circuits.len()];
    for branches in [false, true] {
        for (circuit, line) in wiring.circuits.iter().enumerate() {
            let Some(carried) = flow.circuits[circuit].filter(|_| line.feeder.is_some() == branches) else {
                continue;
            };
            let lost_v = |sizing: Option<Sizing>| sizing.and_then(|sizing| sizing.drop_v).unwrap_or(0.0);
            let feeder: Option<Sizing> = line.feeder.and_then(|feeder| sizings[feeder]);
            let ahead_v = lost_v(leads[carried.source]) + lost_v(feeder);
            sizings[circuit] = Some(circuit_sizing(wiring, circuit, &carried, ahead_v));
        }
    }
    sizings
}

/// The conductor of a circuit; `ahead_v` is lost on the way to it.
fn circuit_sizing(wiring: &Wiring, circuit: Index, carried: &CircuitFlow, ahead_v: f64) -> Sizing {
    let line = &wiring.circuits[circuit];
    let alternating = wiring.sources[carried.source].is_ac();
    let most_drop = line.circuit.max_drop_fraction.unwrap_or(usual_drop(wiring, circuit, alternating));
    let duty = Duty {
        voltage_v: carried.voltage_v,
        by_code: alternating,
        current_a: carried.drawn.current_a,
        required_a: carried.drawn.required_a(),
        // The code's 3 % are those of the branch; on low voltage they are counted from the battery (ABYC E-11).
        most_drop: if alternating { most_drop } else { (most_drop - ahead_v / carried.voltage_v).max(0.0) },
        device_a: line.circuit.breaker_a,
        family: line.circuit.device,
        may_round_up: line.outlets() <= 1,
    };
    sizing(line.wire.as_ref(), &duty)
}

/// The cord or cable of a source, which must carry what the source may give.
fn lead_sizing(wiring: &Wiring, flow: &Flow, rating: &Rating, source: Index) -> Option<Sizing> {
    let gives = flow.sources[source]?;
    let supply = &wiring.sources[source];
    let lead = supply.lead?;
    // Without a rating the source's power says how much it may give.
    let most_a = rating.rating_a.or(rating.limit_a);
    let current_a = most_a.map_or(gives.drawn.current_a, |most_a| most_a.min(gives.drawn.current_a));
    let duty = Duty {
        voltage_v: supply.source.voltage_v,
        by_code: supply.is_ac(),
        current_a,
        required_a: most_a.unwrap_or(current_a),
        most_drop: defaults::DROP,
        device_a: most_a,
        family: None,
        may_round_up: true,
    };
    Some(sizing(Some(&lead), &duty))
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

/// Share of the voltage lost from the source to the end of a circuit: cord or cable, feeder, and the circuit itself.
pub fn total_drop(wiring: &Wiring, mode: &ModeNumbers, circuit: Index) -> Option<f64> {
    let carried = mode.flow.circuits[circuit]?;
    let own = mode.sizings[circuit]?.drop_v? / carried.voltage_v;
    let feeder = wiring.circuits[circuit].feeder.and_then(|feeder| {
        let drop_v = mode.sizings[feeder]?.drop_v?;
        Some(drop_v / mode.flow.circuits[feeder]?.voltage_v)
    });
    let source_v = wiring.sources[carried.source].source.voltage_v;
    let lead = match mode.voltages.legs[carried.source] {
        // Of a supply in opposite phase each leg has its own: balanced legs lose nothing in the neutral.
        Some(legs) => match wiring.leg(circuit) {
            Some(Leg::Both) => 1.0 - (legs.a_v - legs.b_v) / (2.0 * source_v),
            Some(Leg::B) => 1.0 + legs.b_v / source_v,
            _ => 1.0 - legs.a_v / source_v,
        },
        None => mode.leads[carried.source].and_then(|lead| lead.drop_v).unwrap_or(0.0) / source_v,
    };
    Some(own + feeder.unwrap_or(0.0) + lead)
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
    let split = wiring.sources[source].split;
    let legs: &[Leg] = if split { &[Leg::A, Leg::B] } else { &[Leg::A] };
    let loads: Vec<Vec<(Index, f64)>> =
        legs.iter().map(|&leg| taken(wiring, mode, flow, source, split, leg)).collect();
    let all = || loads.iter().flatten().map(|(load, _)| &wiring.loads[*load]);
    let by_hour = all().any(|load| load.draw.on_fraction.is_some());
    let hours_are_known = all().all(Load::says_hours);
    let few = |rating_a: &f64| rating_a * all().count() as f64 <= MOST_RISK_WORK_A;
    let rating_a = ratings[source].rating_a.filter(|_| hours_are_known).filter(few);
    let on_one_leg = |loads: &[(Index, f64)], hour: usize, cells: &mut Vec<f64>| {
        let demands: Vec<Demand> = loads
            .iter()
            .map(|&(load, current_a)| Demand { current_a, on: wiring.loads[load].on(hour) })
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

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::fixture::{read, sources, wired};
    use super::*;

    #[test]
    fn lights_may_lose_more_and_an_inverters_cable_less() {
        let circuits = json!({"lights": {}, "mixed": {}, "cable": {}, "outlets": {}});
        let modes = json!({"on": {"feeds": {"lights": "battery", "mixed": "battery", "cable": "battery", "outlets": "shore"}}});
        let loads = json!({
            "lamp": {"circuit": "lights", "power_w": 5, "kind": "lighting"},
            "lamp_too": {"circuit": "mixed", "power_w": 5, "kind": "lighting"},
            "pump": {"circuit": "mixed", "power_w": 60, "kind": "motor"},
        });
        let build = wired(sources(), circuits, modes, loads);
        let wiring = Wiring::of(&build).unwrap();
        assert_eq!([0, 1, 2].map(|circuit| usual_drop(&wiring, circuit, false)), [0.10, 0.03, 0.02]);
        assert_eq!(usual_drop(&wiring, 3, true), 0.03);
    }

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

    /// 12.7 V behind 3 mΩ: 4,233 A at the terminals; with 8 ft of 6 AWG cable to the block, cold, less.
    #[test]
    fn a_fault_behind_a_feeder_is_held_back_by_its_cable() {
        let build = read(&json!({
            "parts": {"lamp": {"mass_lb": 1, "electrical": {"circuit": "lamp", "power_w": 5}}},
            "electrical": {
                "sources": {"battery": {"kind": "battery", "voltage_v": 12.8}},
                "circuits": {
                    "block": {"breaker_a": 60, "wire": {"awg": "6", "run_ft": 4}},
                    "lamp": {"breaker_a": 10, "feeder": "block", "wire": {"awg": "14", "run_ft": 10}},
                },
                "modes": {"on": {"feeds": {"block": "battery"}}},
            },
            "battery": {"chemistry": "agm", "capacity_ah": 100, "nominal_v": 12, "open_circuit_v": 12.7, "resistance_mohm": 3},
        }));
        let wiring = Wiring::of(&build).unwrap();
        let numbers = numbers(&build, &wiring);
        let faults = &numbers.modes[0].faults_a;
        assert_eq!(faults[0].map(|a| a.round()), Some(4233.0));
        // 0.491 Ω a thousand feet at 75 °C is 0.40378 Ω at 20 °C (NEC Chapter 9, Table 8).
        let behind = 12.7 / (0.003 + 8.0 * 0.491e-3 * (1.0 - 0.00323 * 55.0));
        assert!((faults[1].unwrap() / behind - 1.0).abs() < 1e-12);
        assert!(circuit_withstand_s(&wiring, &numbers.modes[0], 1).unwrap() < 0.1);
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

    #[test]
    fn chargers_count_for_the_battery_they_charge_and_only_from_another_source() {
        let circuits = json!({"outlets": {}, "cable": {}, "block": {}});
        let modes = json!({
            "plugged_in": {"feeds": {"outlets": "shore", "block": "battery"}},
            "unplugged": {"feeds": {"block": "battery"}},
        });
        let loads = json!({
            "converter": {"circuit": "outlets", "charger": {"output_a": 45}},
            "booster": {"circuit": "block", "charger": {"output_a": 20}},
            "horn": {"circuit": "block", "current_a": 5, "momentary": true},
            "pump": {"circuit": "block", "current_a": 7},
        });
        let build = wired(sources(), circuits, modes, loads);
        let wiring = Wiring::of(&build).unwrap();
        let numbers = numbers(&build, &wiring);
        let at = |m: usize| (&wiring.modes[m], &numbers.modes[m]);
        let (plugged_in, of_plugged_in) = at(0);
        assert_eq!(charging_a(&wiring, plugged_in, of_plugged_in, 2), 45.0);
        let booster_a = of_plugged_in.flow.loads[1].current_a;
        assert_eq!(connected_a(&wiring, plugged_in, of_plugged_in, 2), booster_a + 7.0);
        let (unplugged, of_unplugged) = at(1);
        assert_eq!(charging_a(&wiring, unplugged, of_unplugged, 2), 0.0);
    }
}
