//! Breakers and fuses: place, interrupting rating, voltage, and starts that may open them.

use super::conductors::{InMode, in_modes};
use super::*;
use crate::circuit_load::defaults;
use crate::circuit_load::drawn::inrush_multiple;
use crate::report::{exceeds, figure};
use crate::standards::fuse::{Family, blade_opening_s};

/// Distances of a fuse from its source [in].
const GOOD_BARE_IN: f64 = 7.0;
const GOOD_SHEATHED_IN: f64 = 40.0;
const MOST_BARE_IN: f64 = 18.0;
const MOST_SHEATHED_IN: f64 = 72.0;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (m, circuit) in in_modes(judged) {
        super::conductors::large_appliance(judged, &circuit, m, findings);
        if circuit.alternating {
            continue;
        }
        distance(&circuit, findings);
        if circuit.line.circuit.breaker_a.is_some() {
            fault(judged, m, &circuit, findings);
            start(judged, m, &circuit, findings);
        }
    }
}

fn distance(circuit: &InMode, findings: &mut Findings) {
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

/// Can the device break the fault current, and is it made for the charging voltage?
fn fault(judged: &Judged, m: usize, circuit: &InMode, findings: &mut Findings) {
    let Some(battery) = judged.wiring.battery else { return };
    let device = circuit.line.circuit;
    let family = device.device;
    if let Some(fault_a) = judged.numbers.modes[m].faults_a[circuit.index]
        && device.series_rated != Some(true)
    {
        let usual_a = family.and_then(|family| family.interrupting_a(battery.charge_v));
        match device.interrupting_a.or(usual_a) {
            Some(breaks_a) if exceeds(fault_a, breaks_a) => findings.add(INTERRUPTING_BELOW_FAULT.finding(
                circuit.at(if device.interrupting_a.is_some() { "interrupting_a" } else { "device" }),
                Some(breaks_a),
                Some(fault_a),
                format!(
                    "A short circuit behind the fuse of circuit {} draws {} A from the battery; the fuse can break {} A.",
                    circuit.id,
                    figure(fault_a, 0),
                    figure(breaks_a, 0)
                ),
                "Put a current-limiting fuse (class T) at the battery with which this one is series rated, or take a device that breaks the fault itself.",
            )),
            None => findings.add(INTERRUPTING_UNKNOWN.finding(
                circuit.at("interrupting_a"),
                Some(fault_a),
                None,
                format!(
                    "A short circuit behind the device of circuit {} draws {} A from the battery; what the device can break is not known.",
                    circuit.id,
                    figure(fault_a, 0)
                ),
                "Give its kind, or its maker's interrupting rating for direct current.",
            )),
            Some(_) => {}
        }
    }
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

/// A blade fuse while one load starts and all others run.
fn start(judged: &Judged, m: usize, circuit: &InMode, findings: &mut Findings) {
    let Some(rating_a) = circuit.line.circuit.breaker_a else { return };
    if !matches!(circuit.line.circuit.device, Some(Family::Blade | Family::BladeHighCurrent)) {
        return;
    }
    for &index in &circuit.line.loads {
        let load = &judged.wiring.loads[index];
        let running_a = judged.numbers.modes[m].flow.loads[index].current_a;
        let multiple = inrush_multiple(load, false);
        let start_s = load.draw.inrush_s.unwrap_or(defaults::START_S);
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
