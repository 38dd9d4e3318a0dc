//! What a wire may carry against what flows in it and what its device lets through.

use super::circuit_in_mode::CircuitInMode;
use super::*;
use crate::circuit_load::sizing::ampacity_a;
use crate::circuit_load::wiring::Conductors;
use crate::report::{exceeds, figure};
use crate::standards::ampacity::{Material, bundle_factor};
use crate::standards::size::Size;
use crate::standards::{low_voltage, overcurrent};

/// A fuse may be so much above its wire where no size fits (ABYC E-11, from memory).
const DEVICE_OVER_WIRE: f64 = 1.5;
/// So many low-voltage conductors may run together (NEC Table 310.15(C)(1): no factor up to three).
const BUNDLE: u32 = 3;

pub(super) fn judge(circuit: &CircuitInMode, findings: &mut Findings) {
    chassis_return(circuit, findings);
    let Some(wire) = &circuit.line.wire else { return };
    let Some(size) = wire.size else { return };
    if !circuit.alternating && wire.material == Material::Aluminum {
        aluminum(circuit, wire, findings);
        return;
    }
    let Some(ampacity_a) = circuit.sizing.ampacity_a else {
        not_allowed(circuit, wire, size, findings);
        return;
    };
    let sized = SizedWire { circuit, wire, size, ampacity_a };
    sized.load(findings);
    sized.bundle(findings);
    if let Some(breaker_a) = circuit.line.circuit.breaker_a {
        if circuit.alternating {
            sized.breaker(breaker_a, findings);
        } else {
            sized.fuse(breaker_a, findings);
        }
    }
}

fn chassis_return(circuit: &CircuitInMode, findings: &mut Findings) {
    if circuit.alternating && circuit.line.wire.is_some_and(|wire| wire.chassis_return) {
        findings.add(CHASSIS_RETURN.finding(
            circuit.at("wire/chassis_return"),
            None,
            None,
            format!("The current of line-voltage circuit {} returns through the chassis: whoever touches it is in the circuit.", circuit.id),
            "Run a neutral of its own, insulated from the chassis.",
        ));
    }
}

fn aluminum(circuit: &CircuitInMode, wire: &Conductors, findings: &mut Findings) {
    let copper = Conductors { material: Material::Copper, ..*wire };
    let smallest = |least_a: f64| {
        Size::ALL.into_iter().filter(|size| *size >= wire.minimum).find(|size| {
            ampacity_a(&copper, *size, circuit.carried.voltage_v, false).is_some_and(|a| !exceeds(least_a, a))
        })
    };
    let required_a = circuit.required_a();
    let with_fuse_a = required_a.max(circuit.line.circuit.breaker_a.unwrap_or(0.0));
    findings.add(LOW_VOLTAGE_ALUMINUM.finding(
        circuit.at("wire/material"),
        None,
        None,
        format!("Low-voltage circuit {} is wired in aluminum; copper is asked for.", circuit.id),
        match smallest(with_fuse_a) {
            Some(size) => format!("Pull {} AWG of copper.", size.name()),
            None if smallest(required_a).is_some() => {
                "Fit a smaller fuse, with copper wire to match.".to_owned()
            }
            None => "Split the circuit (no wire of the table does), and pull copper.".to_owned(),
        },
    ));
}

/// A wire of a size, or in a place, that the table has nothing for.
fn not_allowed(circuit: &CircuitInMode, wire: &Conductors, size: Size, findings: &mut Findings) {
    // It may carry nothing: what flows, or what the device lets through where nothing does yet, is past that.
    let most_a = circuit.current_a().max(circuit.line.circuit.breaker_a.unwrap_or(0.0));
    if most_a == 0.0 {
        return;
    }
    let has = |size: &Size| ampacity_a(wire, *size, circuit.carried.voltage_v, circuit.alternating).is_some();
    let (why, remedy) = match (Size::ALL.into_iter().find(has), Size::ALL.into_iter().rfind(has)) {
        (Some(least), Some(most)) => {
            (not_in_table(wire_kind(circuit, wire), size, least, most), format!("{}.", circuit.wire_remedy()))
        }
        // Every table has some size: it is the heat that leaves none.
        _ => (
            "where it runs it is too hot for its insulation".to_owned(),
            "Run it through a cooler place, or pull wire with insulation for more heat.".to_owned(),
        ),
    };
    let rule = if circuit.alternating { &CONDUCTOR_OVERLOADED } else { &DC_CONDUCTOR_OVERLOADED };
    findings.add(rule.finding(
        circuit.at("wire/awg"),
        Some(most_a),
        Some(0.0),
        format!("Circuit {} is wired in {} AWG, which may not be used so: {why}.", circuit.id, size.name()),
        remedy,
    ));
}

/// What kind of wire a circuit has, of which a table says in which sizes it may be used.
fn wire_kind(circuit: &CircuitInMode, wire: &Conductors) -> &'static str {
    match (circuit.alternating, wire.cord, wire.material) {
        (true, true, _) => "cord",
        (true, false, Material::Copper) => "cable",
        (true, false, Material::Aluminum) => "aluminum cable",
        (false, ..) if wire.sheathed => "sheathed low-voltage wire",
        (false, ..) => "bare low-voltage wire",
    }
}

/// Why a size may not be used of a kind of wire that there is from the least size to the greatest.
fn not_in_table(kind: &str, size: Size, least: Size, most: Size) -> String {
    if size < least {
        format!("it is too small, {kind} begins at {} AWG", least.name())
    } else if size > most {
        format!("it is too large for the table, in which {kind} ends at {} AWG", most.name())
    } else {
        format!("{kind} is not made in that size")
    }
}

/// A wire whose size is given, and what it may carry where it runs.
struct SizedWire<'a> {
    circuit: &'a CircuitInMode<'a>,
    wire: &'a Conductors,
    size: Size,
    ampacity_a: f64,
}

impl SizedWire<'_> {
    /// The wire against what flows. What the device keeps from the wire is the device's matter.
    fn load(&self, findings: &mut Findings) {
        let (circuit, name) = (self.circuit, self.size.name());
        if circuit.is_guarded() {
            return;
        }
        let (current_a, required_a) = (circuit.current_a(), circuit.required_a());
        let before_a = circuit.sizing.uncorrected_a.unwrap_or(self.ampacity_a);
        let remedy = || format!("{}, or move a load to another circuit.", circuit.wire_remedy());
        let at = circuit.at("wire/awg");
        if exceeds(current_a, self.ampacity_a) {
            let rule = if circuit.alternating { &CONDUCTOR_OVERLOADED } else { &DC_CONDUCTOR_OVERLOADED };
            findings.add(rule.finding(
                at,
                Some(current_a),
                Some(self.ampacity_a),
                format!(
                    "In mode {} circuit {} carries {} A with everything on; its {name} AWG may carry {} A where it runs.",
                    circuit.mode,
                    circuit.id,
                    figure(current_a, 1),
                    figure(self.ampacity_a, 1)
                ),
                remedy(),
            ));
        } else if circuit.alternating && exceeds(required_a, before_a) {
            findings.add(CONDUCTOR_OVERLOADED.finding(
                at,
                Some(required_a),
                Some(before_a),
                format!(
                    "In mode {} the wire of circuit {} must be made for {} A; {name} AWG carries {} A before corrections.",
                    circuit.mode,
                    circuit.id,
                    figure(required_a, 1),
                    figure(before_a, 1)
                ),
                remedy(),
            ));
        }
    }

    fn bundle(&self, findings: &mut Findings) {
        let (circuit, bundled) = (self.circuit, self.wire.bundled);
        if !circuit.alternating && bundled > BUNDLE && circuit.carried.voltage_v < 50.0 {
            findings.add(DC_BUNDLE.finding(
                circuit.at("wire/bundled"),
                Some(f64::from(bundled)),
                Some(f64::from(BUNDLE)),
                format!(
                    "{bundled} loaded conductors run in the bundle of circuit {}; by the line-voltage factor for so many its {} AWG would carry {} A.",
                    circuit.id,
                    self.size.name(),
                    figure(self.ampacity_a * bundle_factor(bundled), 1)
                ),
                "Spread the bundle out, or see that what flows stays within that.",
            ));
        }
    }

    /// What is said of a device above its wire.
    fn device_words(&self, breaker_a: f64, limit_a: f64) -> String {
        format!(
            "The {} A {} of circuit {} lets more through than its {} AWG may carry, {} A.",
            figure(breaker_a, 1),
            self.circuit.device_word(),
            self.circuit.id,
            self.size.name(),
            figure(limit_a, 1)
        )
    }

    fn breaker(&self, breaker_a: f64, findings: &mut Findings) {
        if self.circuit.is_guarded() {
            return;
        }
        let cap_a = overcurrent::small_conductor_cap_a(self.size, self.wire.material);
        let cap_a = cap_a.filter(|_| !self.wire.cord).unwrap_or(f64::INFINITY);
        let limit_a = self.ampacity_a.min(cap_a);
        findings.add(BREAKER_OVER_CONDUCTOR.finding(
            self.circuit.at("breaker_a"),
            Some(breaker_a),
            Some(limit_a),
            self.device_words(breaker_a, limit_a),
            self.circuit.device_remedy(limit_a),
        ));
    }

    fn fuse(&self, breaker_a: f64, findings: &mut Findings) {
        let (circuit, ampacity_a) = (self.circuit, self.ampacity_a);
        let at = circuit.at("breaker_a");
        let far_a = DEVICE_OVER_WIRE * ampacity_a;
        if exceeds(breaker_a, ampacity_a) {
            let (rule, limit_a) = if exceeds(breaker_a, far_a) {
                (&DC_DEVICE_FAR_OVER_CONDUCTOR, far_a)
            } else {
                (&DC_DEVICE_OVER_CONDUCTOR, ampacity_a)
            };
            findings.add(rule.finding(
                at,
                Some(breaker_a),
                Some(limit_a),
                self.device_words(breaker_a, ampacity_a),
                circuit.device_remedy(ampacity_a),
            ));
        } else if let Some(table_a) = low_voltage::limit_a(self.size)
            && exceeds(breaker_a, table_a)
        {
            findings.add(DC_CONDUCTOR_OVER_552_TABLE.finding(
                at,
                Some(breaker_a),
                Some(table_a),
                format!(
                    "The {} A fuse of circuit {} is above the park trailer table's {} A for {} AWG; the table used here lets it carry {} A.",
                    figure(breaker_a, 1),
                    circuit.id,
                    figure(table_a, 1),
                    self.size.name(),
                    figure(ampacity_a, 1)
                ),
                "Nothing is broken; keep to the stricter table where an inspector goes by it.",
            ));
        }
    }
}
