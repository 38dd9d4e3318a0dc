//! What loads, circuits and sources carry in a mode.

use super::current::{self, Phasor};
use super::defaults;
use super::energized::{depth, is_live, upstream};
use super::inverter::{self, Losses};
use super::starting;
use super::wiring::{Index, Load, Switching, Wiring};
use crate::build::{Leg, LoadKind, SourceKind};
use crate::drawn_power::{CHARGER_EFFICIENCY, running_w, usual_power_factor};
use crate::standards::motor;

/// What something carries with all its loads on.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Drawn {
    /// Current, loads added up without regard to phase [A].
    pub current_a: f64,
    /// The part of it that flows for three hours and more [A].
    pub continuous_a: f64,
    /// The greatest motor that is not continuous [A].
    pub motor_a: f64,
    /// Power [W].
    pub power_w: f64,
    /// Currents added up with regard to phase.
    pub phasor: Phasor,
}

impl Drawn {
    /// What conductor and device must be made for [A]: all, and a quarter more of what is continuous and of the
    /// greatest motor (NEC 210.19(A)(1), 210.20(A), 430.24).
    pub fn required_a(&self) -> f64 {
        let raised_a = self.continuous_a + self.motor_a;
        current::required_a(self.current_a - raised_a, raised_a)
    }

    /// Takes another's currents on top.
    pub fn add(&mut self, other: &Drawn) {
        self.current_a += other.current_a;
        self.continuous_a += other.continuous_a;
        self.motor_a = self.motor_a.max(other.motor_a);
        self.power_w += other.power_w;
        self.phasor = self.phasor + other.phasor;
    }
}

/// Power factor of a load on alternating current.
pub fn power_factor(load: &Load) -> f64 {
    let default = match load.draw.charger {
        Some(_) => defaults::CHARGER_POWER_FACTOR,
        None => usual_power_factor(load.kind),
    };
    load.draw.power_factor.unwrap_or(default)
}

/// What a load draws at a supply voltage [V], with all there are of it.
pub fn load(load: &Load, supply_v: f64, alternating: bool) -> Drawn {
    let factor = if alternating { power_factor(load) } else { 1.0 };
    let draw = load.draw;
    let stated_w = running_w(draw, supply_v, alternating);
    let one_a = match &draw.charger {
        Some(charger) if stated_w == 0.0 => {
            let output_v = charger.output_v.unwrap_or(load.charger_v);
            let efficiency = charger.efficiency.unwrap_or(CHARGER_EFFICIENCY);
            current::charger_a(output_v, charger.output_a, efficiency, factor, supply_v)
        }
        _ => current::power_factor_a(stated_w, supply_v, factor),
    };
    let current_a = one_a * load.quantity;
    let is_motor = matches!(load.kind, LoadKind::Motor | LoadKind::RoomAirConditioner);
    Drawn {
        current_a,
        continuous_a: if load.continuous { current_a } else { 0.0 },
        motor_a: if is_motor && !load.continuous { one_a.min(current_a) } else { 0.0 },
        power_w: current_a * supply_v * factor,
        phasor: Phasor::of(current_a, factor),
    }
}

/// Starting current of a load as a multiple of its running current, all there are of it running.
pub fn inrush_multiple(load: &Load, alternating: bool) -> f64 {
    let usual = || match load.draw.horsepower {
        Some(horsepower) if alternating => motor::starting_multiple(horsepower, load.draw.code_letter),
        _ => defaults::inrush_multiple(load.kind, alternating),
    };
    // Of several of the same only one starts at a time.
    1.0 + (load.draw.inrush_multiple.unwrap_or_else(usual) - 1.0) / load.quantity
}

/// Everything that flows in one mode.
#[derive(Debug, Clone)]
pub struct Flow {
    /// Each load; nothing where it is without power.
    pub loads: Vec<Drawn>,
    /// Is the load powered?
    pub powered: Vec<bool>,
    /// Each circuit, what branches off it included; `None` where nothing feeds it.
    pub circuits: Vec<Option<CircuitFlow>>,
    /// Each source that feeds a circuit.
    pub sources: Vec<Option<SourceFlow>>,
}

/// What a circuit carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CircuitFlow {
    /// The source that feeds it.
    pub source: Index,
    /// Voltage of that source across its loads [V].
    pub voltage_v: f64,
    /// What it carries on each leg of a supply in opposite phase; all on the first elsewhere.
    pub legs: [Drawn; 2],
    /// What flows in the more loaded leg, or in the only one, with the power of both.
    pub drawn: Drawn,
}

/// What a source gives.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SourceFlow {
    /// Leg by leg; all on the first where there is one leg, or both are in phase.
    pub legs: [Drawn; 2],
    /// What flows in the more loaded leg, or in the only one.
    pub drawn: Drawn,
    /// What it gives with everything on, its inverters at what their own loads take; `drawn` has them at their rated
    /// output, for which their cables are made.
    pub actual: Drawn,
    /// Power it takes in with that output (inverter) [W].
    pub input_w: f64,
    /// Current it takes in at its cut-off voltage with that output [A].
    pub input_a: f64,
    /// Power it takes in with its rated output, for which its cable is made [W].
    pub rated_input_w: f64,
    /// Greatest starting demand: one load starts, all others run [VA].
    pub start_va: f64,
    /// The load that starts then.
    pub starter: Option<Index>,
}

/// What flows in a mode with every load on.
pub fn flow(wiring: &Wiring, mode: &Switching) -> Flow {
    let mut flow = Flow {
        loads: vec![Drawn::default(); wiring.loads.len()],
        powered: vec![false; wiring.loads.len()],
        circuits: vec![None; wiring.circuits.len()],
        sources: vec![None; wiring.sources.len()],
    };
    let mut order: Vec<Index> = (0..wiring.sources.len()).filter(|&s| is_live(wiring, mode, s)).collect();
    order.sort_by_key(|&source| std::cmp::Reverse(depth(wiring, mode, source)));
    for source in order {
        flow.add_source(wiring, mode, source);
    }
    flow
}

impl Flow {
    /// Works out one source; those that feed on it are done.
    fn add_source(&mut self, wiring: &Wiring, mode: &Switching, source: Index) {
        let fed = || (0..wiring.circuits.len()).filter(|&circuit| mode.feeds[circuit] == Some(source));
        // What branches off a feeder comes before the feeder.
        for branches in [true, false] {
            for circuit in fed().filter(|&circuit| wiring.circuits[circuit].feeder.is_some() == branches) {
                self.add_circuit(wiring, circuit, source);
            }
        }
        let supply = &wiring.sources[source];
        let mut gives = SourceFlow::default();
        let mut feeds_any = false;
        for circuit in fed().filter(|&circuit| wiring.circuits[circuit].feeder.is_none()) {
            let Some(carried) = &self.circuits[circuit] else { continue };
            feeds_any = true;
            gives.add(&carried.legs);
        }
        // An inverter whose cable is not among the circuits feeds on the battery all the same.
        for (below, other) in wiring.sources.iter().enumerate() {
            if let Some(taken) = self.sources[below].filter(|_| other.battery == Some(source)) {
                feeds_any = true;
                gives.add(&[input(&taken, other.cutoff_v, supply.source.voltage_v), Drawn::default()]);
            }
        }
        if !feeds_any {
            return;
        }
        let [a, b] = gives.legs;
        gives.drawn = heavier(&gives.legs);
        gives.actual = self.actual(wiring, mode, source).unwrap_or(gives.drawn);
        self.add_start(wiring, mode, source, &mut gives);
        if supply.source.kind == SourceKind::Inverter {
            let (idle_w, efficiency) = defaults::inverter_losses(supply.source);
            let losses = Losses::from_efficiency(idle_w, efficiency);
            gives.input_w = inverter::input_w(&losses, a.power_w + b.power_w);
            gives.input_a = inverter::input_a(&losses, a.power_w + b.power_w, supply.cutoff_v);
            let rated_w = supply.source.continuous_w.unwrap_or(a.power_w + b.power_w);
            gives.rated_input_w = inverter::input_w(&losses, rated_w);
        }
        self.sources[source] = Some(gives);
    }

    /// What a battery gives to its own loads and to its inverters; none for other sources.
    fn actual(&self, wiring: &Wiring, mode: &Switching, source: Index) -> Option<Drawn> {
        if wiring.sources[source].is_ac() {
            return None;
        }
        let mut actual = Drawn::default();
        let own =
            |load: &Index| self.powered[*load] && mode.feeds[wiring.loads[*load].circuit] == Some(source);
        (0..wiring.loads.len()).filter(own).for_each(|load| actual.add(&self.loads[load]));
        let feeds_on_it = |below: &Index| upstream(wiring, mode, *below) == Some(source);
        for gives in (0..wiring.sources.len()).filter(feeds_on_it).filter_map(|below| self.sources[below]) {
            let continuous_w =
                |leg: &Drawn| leg.power_w * leg.continuous_a / leg.current_a.max(f64::MIN_POSITIVE);
            let output_w: f64 = gives.legs.iter().map(|leg| leg.power_w).sum();
            let for_hours =
                gives.legs.iter().map(continuous_w).sum::<f64>() / output_w.max(f64::MIN_POSITIVE);
            actual.add(&Drawn {
                current_a: gives.input_a,
                continuous_a: for_hours * gives.input_a,
                motor_a: 0.0,
                power_w: gives.input_w,
                phasor: Phasor::of(gives.input_a, 1.0),
            });
        }
        Some(actual)
    }

    fn add_circuit(&mut self, wiring: &Wiring, circuit: Index, source: Index) {
        let (line, supply) = (&wiring.circuits[circuit], &wiring.sources[source]);
        let both = line.circuit.leg == Some(Leg::Both);
        // A load across both legs is dead where there is no voltage between them; what branches off one leg is not.
        let dead = both && !supply.split;
        if dead && line.branches.is_empty() {
            return;
        }
        let voltage_v = supply.source.voltage_v * if both && supply.split { 2.0 } else { 1.0 };
        let mut legs = [Drawn::default(); 2];
        // Across both legs the same current flows in each, and each gives half the power.
        let (sides, share): (&[usize], f64) = match wiring.leg(circuit).filter(|_| supply.split) {
            Some(Leg::Both) => (&[0, 1], 0.5),
            Some(Leg::B) => (&[1], 1.0),
            _ => (&[0], 1.0),
        };
        let mut add = |drawn: Drawn| {
            for &side in sides {
                legs[side].add(&Drawn { power_w: share * drawn.power_w, ..drawn });
            }
        };
        for &index in line.loads.iter().filter(|_| !dead) {
            let of_load = load(&wiring.loads[index], voltage_v, supply.is_ac());
            self.loads[index] = of_load;
            self.powered[index] = true;
            add(of_load);
        }
        for &below in &line.feeds {
            if let Some(gives) = &self.sources[below] {
                add(input(gives, wiring.sources[below].cutoff_v, voltage_v));
            }
        }
        for carried in line.branches.iter().filter_map(|&branch| self.circuits[branch].as_ref()) {
            legs.iter_mut().zip(&carried.legs).for_each(|(leg, of_branch)| leg.add(of_branch));
        }
        let drawn = Drawn { power_w: legs[0].power_w + legs[1].power_w, ..heavier(&legs) };
        self.circuits[circuit] = Some(CircuitFlow { source, voltage_v, legs, drawn });
    }

    fn add_start(&self, wiring: &Wiring, mode: &Switching, source: Index, gives: &mut SourceFlow) {
        let supply = &wiring.sources[source];
        let on_it =
            |index: &Index| self.powered[*index] && mode.feeds[wiring.loads[*index].circuit] == Some(source);
        let loads = (0..wiring.loads.len()).filter(on_it);
        let va = |index: Index| {
            let circuit = wiring.loads[index].circuit;
            let volts = self.circuits[circuit].as_ref().map_or(supply.source.voltage_v, |c| c.voltage_v);
            let multiple = inrush_multiple(&wiring.loads[index], supply.is_ac());
            (self.loads[index].current_a * volts, multiple)
        };
        let (start_va, starter) = starting::worst_start(loads.clone().map(va));
        gives.start_va = start_va;
        gives.starter = starter.and_then(|place| loads.clone().nth(place));
    }
}

impl SourceFlow {
    /// Power it takes from what feeds it: an inverter what its rated output takes, a cord what flows in it [W].
    pub fn taken_w(&self) -> f64 {
        if self.rated_input_w > 0.0 {
            self.rated_input_w
        } else {
            self.legs[0].power_w + self.legs[1].power_w
        }
    }

    fn add(&mut self, legs: &[Drawn; 2]) {
        self.legs.iter_mut().zip(legs).for_each(|(leg, more)| leg.add(more));
    }
}

/// The leg that carries more.
fn heavier(legs: &[Drawn; 2]) -> Drawn {
    if legs[1].current_a > legs[0].current_a { legs[1] } else { legs[0] }
}

/// What a source takes from the circuit that feeds it: an inverter what its rated output takes at the voltage at which
/// it shuts off, a cord what flows in it.
fn input(gives: &SourceFlow, cutoff_v: f64, voltage_v: f64) -> Drawn {
    let (current_a, power_w) = if gives.rated_input_w > 0.0 {
        (gives.rated_input_w / cutoff_v, gives.rated_input_w)
    } else {
        (gives.drawn.current_a, gives.drawn.current_a * voltage_v)
    };
    let phasor = Phasor::of(current_a, 1.0);
    Drawn { current_a, continuous_a: current_a, motor_a: 0.0, power_w, phasor }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::fixture::{sources, wired};
    use super::*;
    use crate::build::Build;
    use crate::units::W_PER_HP;

    fn flow_of(build: &Build, mode: usize) -> Flow {
        let wiring = Wiring::of(build).unwrap();
        flow(&wiring, &wiring.modes[mode])
    }

    /// What one load on a 120 V, or a 12 V, circuit draws.
    fn drawn(draw: Value, direct: bool) -> Drawn {
        let mut draw = draw;
        draw["circuit"] = json!("one");
        let source = if direct { "battery" } else { "shore" };
        let circuits = json!({"one": {}, "cable": {}});
        let modes = json!({"only": {"feeds": {"one": source}}});
        let build = wired(sources(), circuits, modes, json!({"load": draw}));
        flow_of(&build, 0).loads[0]
    }

    fn close(a: f64, b: f64) -> bool {
        (a - b).abs() <= 1e-12 * b.abs()
    }

    #[test]
    fn power_goes_by_power_factor_and_a_resistance_by_the_voltage_it_gets() {
        assert!(close(drawn(json!({"power_w": 455, "power_factor": 0.95}), false).current_a, 455.0 / 114.0));
        let heater = json!({"power_w": 1500, "rated_v": 125, "kind": "resistive"});
        let heater = drawn(heater, false);
        assert!(close(heater.current_a, 12.0 * 120.0 / 125.0));
        assert!(close(heater.power_w, 12.0 * 120.0 / 125.0 * 120.0));
        assert!(close(drawn(json!({"power_w": 64}), true).current_a, 5.0));
    }

    #[test]
    fn a_general_motor_goes_by_the_codes_table_on_alternating_current_alone() {
        // NEC Table 430.248: half a horsepower at 115 V, 9.8 A.
        let motor = drawn(json!({"horsepower": 0.5, "kind": "motor"}), false);
        assert_eq!((motor.current_a, motor.motor_a, motor.continuous_a), (9.8, 9.8, 0.0));
        assert!(close(motor.required_a(), 12.25));
        let direct = drawn(json!({"horsepower": 0.1, "kind": "motor"}), true);
        assert!(close(direct.current_a, 0.1 * W_PER_HP / 0.6 / 12.8));
    }

    #[test]
    fn a_room_air_conditioner_takes_what_its_capacity_and_label_say() {
        // 5,000 Btu/h over 11.0 Btu/Wh, the least since 2014 (10 CFR 430.32(b), from memory): 454.5 W.
        let unit = json!({"capacity_btu_h": 5000, "kind": "room_air_conditioner", "power_factor": 0.9});
        assert_eq!(format!("{:.3}", drawn(unit.clone(), false).current_a), "4.209");
        let mut better = unit;
        better["ceer"] = json!(13.1);
        assert_eq!(format!("{:.3}", drawn(better, false).current_a), "3.534");
    }

    #[test]
    fn a_charger_takes_in_what_it_gives_and_loses() {
        let charger = json!({"power_factor": 0.98, "charger": {"output_a": 40, "efficiency": 0.85}});
        let drawn = drawn(charger, false);
        assert_eq!(format!("{:.4}", drawn.current_a), "5.5222");
        assert_eq!(drawn.continuous_a, drawn.current_a);
    }

    #[test]
    fn a_quarter_more_is_asked_for_what_is_continuous_and_for_the_greatest_motor() {
        let circuits = json!({"one": {}, "cable": {}});
        let modes = json!({"only": {"feeds": {"one": "shore"}}});
        let loads = json!({
            "lights": {"circuit": "one", "current_a": 2, "continuous": true},
            "saw": {"circuit": "one", "current_a": 8, "kind": "motor"},
            "fan": {"circuit": "one", "current_a": 1, "kind": "motor"},
            "radio": {"circuit": "one", "current_a": 1},
        });
        let build = wired(sources(), circuits, modes, loads);
        let circuit = flow_of(&build, 0).circuits[0].unwrap().drawn;
        assert_eq!((circuit.current_a, circuit.continuous_a, circuit.motor_a), (12.0, 2.0, 8.0));
        assert_eq!(circuit.required_a(), 12.0 + 0.25 * 10.0);
    }

    #[test]
    fn an_inverter_loads_its_cable_with_its_rated_output_and_only_while_it_feeds_something() {
        let circuits = json!({"outlets": {}, "cable": {}});
        let modes = json!({
            "plugged_in": {"feeds": {"outlets": "shore", "cable": "battery"}},
            "off_grid": {"feeds": {"outlets": "inverter", "cable": "battery"}},
            "cable_off": {"feeds": {"outlets": "inverter"}},
        });
        let build = wired(
            sources(),
            circuits,
            modes,
            json!({"kettle": {"circuit": "outlets", "power_w": 900, "power_factor": 1}}),
        );
        let plugged_in = flow_of(&build, 0);
        assert_eq!(plugged_in.circuits[1].unwrap().drawn.current_a, 0.0);
        let off_grid = flow_of(&build, 1);
        assert!(close(off_grid.circuits[1].unwrap().drawn.current_a, (1800.0 / 0.9 + 20.0) / 11.0));
        let inverter = off_grid.sources[1].unwrap();
        assert!(close(inverter.input_w, 1020.0) && close(inverter.input_a, 1020.0 / 11.0));
        assert!(close(off_grid.sources[2].unwrap().drawn.current_a, 2020.0 / 11.0));
        let dead = flow_of(&build, 2);
        assert_eq!((dead.powered[0], dead.sources[1], dead.circuits[0]), (false, None, None));
    }

    #[test]
    fn a_240_volt_load_is_on_both_legs_and_dead_where_they_are_in_phase() {
        let split = |in_phase: bool| {
            let sources = json!({"shore": {"kind": "shore", "voltage_v": 120, "rating_a": 50, "legs": 2, "in_phase": in_phase}});
            let circuits = json!({"range": {"leg": "both"}, "left": {"leg": "a"}, "right": {"leg": "b"}});
            let loads = json!({
                "range": {"circuit": "range", "power_w": 2400, "power_factor": 1},
                "heater": {"circuit": "left", "power_w": 1200, "power_factor": 1},
                "lamp": {"circuit": "right", "power_w": 120, "power_factor": 1},
            });
            let modes = json!({"on": {"feeds": {"range": "shore", "left": "shore", "right": "shore"}}});
            flow_of(&wired(sources, circuits, modes, loads), 0)
        };
        let opposite = split(false);
        assert_eq!(opposite.circuits[0].unwrap().voltage_v, 240.0);
        let [a, b] = opposite.sources[0].unwrap().legs;
        assert_eq!((a.current_a, b.current_a), (20.0, 11.0));
        assert_eq!(opposite.sources[0].unwrap().drawn.current_a, 20.0);
        let in_phase = split(true);
        assert_eq!((in_phase.powered[0], in_phase.circuits[0].is_some()), (false, false));
        assert_eq!(in_phase.sources[0].unwrap().drawn.current_a, 11.0);
    }

    #[test]
    fn a_feeder_carries_what_branches_off_it_and_the_battery_counts_it_once() {
        let circuits =
            json!({"block": {}, "lights": {"feeder": "block"}, "pump": {"feeder": "block"}, "cable": {}});
        let modes = json!({"on": {"feeds": {"block": "battery"}}});
        let loads = json!({"lights": {"circuit": "lights", "current_a": 2}, "pump": {"circuit": "pump", "current_a": 7},
            "alarm": {"circuit": "block", "current_a": 0.5}});
        let flow = flow_of(&wired(sources(), circuits, modes, loads), 0);
        assert_eq!(flow.circuits[0].unwrap().drawn.current_a, 9.5);
        assert_eq!(flow.sources[2].unwrap().drawn.current_a, 9.5);
    }

    #[test]
    fn one_load_starts_while_all_others_run() {
        let circuits = json!({"outlets": {}, "cable": {}});
        let modes = json!({"off_grid": {"feeds": {"outlets": "inverter", "cable": "battery"}}});
        let loads = json!({
            "cooler": {"circuit": "outlets", "current_a": 4.2, "inrush_multiple": 5},
            "rest": {"circuit": "outlets", "power_w": 160, "power_factor": 1},
        });
        let inverter = flow_of(&wired(sources(), circuits, modes, loads), 0).sources[1].unwrap();
        assert!(close(inverter.start_va, 2680.0), "{}", inverter.start_va);
        assert_eq!(inverter.starter, Some(0));
    }
}
