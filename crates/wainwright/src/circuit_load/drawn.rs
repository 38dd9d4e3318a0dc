//! What loads, circuits and sources carry in a mode.

use super::current::{self, Phasor};
use super::defaults;
use super::energized::{depth, is_live};
use super::inverter::{self, Losses};
use super::starting;
use super::wiring::{Index, Load, Switching, Wiring, is_on};
use crate::build::{Leg, LoadKind, SourceKind};
use crate::standards::motor;
use crate::units::W_PER_HP;

/// Efficiency of a small motor fed with direct current whose shaft power is given. Common practice.
const DC_MOTOR_EFFICIENCY: f64 = 0.6;

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

    fn add(&mut self, other: &Drawn) {
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
        None => defaults::power_factor(load.kind),
    };
    load.draw.power_factor.unwrap_or(default)
}

/// What a load draws at a supply voltage [V], with all there are of it.
pub fn load(load: &Load, supply_v: f64, alternating: bool) -> Drawn {
    let factor = if alternating { power_factor(load) } else { 1.0 };
    let draw = load.draw;
    let one_a = if let Some(current_a) = draw.current_a {
        current_a
    } else if let Some(power_w) = draw.power_w {
        match load.kind {
            LoadKind::Resistive => {
                current::resistive_a(power_w, draw.rated_v.unwrap_or(supply_v), supply_v) / factor
            }
            _ => current::power_factor_a(power_w, supply_v, factor),
        }
    } else if let Some(horsepower) = draw.horsepower {
        let table_a = if alternating { motor::full_load_a(horsepower, supply_v) } else { None };
        table_a.unwrap_or(horsepower * W_PER_HP / DC_MOTOR_EFFICIENCY / supply_v)
    } else {
        let input_w = draw.charger.as_ref().map_or(0.0, defaults::charger_input_w);
        current::power_factor_a(input_w, supply_v, factor)
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

/// Starting current of a load as a multiple of its running current.
pub fn inrush_multiple(load: &Load, alternating: bool) -> f64 {
    load.draw.inrush_multiple.unwrap_or(defaults::inrush_multiple(load.kind, alternating))
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
#[derive(Debug, Clone, Copy)]
pub struct CircuitFlow {
    /// The source that feeds it.
    pub source: Index,
    /// Voltage of that source across its loads [V].
    pub voltage_v: f64,
    /// What it carries.
    pub drawn: Drawn,
}

/// What a source gives.
#[derive(Debug, Clone, Copy, Default)]
pub struct SourceFlow {
    /// Leg by leg; all on the first where there is one leg, or both are in phase.
    pub legs: [Drawn; 2],
    /// What flows in the more loaded leg, or in the only one.
    pub drawn: Drawn,
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
            let leg = wiring.circuits[circuit].circuit.leg.filter(|_| supply.split);
            // Across both legs the same current flows in each, and each gives half the power.
            let share = if leg == Some(Leg::Both) { 0.5 } else { 1.0 };
            let of_leg = Drawn { power_w: share * carried.drawn.power_w, ..carried.drawn };
            for (side, total) in [Leg::A, Leg::B].into_iter().zip(&mut gives.legs) {
                if is_on(leg, side) {
                    total.add(&of_leg);
                }
            }
        }
        if !feeds_any {
            return;
        }
        let [a, b] = gives.legs;
        gives.drawn = if b.current_a > a.current_a { b } else { a };
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

    fn add_circuit(&mut self, wiring: &Wiring, circuit: Index, source: Index) {
        let (line, supply) = (&wiring.circuits[circuit], &wiring.sources[source]);
        let both = line.circuit.leg == Some(Leg::Both);
        // A load across both legs is dead where there is no voltage between them; what branches off one leg is not.
        let dead = both && !supply.split;
        if dead && line.branches.is_empty() {
            return;
        }
        let voltage_v = supply.source.voltage_v * if both && supply.split { 2.0 } else { 1.0 };
        let mut drawn = Drawn::default();
        for &index in line.loads.iter().filter(|_| !dead) {
            let of_load = load(&wiring.loads[index], voltage_v, supply.is_ac());
            self.loads[index] = of_load;
            self.powered[index] = true;
            drawn.add(&of_load);
        }
        for &branch in &line.branches {
            if let Some(carried) = &self.circuits[branch] {
                drawn.add(&carried.drawn);
            }
        }
        if let Some(below) = line.feeds
            && let Some(gives) = &self.sources[below]
        {
            drawn.add(&input(gives, wiring.sources[below].cutoff_v, voltage_v));
        }
        self.circuits[circuit] = Some(CircuitFlow { source, voltage_v, drawn });
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
