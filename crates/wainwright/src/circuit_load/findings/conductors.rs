//! Circuits: their wires, what flows in them and what they lose.

use super::*;
use crate::build::{Leg, LoadKind};
use crate::circuit_load::drawn::CircuitFlow;
use crate::circuit_load::numbers::usual_drop;
use crate::circuit_load::sizing::Sizing;
use crate::circuit_load::wiring::{Conductors, Index, Line};
use crate::report::{exceeds, figure, percent};
use crate::standards::ampacity::Material;
use crate::standards::ampacity::bundle_factor;
use crate::standards::fuse::Family;
use crate::standards::size::Size;
use crate::standards::{low_voltage, overcurrent};

/// Less than this share of a limit left is little.
pub(super) const TIGHT: f64 = 0.10;
/// Voltage that a 115 V motor needs: 90 % of it (NEMA MG 1, from memory) [V].
const LEAST_MOTOR_V: f64 = 103.5;
/// Share of the voltage that cord, feeder and circuit may lose together.
const TOTAL_DROP: f64 = 0.05;
/// A fuse may be so much above its wire where no size fits (ABYC E-11, from memory).
const DEVICE_OVER_WIRE: f64 = 1.5;
/// An appliance of this current or more on its own circuit limits its breaker (NEC 551.43, from memory) [A].
const LARGE_APPLIANCE_A: f64 = 13.3;
/// An inverse-time breaker may be so much above a motor's current (NEC 430.52, from memory).
const MOTOR_DEVICE: f64 = 2.5;
/// No branch circuit is asked to be smaller than this (NEC 210.3, from memory) [A].
const SMALLEST_BRANCH_A: f64 = 20.0;
/// So many low-voltage conductors may run together (NEC Table 310.15(C)(1): no factor up to three).
const BUNDLE: u32 = 3;

/// One circuit in one mode.
pub(super) struct InMode<'a> {
    pub id: &'a str,
    pub index: Index,
    pub mode: &'a str,
    pub line: &'a Line<'a>,
    pub carried: CircuitFlow,
    pub sizing: Sizing,
    pub alternating: bool,
}

impl InMode<'_> {
    pub fn at(&self, field: &str) -> String {
        format!("/electrical/circuits/{}/{field}", self.id)
    }

    fn current_a(&self) -> f64 {
        self.carried.drawn.current_a
    }

    pub fn required_a(&self) -> f64 {
        self.carried.drawn.required_a()
    }

    /// What to put in place of the wire.
    fn wire_remedy(&self) -> String {
        match self.sizing.smallest {
            Some((size, _)) => format!("Pull {} AWG", size.name()),
            None => "Split the circuit (no wire of the table does)".to_owned(),
        }
    }
}

/// Every circuit in every mode that feeds it.
pub(super) fn in_modes<'a>(judged: &Judged<'a>) -> impl Iterator<Item = (usize, InMode<'a>)> {
    let (wiring, numbers) = (judged.wiring, judged.numbers);
    numbers.modes.iter().enumerate().flat_map(move |(m, mode)| {
        wiring.circuits.iter().enumerate().filter_map(move |(index, line)| {
            let carried = mode.flow.circuits[index]?;
            let sizing = mode.sizings[index]?;
            let alternating = wiring.sources[carried.source].is_ac();
            let mode = wiring.modes[m].id;
            Some((m, InMode { id: line.id, index, mode, line, carried, sizing, alternating }))
        })
    })
}

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (m, circuit) in in_modes(judged) {
        protection(&circuit, findings);
        ampacity(&circuit, findings);
        drop(judged, m, &circuit, findings);
        motor_voltage(judged, m, &circuit, findings);
    }
}

/// Breaker or fuse against load and wire.
fn protection(circuit: &InMode, findings: &mut Findings) {
    let Some(breaker_a) = circuit.line.circuit.breaker_a else {
        if circuit.current_a() > 0.0 {
            let rating = circuit.sizing.device_a.map_or(String::new(), |a| format!(" of {} A", figure(a, 1)));
            findings.add(CIRCUIT_UNPROTECTED.finding(
                format!("/electrical/circuits/{}", circuit.id),
                None,
                None,
                format!(
                    "Circuit {} carries {} A and has no breaker or fuse.",
                    circuit.id,
                    figure(circuit.current_a(), 1)
                ),
                format!("Protect it at its source with a breaker or fuse{rating}."),
            ));
        }
        return;
    };
    let (current_a, required_a) = (circuit.current_a(), circuit.required_a());
    let at = circuit.at("breaker_a");
    let words = |what: &str, a: f64| {
        format!(
            "In mode {} circuit {} {what} {} A; its {} is {} A.",
            circuit.mode,
            circuit.id,
            figure(a, 1),
            if circuit.alternating { "breaker" } else { "fuse or breaker" },
            figure(breaker_a, 1)
        )
    };
    let split = match circuit.sizing.device_a {
        Some(device_a) => {
            format!("Move a load to another circuit, or fit {} A with wire to match.", figure(device_a, 1))
        }
        None => "Move a load to another circuit.".to_owned(),
    };
    if circuit.alternating {
        if exceeds(required_a, breaker_a) {
            let message = words(
                "needs, with a quarter more for what runs for hours and for its greatest motor,",
                required_a,
            );
            findings.add(BREAKER_OVERLOADED.finding(at, Some(required_a), Some(breaker_a), message, split));
        } else if exceeds(required_a, breaker_a * (1.0 - TIGHT)) {
            let left = 1.0 - required_a / breaker_a;
            let message = words(
                "needs, with a quarter more for what runs for hours and for its greatest motor,",
                required_a,
            );
            let remedy = "It holds as listed; leave room for what is plugged in later.";
            findings.add(LIMIT_TIGHT.finding(at, Some(left), Some(TIGHT), message, remedy));
        }
    } else if exceeds(current_a, breaker_a) {
        let message = words("carries", current_a);
        findings.add(DC_DEVICE_OVERLOADED.finding(at, Some(current_a), Some(breaker_a), message, split));
    } else if exceeds(required_a, breaker_a) {
        let message = words(
            "needs, with a quarter more for what runs for hours and for its greatest motor,",
            required_a,
        );
        findings.add(DC_DEVICE_NEAR_LIMIT.finding(at, Some(required_a), Some(breaker_a), message, split));
    }
}

/// Wire against load and device.
fn ampacity(circuit: &InMode, findings: &mut Findings) {
    if circuit.alternating && circuit.line.wire.is_some_and(|wire| wire.chassis_return) {
        findings.add(CHASSIS_RETURN.finding(
            circuit.at("wire/chassis_return"),
            None,
            None,
            format!("The current of line-voltage circuit {} returns through the chassis: whoever touches it is in the circuit.", circuit.id),
            "Run a neutral of its own, insulated from the chassis.",
        ));
    }
    let Some(wire) = circuit.line.wire.filter(|wire| wire.size.is_some()) else { return };
    if !circuit.alternating && wire.material == Material::Aluminum {
        findings.add(LOW_VOLTAGE_ALUMINUM.finding(
            circuit.at("wire/material"),
            None,
            None,
            format!("Low-voltage circuit {} is wired in aluminum; copper is asked for.", circuit.id),
            format!("{}, copper.", circuit.wire_remedy()),
        ));
        return;
    }
    let (Some(size), Some(ampacity_a)) = (wire.size, circuit.sizing.ampacity_a) else {
        let size = wire.size.map_or("", |size| size.name());
        let rule = if circuit.alternating { &CONDUCTOR_OVERLOADED } else { &DC_CONDUCTOR_OVERLOADED };
        // It may carry nothing: what flows, or what the device lets through where nothing does yet, is past that.
        let most_a = circuit.current_a().max(circuit.line.circuit.breaker_a.unwrap_or(0.0));
        if most_a == 0.0 {
            return;
        }
        findings.add(rule.finding(
            circuit.at("wire/awg"),
            Some(most_a),
            Some(0.0),
            format!("Circuit {} is wired in {size} AWG, which may not be used so: too small, too large or too hot for the table.", circuit.id),
            format!("{}.", circuit.wire_remedy()),
        ));
        return;
    };
    let (current_a, name) = (circuit.current_a(), size.name());
    let breaker_a = circuit.line.circuit.breaker_a;
    // What the breaker keeps from the wire is the breaker's matter.
    let guarded = breaker_a.is_some_and(|breaker_a| device_fits(circuit, &wire, size, breaker_a, ampacity_a));
    if exceeds(current_a, ampacity_a) && !guarded {
        let rule = if circuit.alternating { &CONDUCTOR_OVERLOADED } else { &DC_CONDUCTOR_OVERLOADED };
        findings.add(rule.finding(
            circuit.at("wire/awg"),
            Some(current_a),
            Some(ampacity_a),
            format!(
                "In mode {} circuit {} carries {} A with everything on; its {name} AWG may carry {} A where it runs.",
                circuit.mode,
                circuit.id,
                figure(current_a, 1),
                figure(ampacity_a, 1)
            ),
            format!("{}, or move a load to another circuit.", circuit.wire_remedy()),
        ));
    }
    let before_a = circuit.sizing.uncorrected_a.unwrap_or(ampacity_a);
    let short_before = exceeds(circuit.required_a(), before_a) && !exceeds(current_a, ampacity_a);
    if circuit.alternating && short_before && !guarded {
        findings.add(CONDUCTOR_OVERLOADED.finding(
            circuit.at("wire/awg"),
            Some(circuit.required_a()),
            Some(before_a),
            format!(
                "In mode {} the wire of circuit {} must be made for {} A; {name} AWG carries {} A before corrections.",
                circuit.mode,
                circuit.id,
                figure(circuit.required_a(), 1),
                figure(before_a, 1)
            ),
            format!("{}, or move a load to another circuit.", circuit.wire_remedy()),
        ));
    }
    if !circuit.alternating && wire.bundled > BUNDLE && circuit.carried.voltage_v < 50.0 {
        findings.add(DC_BUNDLE.finding(
            circuit.at("wire/bundled"),
            Some(f64::from(wire.bundled)),
            Some(f64::from(BUNDLE)),
            format!(
                "{} loaded conductors run in the bundle of circuit {}; by the line-voltage factor for so many its {name} AWG would carry {} A.",
                wire.bundled,
                circuit.id,
                figure(ampacity_a * bundle_factor(wire.bundled), 1)
            ),
            "Spread the bundle out, or see that what flows stays within that.",
        ));
    }
    let Some(breaker_a) = breaker_a else { return };
    let words = |limit_a: f64| {
        format!(
            "The {} A {} of circuit {} lets more through than its {name} AWG may carry, {} A.",
            figure(breaker_a, 1),
            if circuit.alternating { "breaker" } else { "fuse" },
            circuit.id,
            figure(limit_a, 1)
        )
    };
    let at = circuit.at("breaker_a");
    let remedy =
        |limit_a: f64| format!("{}, or fit {}.", circuit.wire_remedy(), largest_device(circuit, limit_a));
    if circuit.alternating {
        let cap_a = if wire.cord { None } else { overcurrent::small_conductor_cap_a(size, wire.material) };
        if !guarded {
            let limit_a = cap_a.map_or(ampacity_a, |cap_a| cap_a.min(ampacity_a));
            findings.add(BREAKER_OVER_CONDUCTOR.finding(
                at,
                Some(breaker_a),
                Some(limit_a),
                words(limit_a),
                remedy(limit_a),
            ));
        }
        return;
    }
    if exceeds(breaker_a, DEVICE_OVER_WIRE * ampacity_a) {
        let finding = DC_DEVICE_FAR_OVER_CONDUCTOR.finding(
            at,
            Some(breaker_a),
            Some(DEVICE_OVER_WIRE * ampacity_a),
            words(ampacity_a),
            remedy(ampacity_a),
        );
        findings.add(finding);
    } else if exceeds(breaker_a, ampacity_a) {
        findings.add(DC_DEVICE_OVER_CONDUCTOR.finding(
            at,
            Some(breaker_a),
            Some(ampacity_a),
            words(ampacity_a),
            remedy(ampacity_a),
        ));
    } else if let Some(table_a) = low_voltage::limit_a(size)
        && exceeds(breaker_a, table_a)
    {
        findings.add(DC_CONDUCTOR_OVER_552_TABLE.finding(
            at,
            Some(breaker_a),
            Some(table_a),
            format!(
                "The {} A fuse of circuit {} is above the park trailer table's {} A for {name} AWG; the table used here lets it carry {} A.",
                figure(breaker_a, 1),
                circuit.id,
                figure(table_a, 1),
                figure(ampacity_a, 1)
            ),
            "Nothing is broken; keep to the stricter table where an inspector goes by it.",
        ));
    }
}

/// Does a device keep from a wire what the wire may not carry?
fn device_fits(circuit: &InMode, wire: &Conductors, size: Size, device_a: f64, ampacity_a: f64) -> bool {
    if !circuit.alternating {
        return !exceeds(device_a, ampacity_a);
    }
    let cap_a = if wire.cord { None } else { overcurrent::small_conductor_cap_a(size, wire.material) };
    let may_round_up = !wire.cord && circuit.line.outlets() <= 1;
    cap_a.is_none_or(|cap_a| !exceeds(device_a, cap_a))
        && overcurrent::permits(device_a, ampacity_a, may_round_up)
}

/// The largest device up to what a wire is good for, in words.
fn largest_device(circuit: &InMode, limit_a: f64) -> String {
    let family = circuit.line.circuit.device.unwrap_or(Family::Blade);
    let ratings = overcurrent::RATINGS_A.iter().copied().chain(overcurrent::SMALL_RATINGS_A);
    let fits = |rating_a: &f64| {
        !exceeds(*rating_a, limit_a)
            && (circuit.alternating
                || crate::standards::fuse::next_rating_a(family, *rating_a) == Some(*rating_a))
    };
    match ratings.filter(fits).fold(None, |most: Option<f64>, a| Some(most.map_or(a, |most| most.max(a)))) {
        Some(rating_a) => format!("{} A or less", figure(rating_a, 1)),
        None => "a smaller fuse".to_owned(),
    }
}

/// Voltage lost on the way.
fn drop(judged: &Judged, m: usize, circuit: &InMode, findings: &mut Findings) {
    let Some(drop_v) =
        circuit.sizing.drop_v.filter(|_| circuit.line.wire.is_some_and(|wire| wire.size.is_some()))
    else {
        return;
    };
    let usual = usual_drop(judged.wiring, circuit.index, circuit.alternating);
    let most = circuit.line.circuit.max_drop_fraction.unwrap_or(usual);
    // The code's 3 % are those of the branch; on low voltage they are counted from the battery (ABYC E-11).
    let (rule, lost, way) = if circuit.alternating {
        (&AC_DROP, drop_v / circuit.carried.voltage_v, "circuit")
    } else {
        let total = total_drop(judged, m, circuit.index).unwrap_or(drop_v / circuit.carried.voltage_v);
        let ahead = exceeds(total, drop_v / circuit.carried.voltage_v);
        (&DC_DROP, total, if ahead { "what leads to it and circuit" } else { "circuit" })
    };
    if exceeds(lost, most) {
        let remedy = match circuit.sizing.by_drop {
            Some(size) => format!("Take {} AWG, or come nearer to the source.", size.name()),
            None => "Come nearer to the source, or put less on the circuit.".to_owned(),
        };
        findings.add(rule.finding(
            circuit.at("wire/run_ft"),
            Some(lost),
            Some(most),
            format!(
                "In mode {} {way} {} lose{} {} V, {} of its {} V; {} is the aim.",
                circuit.mode,
                circuit.id,
                if way == "circuit" { "s" } else { " together" },
                figure(lost * circuit.carried.voltage_v, 2),
                percent(lost),
                figure(circuit.carried.voltage_v, 1),
                percent(most)
            ),
            remedy,
        ));
        return;
    }
    if circuit.alternating
        && let Some(total) = total_drop(judged, m, circuit.index)
        && exceeds(total, TOTAL_DROP)
    {
        findings.add(AC_TOTAL_DROP.finding(
            circuit.at("wire/run_ft"),
            Some(total),
            Some(TOTAL_DROP),
            format!(
                "In mode {} cord, feeder and circuit {} together lose {} of the voltage with everything on; {} is the aim.",
                circuit.mode,
                circuit.id,
                percent(total),
                percent(TOTAL_DROP)
            ),
            "Take a heavier or shorter cord, or run less at a time.",
        ));
    }
}

/// Share of the voltage lost from the source to the end of a circuit: cord or cable, feeder, and the circuit itself.
pub(in crate::circuit_load) fn total_drop(judged: &Judged, m: usize, circuit: Index) -> Option<f64> {
    let (wiring, mode) = (judged.wiring, &judged.numbers.modes[m]);
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

/// What line-voltage motors get.
fn motor_voltage(judged: &Judged, m: usize, circuit: &InMode, findings: &mut Findings) {
    let is_motor = |&load: &Index| {
        matches!(judged.wiring.loads[load].kind, LoadKind::Motor | LoadKind::RoomAirConditioner)
    };
    let nominal_v = judged.wiring.sources[circuit.carried.source].source.voltage_v;
    let Some(motor) = circuit.line.loads.iter().copied().find(is_motor).filter(|_| circuit.alternating)
    else {
        return;
    };
    let legs = circuit.carried.voltage_v / nominal_v;
    let Some(arriving_v) = judged.numbers.modes[m].voltages.arriving_v[circuit.index] else { return };
    if exceeds(LEAST_MOTOR_V * legs, arriving_v) {
        findings.add(MOTOR_VOLTAGE_LOW.finding(
            format!("/parts/{}/electrical", judged.wiring.loads[motor].id),
            Some(arriving_v),
            Some(LEAST_MOTOR_V * legs),
            format!(
                "In mode {} with everything on, {} V arrive at {}; its motor needs {} V.",
                circuit.mode,
                figure(arriving_v, 1),
                judged.wiring.loads[motor].id,
                figure(LEAST_MOTOR_V * legs, 1)
            ),
            "Take a heavier cord or wire, or run less beside it.",
        ));
    }
}

/// The breaker of one large appliance: 150 % of its current, or the next standard rating (422.11(E)(3), from memory).
pub(super) fn large_appliance(judged: &Judged, circuit: &InMode, m: usize, findings: &mut Findings) {
    let (Some(breaker_a), [load]) = (circuit.line.circuit.breaker_a, circuit.line.loads.as_slice()) else {
        return;
    };
    let is_alone = circuit.line.branches.is_empty()
        && circuit.line.feeds.is_empty()
        && judged.wiring.loads[*load].quantity <= 1.0;
    if !is_alone {
        return;
    }
    let current_a = judged.numbers.modes[m].flow.loads[*load].current_a;
    if circuit.alternating && judged.wiring.loads[*load].kind == LoadKind::Motor {
        let most_a = overcurrent::next_rating_a(MOTOR_DEVICE * current_a).unwrap_or(MOTOR_DEVICE * current_a);
        if exceeds(breaker_a, most_a.max(SMALLEST_BRANCH_A)) {
            findings.add(MOTOR_DEVICE_LARGE.finding(
                circuit.at("breaker_a"),
                Some(breaker_a),
                Some(most_a.max(SMALLEST_BRANCH_A)),
                format!(
                    "Circuit {} feeds the motor of {} alone, {} A, behind {} A.",
                    circuit.id,
                    judged.wiring.loads[*load].id,
                    figure(current_a, 1),
                    figure(breaker_a, 1)
                ),
                format!("Fit {} A or less.", figure(most_a.max(SMALLEST_BRANCH_A), 1)),
            ));
            return;
        }
    }
    let most_a = overcurrent::next_rating_a(1.5 * current_a).unwrap_or(1.5 * current_a);
    if circuit.alternating && !exceeds(LARGE_APPLIANCE_A, current_a) && exceeds(breaker_a, most_a) {
        findings.add(BREAKER_OVER_APPLIANCE.finding(
            circuit.at("breaker_a"),
            Some(breaker_a),
            Some(most_a),
            format!(
                "Circuit {} feeds {} alone, {} A, behind {} A; 150 % of its current is {} A, and {} A the standard rating for that.",
                circuit.id,
                judged.wiring.loads[*load].id,
                figure(current_a, 1),
                figure(breaker_a, 1),
                figure(1.5 * current_a, 1),
                figure(most_a, 1)
            ),
            format!("Fit {} A or less.", figure(most_a, 1)),
        ));
    }
}
