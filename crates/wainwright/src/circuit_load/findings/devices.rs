//! Breakers and fuses: place, interrupting rating, voltage, starts that may open them, and those of one appliance.

use super::circuit_in_mode::{CircuitInMode, in_modes};
use super::*;
use crate::build::{Battery, LoadKind};
use crate::circuit_load::defaults;
use crate::circuit_load::drawn::inrush_multiple;
use crate::circuit_load::wiring::Index;
use crate::report::{exceeds, figure};
use crate::standards::fuse::{Family, blade_opening_s, marine_interrupting_a};
use crate::standards::overcurrent;

/// Distances of a fuse from its source [in].
const GOOD_BARE_IN: f64 = 7.0;
const GOOD_SHEATHED_IN: f64 = 40.0;
const MOST_BARE_IN: f64 = 18.0;
const MOST_SHEATHED_IN: f64 = 72.0;
/// An appliance of this current or more on its own circuit limits its breaker (NEC 551.43, from memory) [A].
const LARGE_APPLIANCE_A: f64 = 13.3;
/// An inverse-time breaker may be so much above a motor's current (NEC 430.52, from memory).
const MOTOR_DEVICE: f64 = 2.5;
/// Motors of up to 6 A, to which 250 % would give less, may be on a circuit of this rating (NEC 430.53(A), from memory)
/// [A].
const SMALLEST_BRANCH_A: f64 = 20.0;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    interrupting(judged, findings);
    for (m, circuit) in in_modes(judged) {
        if circuit.alternating {
            large_appliance(judged, &circuit, m, findings);
            continue;
        }
        distance(&circuit, findings);
        if circuit.line.circuit.breaker_a.is_some() {
            voltage(judged, &circuit, findings);
            start(judged, m, &circuit, findings);
        }
    }
}

fn distance(circuit: &CircuitInMode, findings: &mut Findings) {
    let Some(distance_in) = circuit.line.circuit.device_distance_in else { return };
    let sheathed = circuit.line.wire.is_some_and(|wire| wire.sheathed);
    let (good_in, most_in) =
        if sheathed { (GOOD_SHEATHED_IN, MOST_SHEATHED_IN) } else { (GOOD_BARE_IN, MOST_BARE_IN) };
    let (rule, limit_in) = match distance_in {
        far if exceeds(far, most_in) => (&DEVICE_FAR_FROM_SOURCE, most_in),
        away if exceeds(away, good_in) => (&DEVICE_AWAY_FROM_SOURCE, good_in),
        _ => return,
    };
    findings.add(rule.finding(
        circuit.at("device_distance_in"),
        Some(distance_in),
        Some(limit_in),
        format!(
            "The fuse of circuit {} sits {} in of {} wire from where the circuit starts; {} in is the limit. Nothing guards that length.",
            circuit.id,
            figure(distance_in, 1),
            if sheathed { "sheathed" } else { "bare" },
            figure(limit_in, 0)
        ),
        format!("Move the fuse to within {} in of the battery or bus bar.", figure(good_in, 0)),
    ));
}

/// Is the device made for the charging voltage?
fn voltage(judged: &Judged, circuit: &CircuitInMode, findings: &mut Findings) {
    let Some(battery) = judged.wiring.battery else { return };
    let device = circuit.line.circuit;
    let family = device.device;
    if let Some(made_for_v) = device.device_v.or(family.and_then(Family::dc_v))
        && exceeds(battery.charge_v, made_for_v)
    {
        findings.add(DEVICE_VOLTAGE_LOW.finding(
            circuit.at(if device.device_v.is_some() { "device_v" } else { "device" }),
            Some(made_for_v),
            Some(battery.charge_v),
            format!(
                "The device of circuit {} is made for {} V; the battery is charged at up to {} V.",
                circuit.id,
                figure(made_for_v, 1),
                figure(battery.charge_v, 1)
            ),
            format!("Take a device for {} V of direct current or more.", figure(battery.charge_v.ceil(), 0)),
        ));
    }
}

/// The banks that the table by cold-cranking rating is for (ABYC E-11, at second hand): beyond either of these the
/// battery's own short-circuit current counts where it is greater.
const MOST_COLD_CRANKING_A: f64 = 2_200.0;
const MOST_CAPACITY_AH: f64 = 500.0;

/// What a main or branch device is asked by the battery's cold-cranking rating [A]; nothing where the fault current
/// counts: it or the resistance is known, or the bank is too large for the table and the estimate is greater.
fn by_cold_cranking(battery: &Battery, is_branch: bool, fault_a: f64) -> Option<f64> {
    let cold_cranking_a = battery.cold_cranking_a?;
    if battery.short_circuit_a.is_some() || battery.resistance_mohm.is_some() {
        return None;
    }
    let (main_a, branch_a) = marine_interrupting_a(cold_cranking_a);
    let table_a = if is_branch { branch_a } else { main_a };
    let small = cold_cranking_a <= MOST_COLD_CRANKING_A && battery.capacity_ah <= MOST_CAPACITY_AH;
    (small || table_a >= fault_a).then_some(table_a)
}

/// What a device can break against what a short circuit behind it draws from the battery. Circuits of one feeder with
/// devices of one kind are named together.
fn interrupting(judged: &Judged, findings: &mut Findings) {
    let (Some(bank), Some(battery)) = (judged.wiring.battery, &judged.build.battery) else { return };
    let mut groups: Vec<(Interrupting, Vec<&str>)> = Vec::new();
    for (index, line) in judged.wiring.circuits.iter().enumerate() {
        let device = line.circuit;
        let worst_a = judged.numbers.modes.iter().filter_map(|mode| mode.faults_a[index]).reduce(f64::max);
        let (Some(fault_a), Some(_), None | Some(false)) = (worst_a, device.breaker_a, device.series_rated)
        else {
            continue;
        };
        let by_table = by_cold_cranking(battery, line.feeder.is_some(), fault_a);
        let usual_a = device.device.and_then(|family| family.interrupting_a(bank.charge_v));
        let group = Interrupting {
            feeder: line.feeder,
            asked_a: by_table.unwrap_or(fault_a),
            breaks_a: device.interrupting_a.or(usual_a),
            stated: device.interrupting_a.is_some(),
            by_table: by_table.is_some(),
        };
        match groups.iter_mut().find(|(other, _)| *other == group) {
            Some((_, ids)) => ids.push(line.id),
            None => groups.push((group, vec![line.id])),
        }
    }
    groups.iter().for_each(|(group, ids)| group.judge(ids, findings));
}

/// What devices of some circuits can break, and what is asked of them.
#[derive(Debug, PartialEq)]
struct Interrupting {
    feeder: Option<Index>,
    asked_a: f64,
    breaks_a: Option<f64>,
    stated: bool,
    by_table: bool,
}

impl Interrupting {
    fn judge(&self, ids: &[&str], findings: &mut Findings) {
        let of = if ids.len() == 1 { "of circuit" } else { "of each of the circuits" };
        let asked = if self.by_table {
            format!(
                "By the battery's cold-cranking rating {} A is asked of the device {of} {}",
                figure(self.asked_a, 0),
                ids.join(", ")
            )
        } else {
            format!(
                "A short circuit behind the device {of} {} draws {} A from the battery",
                ids.join(", "),
                figure(self.asked_a, 0)
            )
        };
        let here = format!("/electrical/circuits/{}", ids[0]);
        match self.breaks_a {
            Some(breaks_a) if exceeds(self.asked_a, breaks_a) => findings.add(INTERRUPTING_BELOW_FAULT.finding(
                format!("{here}/{}", if self.stated { "interrupting_a" } else { "device" }),
                Some(breaks_a),
                Some(self.asked_a),
                format!("{asked}; it can break {} A.", figure(breaks_a, 0)),
                "Put a current-limiting fuse (class T) at the battery with which this one is series rated, or take a device that breaks the fault itself.",
            )),
            None => findings.add(INTERRUPTING_UNKNOWN.finding(
                here,
                Some(self.asked_a),
                None,
                format!("{asked}; what it can break is not known."),
                "Give its kind, or its maker's interrupting rating for direct current.",
            )),
            Some(_) => {}
        }
    }
}

/// A blade fuse while one load starts and all others run.
fn start(judged: &Judged, m: usize, circuit: &CircuitInMode, findings: &mut Findings) {
    let Some(rating_a) = circuit.line.circuit.breaker_a else { return };
    if !matches!(circuit.line.circuit.device, Some(Family::Blade | Family::BladeHighCurrent)) {
        return;
    }
    for &index in &circuit.line.loads {
        let load = &judged.wiring.loads[index];
        let running_a = judged.numbers.modes[m].flow.loads[index].current_a;
        let multiple = inrush_multiple(load, false);
        let start_s = load.draw.inrush_s.unwrap_or(defaults::start_s(false));
        let peak_a = circuit.carried.drawn.current_a + running_a * (multiple - 1.0);
        let Some((least_s, most_s)) = blade_opening_s(peak_a / rating_a).filter(|_| multiple > 1.0) else {
            continue;
        };
        let (rule, limit_s, opens) = match start_s {
            long if exceeds(long, most_s) => {
                (&FUSE_OPENS_ON_START, most_s, format!("opens within {} s", figure(most_s, 2)))
            }
            long if exceeds(long, least_s) && least_s > 0.0 => {
                (&FUSE_MAY_OPEN_ON_START, least_s, format!("may open after {} s", figure(least_s, 2)))
            }
            long if exceeds(long, least_s) => {
                (&FUSE_MAY_OPEN_ON_START, least_s, "may open at once".to_owned())
            }
            _ => continue,
        };
        findings.add(rule.finding(
            format!("/parts/{}/electrical", load.id),
            Some(start_s),
            Some(limit_s),
            format!(
                "While {} starts, circuit {} carries {} A for {} s; its {} A blade fuse {opens}.",
                load.id,
                circuit.id,
                figure(peak_a, 1),
                figure(start_s, 2),
                figure(rating_a, 1)
            ),
            "Take a slower device, or a larger fuse with wire to match.",
        ));
    }
}

/// The breaker of one motor, or of one large appliance, on a line-voltage circuit of its own.
fn large_appliance(judged: &Judged, circuit: &CircuitInMode, m: usize, findings: &mut Findings) {
    let (Some(breaker_a), [index]) = (circuit.line.circuit.breaker_a, circuit.line.loads.as_slice()) else {
        return;
    };
    let load = &judged.wiring.loads[*index];
    if !circuit.line.branches.is_empty() || !circuit.line.feeds.is_empty() || load.quantity > 1.0 {
        return;
    }
    let current_a = judged.numbers.modes[m].flow.loads[*index].current_a;
    // 150 % of its current, or the next standard rating (422.11(E)(3), from memory).
    let next_a = |a: f64| overcurrent::next_rating_a(a).unwrap_or(a);
    let most_of_motor_a = next_a(MOTOR_DEVICE * current_a).max(SMALLEST_BRANCH_A);
    let most_a = next_a(1.5 * current_a);
    if load.kind == LoadKind::Motor && exceeds(breaker_a, most_of_motor_a) {
        findings.add(MOTOR_DEVICE_LARGE.finding(
            circuit.at("breaker_a"),
            Some(breaker_a),
            Some(most_of_motor_a),
            format!(
                "Circuit {} feeds the motor of {} alone, {} A, behind {} A.",
                circuit.id,
                load.id,
                figure(current_a, 1),
                figure(breaker_a, 1)
            ),
            format!("Fit {} A or less.", figure(most_of_motor_a, 1)),
        ));
    } else if !exceeds(LARGE_APPLIANCE_A, current_a) && exceeds(breaker_a, most_a) {
        findings.add(BREAKER_OVER_APPLIANCE.finding(
            circuit.at("breaker_a"),
            Some(breaker_a),
            Some(most_a),
            format!(
                "Circuit {} feeds {} alone, {} A, behind {} A; 150 % of its current is {} A, and {} A the standard rating for that.",
                circuit.id,
                load.id,
                figure(current_a, 1),
                figure(breaker_a, 1),
                figure(1.5 * current_a, 1),
                figure(most_a, 1)
            ),
            format!("Fit {} A or less.", figure(most_a, 1)),
        ));
    }
}
