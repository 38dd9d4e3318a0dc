//! Currents, conductors, voltages and what may run together, in random electrical builds.

use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::{Value, json};
use wainwright::build::{Leg, LoadKind, SourceKind};
use wainwright::circuit_load::circuit_sizing::usual_drop;
use wainwright::circuit_load::current::over;
use wainwright::circuit_load::defaults::inverter_losses;
use wainwright::circuit_load::drawn::Drawn;
use wainwright::circuit_load::numbers::{MOST_LISTED, ModeNumbers, Numbers, numbers};
use wainwright::circuit_load::sizing::Sizing;
use wainwright::circuit_load::together::Together;
use wainwright::circuit_load::wiring::{Wiring, is_on};
use wainwright::standards::ampacity::{Column, table_a};
use wainwright::standards::cord;
use wainwright::standards::overcurrent::{permits, small_conductor_cap_a};
use wainwright::standards::size::Size;

use super::builds::cases;
use super::reports::read;
use super::wired_builds::{named, wired_build};

type Outcome = Result<(), TestCaseError>;

fn worked<T>(document: &Value, look: impl FnOnce(&Wiring, &Numbers) -> T) -> T {
    let build = read(document);
    let wiring = Wiring::of(&build).unwrap();
    look(&wiring, &numbers(&build, &wiring))
}

/// Looks at each mode of two builds side by side.
fn side_by_side(
    one: &Value,
    other: &Value,
    look: impl Fn(&Wiring, &ModeNumbers, &ModeNumbers) -> Outcome,
) -> Outcome {
    worked(one, |wiring, numbers| {
        worked(other, |_, others| {
            let pairs = numbers.modes.iter().zip(&others.modes);
            pairs.into_iter().try_for_each(|(mode, other)| look(wiring, mode, other))
        })
    })
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-6)
}

/// Every wire of the document.
fn wires(document: &mut Value) -> impl Iterator<Item = &mut Value> {
    let electrical = document["electrical"].as_object_mut().unwrap();
    electrical.iter_mut().flat_map(|(section, things)| {
        let name = if section == "sources" { "lead" } else { "wire" };
        let things = things.as_object_mut().into_iter().flatten();
        things.filter_map(move |(_, thing)| thing.get_mut(name))
    })
}

/// Gives every wire a size, or those that have none.
fn sized(document: &Value, size: Size, all: bool) -> Value {
    let mut document = document.clone();
    for wire in wires(&mut document).filter(|wire| all || wire.get("awg").is_none()) {
        wire["awg"] = named(size);
    }
    document
}

/// Conductors of circuits and sources.
fn conductors(mode: &ModeNumbers) -> impl Iterator<Item = Option<Sizing>> {
    mode.sizings.iter().chain(&mode.leads).copied()
}

proptest! {
    #![proptest_config(cases(150))]

    #[test]
    fn twice_the_run_loses_twice_the_voltage(document in wired_build(6)) {
        let mut document = sized(&document, Size::AWG_10, false);
        wires(&mut document).for_each(|wire| wire["chassis_return"] = json!(false));
        let mut longer = document.clone();
        for wire in wires(&mut longer) {
            wire["run_ft"] = json!(2.0 * wire["run_ft"].as_f64().unwrap());
        }
        side_by_side(&document, &longer, |_, mode, longer| {
            for (short, long) in conductors(mode).zip(conductors(longer)) {
                let [short, long] = [short, long].map(|sizing| sizing.and_then(|sizing| sizing.drop_v));
                prop_assert_eq!(short.map(|v| 2.0 * v), long);
            }
            Ok(())
        })?;
    }

    #[test]
    fn voltage_lost_grows_with_the_current(document in wired_build(6)) {
        let document = sized(&document, Size::AWG_10, false);
        let mut busier = document.clone();
        for (_, part) in busier["parts"].as_object_mut().unwrap() {
            part["quantity"] = json!(3 * part.get("quantity").map_or(1, |quantity| quantity.as_u64().unwrap()));
        }
        side_by_side(&document, &busier, |wiring, mode, busier| {
            for circuit in 0..wiring.circuits.len() {
                let of = |mode: &ModeNumbers| {
                    let drop_v = mode.sizings[circuit]?.drop_v?;
                    Some((mode.flow.circuits[circuit]?.drawn.current_a, drop_v))
                };
                let (Some((a, v)), Some((busier_a, busier_v))) = (of(mode), of(busier)) else { continue };
                prop_assert!(close(v * busier_a, busier_v * a), "{a} A lose {v} V, {busier_a} A {busier_v} V");
                prop_assert!(busier_a >= a);
            }
            Ok(())
        })?;
    }
}

/// Does a circuit's wire, of the size that is given, meet ampacity, drop and device? Low voltage is counted from the
/// battery, with what is lost ahead of the circuit.
fn meets(wiring: &Wiring, mode: &ModeNumbers, circuit: usize, ahead_v: f64) -> bool {
    let (line, carried) = (&wiring.circuits[circuit], mode.flow.circuits[circuit].unwrap());
    let (wire, sizing) = (line.wire.unwrap(), mode.sizings[circuit].unwrap());
    let alternating = wiring.sources[carried.source].is_ac();
    let size = sizing.size.unwrap();
    let (Some(carries_a), Some(drop_v)) = (sizing.ampacity_a, sizing.drop_v) else { return false };
    let Some(device_a) = line.circuit.breaker_a.or(sizing.device_a) else { return false };
    let most_drop = line.circuit.max_drop_fraction.unwrap_or(usual_drop(wiring, circuit, alternating));
    let required_a = carried.drawn.required_a();
    let ahead_v = if alternating { 0.0 } else { ahead_v };
    let drops_little = !over(drop_v, (most_drop * carried.voltage_v - ahead_v).max(0.0));
    if !alternating {
        return drops_little && !over(required_a, carries_a) && !over(device_a, carries_a);
    }
    let several_outlets =
        line.circuit.receptacle_a.is_some() && line.circuit.receptacles.is_none_or(|outlets| outlets > 1);
    let (uncorrected_a, cap_a) = if wire.cord {
        (cord::ampacity_a(size, wire.bundled), None)
    } else {
        let column = Column::up_to(wire.insulation_c.unwrap_or(90.0))
            .min(Column::up_to(wire.terminal_c.unwrap_or(60.0)));
        (table_a(size, wire.material, column.unwrap()), small_conductor_cap_a(size, wire.material))
    };
    drops_little
        && !over(required_a, uncorrected_a.unwrap())
        && !over(carried.drawn.current_a, carries_a)
        && permits(device_a, carries_a, !several_outlets && !wire.cord)
        && cap_a.is_none_or(|cap_a| !over(device_a, cap_a))
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn a_larger_wire_never_drops_more_and_never_carries_less(document in wired_build(4)) {
        let mut before: Vec<Option<Sizing>> = Vec::new();
        for size in Size::ALL {
            let now = worked(&sized(&document, size, true), |_, numbers| {
                numbers.modes.iter().flat_map(conductors).collect::<Vec<_>>()
            });
            for (smaller, larger) in before.iter().zip(&now) {
                let (Some(smaller), Some(larger)) = (smaller, larger) else { continue };
                if let (Some(less), Some(more)) = (smaller.ampacity_a, larger.ampacity_a) {
                    prop_assert!(less <= more, "{size:?}: {less} A, then {more} A");
                }
                if let (Some(more), Some(less)) = (smaller.drop_v, larger.drop_v) {
                    prop_assert!(less <= more, "{size:?}: {more} V, then {less} V");
                }
            }
            // A size that is not made says nothing: what comes after it stands beside what came before it.
            before = now
                .into_iter()
                .enumerate()
                .map(|(i, now)| {
                    let earlier = before.get(i).copied().flatten().unwrap_or_default();
                    now.map(|now| Sizing {
                        ampacity_a: now.ampacity_a.or(earlier.ampacity_a),
                        drop_v: now.drop_v.or(earlier.drop_v),
                        ..now
                    })
                })
                .collect();
        }
    }

    #[test]
    fn the_smallest_wire_is_the_first_that_meets_everything(document in wired_build(4)) {
        let wanted = |wiring: &Wiring, numbers: &Numbers| {
            let mut wanted = Vec::new();
            for mode in &numbers.modes {
                for (circuit, line) in wiring.circuits.iter().enumerate() {
                    let sizing = mode.sizings[circuit].filter(|_| line.wire.is_some());
                    let lost_v = |sizing: Option<Sizing>| sizing.and_then(|sizing| sizing.drop_v).unwrap_or(0.0);
                    let feeder = line.feeder.and_then(|feeder| mode.sizings[feeder]);
                    let lead = mode.flow.circuits[circuit].and_then(|carried| mode.leads[carried.source]);
                    let ahead_v = lost_v(feeder) + lost_v(lead);
                    wanted.push(sizing.map(|sizing| (sizing.smallest.map(|(size, _)| size), ahead_v)));
                }
            }
            wanted
        };
        let wanted = worked(&document, wanted);
        let mut first: Vec<Option<Size>> = vec![None; wanted.len()];
        for size in Size::ALL {
            worked(&sized(&document, size, true), |wiring, numbers| {
                for (at, first) in first.iter_mut().enumerate() {
                    let Some((_, ahead_v)) = wanted[at] else { continue };
                    let (mode, circuit) = (at / wiring.circuits.len(), at % wiring.circuits.len());
                    let may_be = size >= wiring.circuits[circuit].wire.unwrap().minimum;
                    if may_be && first.is_none() && meets(wiring, &numbers.modes[mode], circuit, ahead_v) {
                        *first = Some(size);
                    }
                }
            });
        }
        for (wanted, first) in wanted.into_iter().zip(first) {
            if let Some((wanted, _)) = wanted {
                prop_assert_eq!(wanted, first);
            }
        }
    }
}

/// A limit of a document: where it stands, and the least it may be lowered to.
fn limits(document: &Value) -> Vec<(String, f64)> {
    let mut limits = Vec::new();
    let mut add = |place: String, least: f64| {
        if document.pointer(&place).is_some_and(Value::is_number) {
            limits.push((place, least));
        }
    };
    let keys = |place: &str| -> Vec<String> {
        document
            .pointer(place)
            .and_then(Value::as_object)
            .into_iter()
            .flatten()
            .map(|(key, _)| key.clone())
            .collect()
    };
    for id in keys("/electrical/sources") {
        let at = format!("/electrical/sources/{id}");
        let continuous_w = document.pointer(&format!("{at}/continuous_w")).and_then(Value::as_f64);
        add(format!("{at}/rating_a"), 0.1);
        add(format!("{at}/path_a/inlet"), 0.1);
        add(format!("{at}/surge_w"), continuous_w.unwrap_or(1.0));
        add(format!("{at}/continuous_w"), 1.0);
    }
    for id in keys("/electrical/circuits") {
        add(format!("/electrical/circuits/{id}/breaker_a"), 0.1);
    }
    for id in keys("/electrical/modes") {
        add(format!("/electrical/modes/{id}/limits_a/shore"), 0.1);
    }
    add("/battery/max_discharge_a".to_owned(), 0.1);
    limits
}

fn all_sets_are_known(together: &Together) -> bool {
    together.exact && together.conflict_count <= MOST_LISTED
}

fn holds(set: &[usize], part: &[usize]) -> bool {
    part.iter().all(|load| set.contains(load))
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn a_lower_limit_never_adds_a_set_that_may_run(
        document in wired_build(20),
        which in prop::collection::vec(any::<Index>(), 1..=6),
        part in 0.1..1.0_f64,
    ) {
        let mut looser = document;
        // Where an inverter does not say, its idle draw goes by its power.
        if let Some(inverter) = looser.pointer_mut("/electrical/sources/inverter") {
            inverter["idle_w"] = json!(20);
        }
        let mut tighter = looser.clone();
        let limits = limits(&looser);
        for which in which.iter().filter(|_| !limits.is_empty()) {
            let (place, least) = which.get(&limits);
            let limit = tighter.pointer_mut(place).unwrap();
            *limit = json!((limit.as_f64().unwrap() * part).max(*least));
        }
        side_by_side(&looser, &tighter, |wiring, looser, tighter| {
            let (looser, tighter) = (&looser.together, &tighter.together);
            if !all_sets_are_known(looser) || !all_sets_are_known(tighter) {
                return Ok(());
            }
            for conflict in &looser.conflicts {
                let held = tighter.conflicts.iter().any(|part| holds(conflict, part));
                prop_assert!(held, "{conflict:?} is no conflict any more: {:?}", tighter.conflicts);
            }
            for set in &tighter.largest {
                let runs = |load: &usize| tighter.unrestricted[*load] || set.contains(load);
                let with_the_rest: Vec<usize> = (0..wiring.loads.len()).filter(runs).collect();
                prop_assert!(!looser.conflicts.iter().any(|conflict| holds(&with_the_rest, conflict)));
            }
            Ok(())
        })?;
    }

    #[test]
    fn loads_that_pass_a_source_together_are_not_free_to_run_together(document in wired_build(20)) {
        worked(&document, |wiring, numbers| {
            for (switching, mode) in wiring.modes.iter().zip(&numbers.modes) {
                for (source, gives) in mode.flow.sources.iter().enumerate() {
                    let Some(gives) = gives.filter(|_| wiring.sources[source].is_ac()) else { continue };
                    let fed = |circuit: &usize| switching.feeds[*circuit] == Some(source);
                    // What passes a cord counts at its own source.
                    let plain = |circuit: usize| wiring.circuits[circuit].feeds.is_empty();
                    if !(0..wiring.circuits.len()).filter(fed).all(plain) {
                        continue;
                    }
                    if let Some(limit_a) = mode.ratings[source].limit_a {
                        let passed = gives.legs.iter().any(|leg| over(leg.current_a, limit_a * (1.0 + 1e-9)));
                        prop_assert!(!passed || mode.together.conflict_count > 0);
                    }
                }
            }
            Ok(())
        })?;
    }
}

fn currents_add_up(wiring: &Wiring, numbers: &Numbers) -> Outcome {
    for (switching, mode) in wiring.modes.iter().zip(&numbers.modes) {
        let flow = &mode.flow;
        let input_a = |source: usize| {
            flow.sources[source].map_or(0.0, |gives| match gives.rated_input_w {
                rated_w if rated_w > 0.0 => rated_w / wiring.sources[source].cutoff_v,
                _ => gives.drawn.current_a,
            })
        };
        for (circuit, line) in wiring.circuits.iter().enumerate() {
            for &load in &line.loads {
                prop_assert!(!flow.powered[load] || flow.circuits[circuit].is_some());
            }
            let Some(carried) = flow.circuits[circuit] else {
                prop_assert!(line.loads.iter().all(|&load| flow.loads[load].current_a == 0.0));
                continue;
            };
            let split = wiring.sources[carried.source].split;
            for (side, leg) in [Leg::A, Leg::B].into_iter().zip(carried.legs) {
                let here = is_on(wiring.leg(circuit).filter(|_| split), side);
                let loads_a: f64 = line.loads.iter().map(|&load| flow.loads[load].current_a).sum();
                let inputs_a: f64 = line.feeds.iter().map(|&source| input_a(source)).sum();
                let own_a = if here { loads_a + inputs_a } else { 0.0 };
                let of_branch = |&branch: &usize| flow.circuits[branch];
                let branches_a: f64 = (line.branches.iter().filter_map(of_branch))
                    .map(|branch| branch.legs[usize::from(side == Leg::B)].current_a)
                    .sum();
                prop_assert!(close(leg.current_a, own_a + branches_a));
            }
            let heavier_a = carried.legs[0].current_a.max(carried.legs[1].current_a);
            prop_assert_eq!(carried.drawn.current_a, heavier_a);
        }
        for (source, supply) in wiring.sources.iter().enumerate() {
            let fed =
                || (0..wiring.circuits.len()).filter(|&circuit| switching.feeds[circuit] == Some(source));
            let first = || fed().filter(|&circuit| wiring.circuits[circuit].feeder.is_none());
            let legs = flow.sources[source].unwrap_or_default().legs;
            let uncabled =
                || (0..wiring.sources.len()).filter(|&other| wiring.sources[other].battery == Some(source));
            for side in [0, 1] {
                let of_circuits_a: f64 = first()
                    .filter_map(|circuit| flow.circuits[circuit])
                    .map(|c| c.legs[side].current_a)
                    .sum();
                let uncabled_a: f64 = uncabled().map(input_a).sum();
                let inputs_a = if side == 0 { uncabled_a } else { 0.0 };
                prop_assert!(close(legs[side].current_a, of_circuits_a + inputs_a));
            }
            let power_w = |circuit: usize| -> f64 {
                wiring.circuits[circuit].loads.iter().map(|&load| flow.loads[load].power_w).sum()
            };
            let of_loads_w: f64 = fed().map(power_w).sum();
            if fed().all(|circuit| wiring.circuits[circuit].feeds.is_empty()) && uncabled().next().is_none() {
                prop_assert!(close(legs[0].power_w + legs[1].power_w, of_loads_w));
                if let Some(gives) =
                    flow.sources[source].filter(|_| supply.source.kind == SourceKind::Inverter)
                {
                    let (idle_w, efficiency) = inverter_losses(supply.source);
                    prop_assert!(close(gives.input_w, idle_w + of_loads_w / efficiency));
                    prop_assert!(close(gives.input_a, gives.input_w / supply.cutoff_v));
                }
            }
        }
    }
    Ok(())
}

/// Figures that cannot be below nothing.
fn all_are_sound(figures: impl IntoIterator<Item = f64>) -> bool {
    figures.into_iter().all(|figure| figure.is_finite() && figure >= 0.0)
}

fn is_sound(drawn: &Drawn) -> bool {
    let Drawn { current_a, continuous_a, motor_a, power_w, phasor } = *drawn;
    all_are_sound([current_a, continuous_a, motor_a, power_w, phasor.in_phase_a, phasor.lagging_a])
        && continuous_a <= current_a * (1.0 + 1e-9)
        && motor_a <= current_a * (1.0 + 1e-9)
        && phasor.magnitude_a() <= current_a * (1.0 + 1e-9)
        && drawn.required_a() >= current_a * (1.0 - 1e-9)
}

fn everything_is_sound(wiring: &Wiring, numbers: &Numbers) -> Outcome {
    for mode in &numbers.modes {
        let flow = &mode.flow;
        prop_assert!(flow.loads.iter().all(is_sound));
        for (line, carried) in wiring.circuits.iter().zip(&flow.circuits) {
            let Some(carried) = carried else { continue };
            prop_assert!(is_sound(&carried.drawn) && carried.voltage_v > 0.0);
            if line.loads.is_empty() && line.branches.is_empty() && line.feeds.is_empty() {
                prop_assert_eq!(carried.drawn, Drawn::default());
            }
        }
        for gives in flow.sources.iter().flatten() {
            prop_assert!(gives.legs.iter().chain([&gives.drawn]).all(is_sound));
            prop_assert!(all_are_sound([gives.input_w, gives.input_a, gives.rated_input_w, gives.start_va]));
        }
        for sizing in conductors(mode).flatten() {
            let figures = [sizing.ampacity_a, sizing.drop_v, sizing.device_a];
            prop_assert!(all_are_sound(figures.into_iter().flatten()));
            prop_assert!(all_are_sound([sizing.way.ohm, sizing.way.reactance_ohm]));
        }
        prop_assert!(all_are_sound(mode.faults_a.iter().flatten().copied()));
        prop_assert!(all_are_sound(mode.ratings.iter().filter_map(|rating| rating.limit_a)));
        let voltages = &mode.voltages;
        prop_assert!(all_are_sound(voltages.bus_v.iter().chain(&voltages.arriving_v).flatten().copied()));
        for hour in mode.demands.iter().flatten().flat_map(|demand| demand.hours) {
            prop_assert!(all_are_sound([hour.expected_a, hour.peak_a]));
            prop_assert!(hour.expected_a <= hour.peak_a * (1.0 + 1e-9));
            prop_assert!(hour.risk.is_none_or(|risk| (0.0..=1.0).contains(&risk)));
        }
    }
    Ok(())
}

/// A battery's power is that of what hangs on it and of what is lost on the way.
fn power_is_conserved(wiring: &Wiring, numbers: &Numbers) -> Outcome {
    for (switching, mode) in wiring.modes.iter().zip(&numbers.modes) {
        for (source, supply) in wiring.sources.iter().enumerate() {
            let Some(bus_v) = mode.voltages.bus_v[source].filter(|_| !supply.is_ac()) else { continue };
            let source_v = supply.source.voltage_v;
            let own = |circuit: usize| {
                let (line, end_v) = (&wiring.circuits[circuit], mode.voltages.arriving_v[circuit].unwrap());
                let of_load = |&load: &usize| match (wiring.loads[load].kind, mode.flow.loads[load]) {
                    (LoadKind::Resistive, drawn) => drawn.power_w * (end_v / source_v).powi(2),
                    (_, drawn) => drawn.power_w,
                };
                let below = line.feeds.iter().filter_map(|&source| mode.flow.sources[source]);
                let below_w: f64 = below.map(|gives| gives.taken_w()).sum();
                let power_w = line.loads.iter().map(of_load).sum::<f64>() + below_w;
                (power_w, power_w / end_v)
            };
            let lost_w = |circuit: usize, current_a: f64| {
                current_a * current_a * mode.sizings[circuit].unwrap().way.ohm
            };
            let (mut used_w, mut given_a) = (0.0, 0.0);
            let fed = |circuit: &usize| {
                switching.feeds[*circuit] == Some(source) && mode.flow.circuits[*circuit].is_some()
            };
            for first in
                (0..wiring.circuits.len()).filter(fed).filter(|&i| wiring.circuits[i].feeder.is_none())
            {
                let (own_w, mut cable_a) = own(first);
                used_w += own_w;
                for branch in wiring.circuits[first].branches.iter().copied().filter(fed) {
                    let (branch_w, branch_a) = own(branch);
                    used_w += branch_w + lost_w(branch, branch_a);
                    cable_a += branch_a;
                }
                used_w += lost_w(first, cable_a);
                given_a += cable_a;
            }
            let on_bus = wiring
                .sources
                .iter()
                .zip(&mode.flow.sources)
                .filter(|(other, _)| other.battery == Some(source));
            let uncabled_w: f64 = on_bus.filter_map(|(_, taken)| *taken).map(|taken| taken.taken_w()).sum();
            used_w += uncabled_w;
            given_a += uncabled_w / bus_v;
            let ohm = wiring.battery.map_or(0.0, |battery| battery.ohm)
                + mode.leads[source].map_or(0.0, |lead| lead.way.ohm);
            used_w += given_a * given_a * ohm;
            prop_assert!(
                close(source_v * given_a, used_w),
                "{} W given, {used_w} W used",
                source_v * given_a
            );
            prop_assert!(close(bus_v, source_v - given_a * ohm));
        }
    }
    Ok(())
}

/// Along the way from a source to a load voltage is only lost, taken as a share of what the circuit is made for.
/// Opposite legs on one neutral are set aside: the less loaded one rises.
fn voltage_only_falls(wiring: &Wiring, numbers: &Numbers) -> Outcome {
    for mode in &numbers.modes {
        for (source, supply) in wiring.sources.iter().enumerate().filter(|(_, supply)| !supply.split) {
            let bus_v = mode.voltages.bus_v[source];
            prop_assert!(bus_v.is_none_or(|bus_v| bus_v <= supply.source.voltage_v * (1.0 + 1e-12)));
        }
        for (circuit, line) in wiring.circuits.iter().enumerate() {
            let share = |circuit: usize| {
                Some(mode.voltages.arriving_v[circuit]? / mode.flow.circuits[circuit]?.voltage_v)
            };
            let Some(arriving) = share(circuit) else { continue };
            let carried = mode.flow.circuits[circuit].unwrap();
            let from = match line.feeder {
                Some(feeder) => share(feeder),
                None if wiring.sources[carried.source].split => continue,
                None => mode.voltages.bus_v[carried.source].map(|bus_v| bus_v / carried.voltage_v),
            };
            prop_assert!(
                from.is_some_and(|from| arriving <= from * (1.0 + 1e-12)),
                "{from:?}, then {arriving}"
            );
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(250))]

    #[test]
    fn currents_and_powers_of_a_mode_add_up(document in wired_build(20)) {
        worked(&document, currents_add_up)?;
    }

    #[test]
    fn no_figure_is_below_nothing(document in wired_build(20)) {
        worked(&document, everything_is_sound)?;
    }

    #[test]
    fn a_battery_gives_what_loads_take_and_wires_lose(document in wired_build(20)) {
        worked(&document, power_is_conserved)?;
    }

    #[test]
    fn voltage_only_falls_on_its_way(document in wired_build(20)) {
        worked(&document, voltage_only_falls)?;
    }

    #[test]
    fn one_more_load_never_raises_a_voltage(
        document in wired_build(20),
        circuit in any::<Index>(),
        watts in 1..=300_u32,
    ) {
        // A wire that is still to be chosen would grow with its load.
        let document = sized(&document, Size::AWG_8, false);
        let mut more = document.clone();
        let circuit = circuit.index(document["electrical"]["circuits"].as_object().unwrap().len());
        more["parts"]["one_more"] =
            json!({"mass_lb": 1, "electrical": {"circuit": format!("circuit{circuit}"), "power_w": watts}});
        side_by_side(&document, &more, |wiring, mode, more| {
            let never_raised = |before: Option<f64>, after: Option<f64>| {
                after.is_none_or(|after| before.is_some_and(|before| after <= before * (1.0 + 1e-12)))
            };
            for (source, supply) in wiring.sources.iter().enumerate() {
                let [before, after] = [mode, more].map(|mode| mode.voltages.bus_v[source]);
                prop_assert!(supply.split || never_raised(before, after));
            }
            for (circuit, carried) in mode.flow.circuits.iter().enumerate() {
                let split = carried.is_none_or(|carried| wiring.sources[carried.source].split);
                let [before, after] = [mode, more].map(|mode| mode.voltages.arriving_v[circuit]);
                prop_assert!(split || never_raised(before, after), "{before:?}, then {after:?}");
            }
            Ok(())
        })?;
    }
}

/// The document with every circuit on the other leg.
fn other_legs(document: &Value) -> Value {
    let mut other = document.clone();
    let circuits = &document["electrical"]["circuits"];
    for (id, circuit) in other["electrical"]["circuits"].as_object_mut().unwrap() {
        let feeder = circuits[id]["feeder"].as_str().map(|feeder| circuits[feeder]["leg"].as_str());
        let leg = match (circuit["leg"].as_str(), feeder) {
            (Some("both"), _) => "both",
            (Some("b"), _) => "a",
            // Left out: its feeder's, or the first.
            (None, Some(leg)) if leg != Some("both") => continue,
            _ => "b",
        };
        circuit["leg"] = json!(leg);
    }
    other
}

proptest! {
    #![proptest_config(cases(150))]

    #[test]
    fn legs_that_change_places_change_their_figures_and_no_others(document in wired_build(20)) {
        side_by_side(&document, &other_legs(&document), |wiring, mode, other| {
            let (flow, other_flow) = (&mode.flow, &other.flow);
            prop_assert_eq!(&flow.loads, &other_flow.loads);
            prop_assert_eq!(&flow.powered, &other_flow.powered);
            let drawn = |mode: &ModeNumbers| {
                let each = mode.flow.circuits.iter().flatten();
                each.map(|carried| (carried.source, carried.voltage_v, carried.drawn)).collect::<Vec<_>>()
            };
            prop_assert_eq!(drawn(mode), drawn(other));
            for (source, supply) in wiring.sources.iter().enumerate() {
                let (Some(gives), Some(others)) = (flow.sources[source], other_flow.sources[source]) else {
                    prop_assert_eq!(flow.sources[source].is_some(), other_flow.sources[source].is_some());
                    continue;
                };
                let [a, b] = others.legs;
                prop_assert_eq!(gives.legs, if supply.split { [b, a] } else { [a, b] });
                prop_assert_eq!(gives.drawn.current_a, others.drawn.current_a);
                prop_assert_eq!(
                    (gives.input_w, gives.input_a, gives.rated_input_w, gives.start_va, gives.starter),
                    (others.input_w, others.input_a, others.rated_input_w, others.start_va, others.starter),
                );
                match (mode.voltages.legs[source], other.voltages.legs[source]) {
                    (Some(legs), Some(others)) => {
                        prop_assert_eq!([legs.a_v, legs.a_a], [-others.b_v, -others.b_a]);
                        prop_assert_eq!([legs.b_v, legs.b_a], [-others.a_v, -others.a_a]);
                        prop_assert_eq!(legs.neutral_a, -others.neutral_a);
                    }
                    (legs, others) => prop_assert_eq!(legs, others),
                }
                if !supply.split {
                    prop_assert_eq!(mode.voltages.bus_v[source], other.voltages.bus_v[source]);
                }
            }
            prop_assert_eq!(&mode.voltages.arriving_v, &other.voltages.arriving_v);
            prop_assert_eq!(&mode.ratings, &other.ratings);
            prop_assert_eq!((&mode.sizings, &mode.leads), (&other.sizings, &other.leads));
            prop_assert_eq!(&mode.faults_a, &other.faults_a);
            prop_assert_eq!(&mode.demands, &other.demands);
            prop_assert_eq!(&mode.together, &other.together);
            prop_assert_eq!(&mode.loops, &other.loops);
            Ok(())
        })?;
    }
}
