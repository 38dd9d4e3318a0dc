//! From numbers to the report.

use super::assumptions::assumptions;
use super::types::*;
use crate::build::{Build, Leg, SourceKind};
use crate::circuit_load::circuit_fault::circuit_withstand_s;
use crate::circuit_load::circuit_sizing::total_drop;
use crate::circuit_load::current::margin;
use crate::circuit_load::drawn::Drawn;
use crate::circuit_load::findings::{self, Judged};
use crate::circuit_load::numbers::{ModeNumbers, Numbers, numbers};
use crate::circuit_load::sizing::Sizing;
use crate::circuit_load::source_demand::HourNumbers;
use crate::circuit_load::split_phase::{imbalance, neutral_a};
use crate::circuit_load::wiring::{Index, Wiring};
use crate::document::Keyed;
use crate::report::{Caution, Engine, Findings, shared_cautions};
use crate::standards::fuse::marine_interrupting_a;
use crate::standards::overcurrent::grounding_size;
use crate::standards::size::Size;
use crate::units::fahrenheit;

/// What goes with every report on circuits.
const CAUTIONS: &[Caution] = &[
    Caution {
        code: "licensed_electrician",
        text: "Line-voltage wiring can kill. Have it designed, done and inspected by a licensed electrician.",
    },
    Caution {
        code: "local_code",
        text: "This is a screening, not an approval. The locally adopted edition of the electrical code, the standard in \
            force for recreational vehicles and the makers' instructions override every figure here.",
    },
    Caution {
        code: "dead_before_work",
        text: "Unplug, switch off and disconnect every source, and prove the wiring dead, before touching it.",
    },
    shared_cautions::FUSE_AT_BATTERY,
    Caution {
        code: "no_back_feeding",
        text: "Never feed a panel through a cord with a plug at both ends, nor from two sources at once.",
    },
    shared_cautions::BATTERY_HAZARDS,
    shared_cautions::CARBON_MONOXIDE,
    Caution {
        code: "test_at_hand_over",
        text: "At hand-over test every ground-fault device, and the continuity of ground from each outlet to the chassis.",
    },
];

/// The report of a build that has sources and circuits.
pub(in crate::circuit_load) fn report(build: &Build) -> CircuitLoadReport {
    let Some(wiring) = Wiring::of(build) else {
        unreachable!("asked only where sources and circuits are there")
    };
    report_of(build, &wiring)
}

/// The answer for a build whose wiring was made ready.
pub fn report_of(build: &Build, wiring: &Wiring) -> CircuitLoadReport {
    let numbers = numbers(build, wiring);
    let judged = Judged { build, wiring, numbers: &numbers };
    let mut found = Findings::default();
    findings::judge(&judged, &mut found);
    CircuitLoadReport {
        circuits: summaries(wiring, &numbers),
        modes: (0..wiring.modes.len()).map(|m| (wiring.modes[m].id.to_owned(), mode(&judged, m))).collect(),
        battery: battery(build, wiring),
        solar: solar(build, &numbers),
        findings: found.in_order(),
        assumptions: assumptions(build, wiring),
        cautions: CAUTIONS,
        engine: Engine::THIS,
    }
}

/// Each circuit where it carries most, and the wire that does in every mode.
fn summaries(wiring: &Wiring, numbers: &Numbers) -> Keyed<CircuitSummary> {
    let summary = |circuit: Index| {
        let fed = || {
            let modes = numbers.modes.iter().zip(&wiring.modes);
            modes.filter_map(move |(mode, switching)| {
                Some((switching.id, mode.flow.circuits[circuit]?, mode.sizings[circuit]?))
            })
        };
        let worst = fed().reduce(|a, b| if b.1.drawn.required_a() > a.1.drawn.required_a() { b } else { a });
        let impossible = fed().any(|(_, _, sizing)| sizing.smallest.is_none());
        let smallest = fed().filter_map(|(_, _, sizing)| sizing.smallest);
        let smallest = smallest.reduce(|a, b| if b.0 > a.0 { b } else { a }).filter(|_| !impossible);
        CircuitSummary {
            mode: worst.map(|(mode, ..)| mode.to_owned()),
            breaker_a: wiring.circuits[circuit].circuit.breaker_a,
            device_a: worst.and_then(|(.., sizing)| sizing.device_a),
            awg: wiring.circuits[circuit].wire.and_then(|wire| wire.size).map(Size::name),
            current_a: worst.map_or(0.0, |(_, carried, _)| carried.drawn.current_a),
            required_a: worst.map_or(0.0, |(_, carried, _)| carried.drawn.required_a()),
            ampacity_a: worst.and_then(|(.., sizing)| sizing.ampacity_a),
            drop_fraction: worst.and_then(|(_, carried, sizing)| Some(sizing.drop_v? / carried.voltage_v)),
            smallest_awg: smallest.map(|(size, _)| size.name()),
            bound_by: smallest.map(|(_, by)| by),
        }
    };
    (0..wiring.circuits.len())
        .map(|circuit| (wiring.circuits[circuit].id.to_owned(), summary(circuit)))
        .collect()
}

fn mode(judged: &Judged, m: usize) -> ModeLoad {
    let (wiring, numbers) = (judged.wiring, &judged.numbers.modes[m]);
    let name = |load: &usize| wiring.loads[*load].id.to_owned();
    let together = &numbers.together;
    let powered = |load: &usize| numbers.flow.powered[*load];
    let all = || 0..wiring.loads.len();
    let unrestricted = |load: &usize| powered(load) && together.unrestricted[*load];
    let names = |set: &Vec<usize>| set.iter().map(name).collect();
    // What may always run is in every set.
    let with_the_rest = |set: &Vec<usize>| {
        let is_in = |load: &usize| unrestricted(load) || set.binary_search(load).is_ok();
        all().filter(is_in).map(|load| name(&load)).collect()
    };
    let sources = all_of(wiring.sources.len(), |source| {
        Some((wiring.sources[source].id.to_owned(), source_load(wiring, numbers, source)?))
    });
    ModeLoad {
        sources,
        circuits: all_of(wiring.circuits.len(), |circuit| {
            Some((wiring.circuits[circuit].id.to_owned(), circuit_in_mode(judged, m, circuit)?))
        }),
        conflicts: together.conflicts.iter().map(names).collect(),
        conflict_count: together.conflict_count as u32,
        largest_sets: together.largest.iter().map(with_the_rest).collect(),
        largest_set_count: together.largest_count as u32,
        sets_exact: together.exact,
        best_set: together.best.iter().filter(|load| powered(load)).map(name).collect(),
        unrestricted: all().filter(unrestricted).map(|load| name(&load)).collect(),
        unpowered: all().filter(|load| !powered(load)).map(|load| name(&load)).collect(),
    }
}

fn all_of<T>(count: usize, one: impl Fn(Index) -> Option<(String, T)>) -> Keyed<T> {
    (0..count).filter_map(one).collect()
}

fn source_load(wiring: &Wiring, numbers: &ModeNumbers, source: Index) -> Option<SourceLoad> {
    let gives = numbers.flow.sources[source].as_ref()?;
    let (supply, rating) = (&wiring.sources[source], &numbers.ratings[source]);
    let demand = numbers.demands[source].as_ref()?;
    let [a, b] = &gives.legs;
    let two = supply.source.legs == Some(2);
    let legs = two.then(|| {
        let volts = numbers.voltages.legs[source];
        let on = |leg: Leg| legs_of(wiring, numbers, source, leg);
        let (a_drawn, b_drawn) = if supply.split { (*a, *b) } else { (on(Leg::A), on(Leg::B)) };
        let bus_v = numbers.voltages.bus_v[source].unwrap_or(0.0);
        Legs {
            a_a: a_drawn.current_a,
            b_a: b_drawn.current_a,
            neutral_a: neutral_a(a_drawn.phasor, b_drawn.phasor, supply.in_phase),
            in_phase: supply.in_phase,
            imbalance_fraction: imbalance(a_drawn.current_a, b_drawn.current_a),
            a_v: volts.map_or(bus_v, |legs| legs.a_v),
            b_v: volts.map_or(bus_v, |legs| -legs.b_v),
        }
    });
    let is_inverter = supply.source.kind == SourceKind::Inverter;
    let expected_a = demand.hours.iter().map(|hour| hour.expected_a).sum::<f64>() / demand.hours.len() as f64;
    let risk = demand.hours.iter().filter_map(|hour| hour.risk).reduce(f64::max);
    let hour = |(hour, of): (usize, &HourNumbers)| HourDemand {
        hour: hour as u32,
        expected_a: of.expected_a,
        peak_a: of.peak_a,
        trip_risk: of.risk,
    };
    Some(SourceLoad {
        current_a: gives.actual.current_a,
        inverters_rated_a: gives.drawn.current_a,
        limit_a: rating.limit_a,
        limited_by: rating.by.word(),
        rating_a: rating.rating_a,
        continuous_a: gives.actual.continuous_a,
        power_w: if supply.split { a.power_w + b.power_w } else { gives.actual.power_w },
        legs,
        start_va: gives.start_va,
        starter: gives.starter.map(|load| wiring.loads[load].id.to_owned()),
        input_w: is_inverter.then_some(gives.input_w),
        input_a: is_inverter.then_some(gives.input_a),
        bus_v: numbers.voltages.bus_v[source],
        expected_a,
        trip_risk: risk,
        hours: if demand.by_hour { demand.hours.iter().enumerate().map(hour).collect() } else { Vec::new() },
    })
}

/// What the circuits on one leg of an in-phase supply carry.
fn legs_of(wiring: &Wiring, numbers: &ModeNumbers, source: Index, leg: Leg) -> Drawn {
    let mut total = Drawn::default();
    for (index, line) in wiring.circuits.iter().enumerate() {
        let on_leg = line.feeder.is_none() && wiring.leg(index).unwrap_or(Leg::A) == leg;
        if let Some(carried) =
            numbers.flow.circuits[index].filter(|carried| on_leg && carried.source == source)
        {
            total.add(&carried.drawn);
        }
    }
    total
}

fn circuit_in_mode(judged: &Judged, m: usize, circuit: Index) -> Option<CircuitInMode> {
    let (wiring, numbers) = (judged.wiring, &judged.numbers.modes[m]);
    let carried = numbers.flow.circuits[circuit]?;
    let sizing: Sizing = numbers.sizings[circuit]?;
    let line = &wiring.circuits[circuit];
    let supply = &wiring.sources[carried.source];
    let name = |size: Option<Size>| size.map(Size::name);
    let required_a = carried.drawn.required_a();
    let device_a = line.circuit.breaker_a;
    let grounding = device_a.or(sizing.device_a).filter(|_| supply.is_ac()).and_then(grounding_size);
    Some(CircuitInMode {
        source: supply.id.to_owned(),
        voltage_v: carried.voltage_v,
        current_a: carried.drawn.current_a,
        required_a,
        phasor_a: carried.drawn.phasor.magnitude_a(),
        power_w: carried.drawn.power_w,
        awg: name(sizing.size),
        ampacity_a: sizing.ampacity_a,
        drop_v: sizing.drop_v,
        drop_fraction: sizing.drop_v.map(|drop_v| drop_v / carried.voltage_v),
        total_drop_fraction: total_drop(wiring, numbers, circuit),
        conductor_f: sizing.conductor_c.map(fahrenheit),
        expected_drop_v: sizing.expected_drop_v,
        arriving_v: numbers.voltages.arriving_v[circuit],
        smallest_awg: name(sizing.smallest.map(|(size, _)| size)),
        bound_by: sizing.smallest.map(|(_, by)| by),
        by_ampacity_awg: name(sizing.by_ampacity),
        by_drop_awg: name(sizing.by_drop),
        device_a: sizing.device_a,
        margin_fraction: device_a.map(|device_a| margin(required_a, device_a)),
        grounding_awg: name(grounding),
        fault_a: numbers.faults_a[circuit],
        withstand_s: circuit_withstand_s(wiring, numbers, circuit),
    })
}

fn battery(build: &Build, wiring: &Wiring) -> Option<BatteryFault> {
    let (battery, bank) = (build.battery.as_ref()?, wiring.battery?);
    let by_cranking = battery.cold_cranking_a.map(marine_interrupting_a);
    Some(BatteryFault {
        open_circuit_v: bank.open_v,
        resistance_mohm: bank.ohm * 1000.0,
        fault_a: bank.fault_a,
        charge_v: bank.charge_v,
        main_interrupting_a: by_cranking.map(|(main_a, _)| main_a),
        branch_interrupting_a: by_cranking.map(|(_, branch_a)| branch_a),
    })
}

fn solar(build: &Build, numbers: &Numbers) -> Option<SolarWiring> {
    let (solar, numbers) = (build.solar.as_ref()?, numbers.solar.as_ref()?);
    let name =
        |sizing: Option<&Sizing>| sizing.and_then(|sizing| sizing.smallest).map(|(size, _)| size.name());
    let by = |sizing: Option<&Sizing>| sizing.and_then(|sizing| sizing.smallest).map(|(_, by)| by);
    let arrays = solar.arrays.iter().flatten().zip(&numbers.arrays).map(|((id, array), of)| {
        let sizing = of.sizing.as_ref();
        let wired = sizing.filter(|_| array.wire.is_some());
        let wiring = ArrayWiring {
            cold_voltage_v: of.cold_v,
            hot_voltage_v: of.hot_v,
            most_current_a: of.most_a,
            required_a: of.required_a,
            backfeed_a: of.backfeed_a,
            string_fuse_needed: of.string_fuse_needed,
            string_fuse_a: of.string_fuse_a,
            ampacity_a: wired.and_then(|sizing| sizing.ampacity_a),
            drop_fraction: wired.and_then(|sizing| Some(sizing.drop_v? / of.working_v?)),
            smallest_awg: name(sizing),
            bound_by: by(sizing),
        };
        (id.clone(), wiring)
    });
    let controller = numbers.controller.as_ref().map(|of| {
        let sizing = Some(&of.sizing);
        let wired =
            sizing.filter(|_| solar.controller.as_ref().is_some_and(|controller| controller.wire.is_some()));
        ControllerWiring {
            cold_voltage_v: numbers.arrays.iter().filter_map(|array| array.cold_v).reduce(f64::max),
            short_circuit_a: numbers.short_circuit_a,
            output_a: of.output_a,
            required_a: of.required_a,
            device_a: of.device_a,
            ampacity_a: wired.and_then(|sizing| sizing.ampacity_a),
            drop_fraction: wired.and_then(|sizing| Some(sizing.drop_v? / numbers.battery_v)),
            smallest_awg: name(sizing),
            bound_by: by(sizing),
        }
    });
    Some(SolarWiring { arrays: arrays.collect(), controller })
}
