//! Supply modes: loops, two sources, neutral bonds, shared neutrals, loads without power.

use super::*;
use crate::build::Leg;
use crate::circuit_load::energized::{chain, is_live, upstream};
use crate::circuit_load::numbers::ModeNumbers;
use crate::circuit_load::wiring::{Index, Switching};
use crate::report::figure;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (mode, switching) in judged.numbers.modes.iter().zip(&judged.wiring.modes) {
        loops(judged, mode, switching, findings);
        two_sources(judged, mode, switching, findings);
        neutrals(judged, mode, switching, findings);
        shared_neutrals(judged, mode, switching, findings);
        without_power(judged, mode, switching, findings);
    }
    never_fed(judged, findings);
}

/// Where a mode stands in the build; without modes the only source, which the mode is named after.
fn mode_at(judged: &Judged, switching: &Switching) -> String {
    let modes = judged.build.electrical.as_ref().and_then(|electrical| electrical.modes.as_ref());
    format!("/electrical/{}/{}", if modes.is_some() { "modes" } else { "sources" }, switching.id)
}

/// Where it stands what feeds a circuit in a mode: under its own name, or that of its feeder.
fn feed_at(judged: &Judged, switching: &Switching, circuit: Index) -> String {
    let modes = judged.build.electrical.as_ref().and_then(|electrical| electrical.modes.as_ref());
    let feeds = modes.and_then(|modes| modes.get(switching.id)).map(|mode| &mode.feeds);
    let line = &judged.wiring.circuits[circuit];
    let feeder = line.feeder.map(|feeder| judged.wiring.circuits[feeder].id);
    let listed = |id: &&str| feeds.is_some_and(|feeds| feeds.contains_key(*id));
    let mode = mode_at(judged, switching);
    match [Some(line.id), feeder].into_iter().flatten().find(listed) {
        Some(id) => format!("{mode}/feeds/{id}"),
        None => mode,
    }
}

fn loops(judged: &Judged, mode: &ModeNumbers, switching: &Switching, findings: &mut Findings) {
    for energy_loop in &mode.loops {
        let load = &judged.wiring.loads[energy_loop.load];
        let battery = judged.wiring.sources[energy_loop.battery].id;
        let source = switching.feeds[load.circuit].map_or("", |source| judged.wiring.sources[source].id);
        let fed = if source == battery {
            format!("{battery} and charges {battery}")
        } else {
            format!("{source}, which feeds on {battery}, and charges {battery}")
        };
        findings.add(ENERGY_LOOP.finding(
            feed_at(judged, switching, load.circuit),
            Some(-energy_loop.net_w),
            Some(0.0),
            format!(
                "In mode {} {} is fed by {fed}: the battery loses {} W by it.",
                switching.id,
                load.id,
                figure(-energy_loop.net_w, 1)
            ),
            "Leave the charger's circuit off in this mode.",
        ));
    }
}

fn two_sources(judged: &Judged, mode: &ModeNumbers, switching: &Switching, findings: &mut Findings) {
    let circuits = &judged.wiring.circuits;
    let on_bus = |index: Index| {
        let source = mode.flow.circuits[index]?.source;
        Some((circuits[index].circuit.bus.as_deref()?, source))
            .filter(|_| judged.wiring.sources[source].is_ac())
    };
    let mut joined: Vec<&str> = Vec::new();
    for (index, line) in circuits.iter().enumerate() {
        let Some((bus, source)) = on_bus(index).filter(|(bus, _)| !joined.contains(bus)) else { continue };
        let other = (0..index).find_map(|other| {
            on_bus(other)
                .filter(|(other_bus, other_source)| *other_bus == bus && *other_source != source)
                .map(|_| other)
        });
        let Some(other) = other else { continue };
        joined.push(bus);
        let name =
            |index: Index| mode.flow.circuits[index].map_or("", |c| judged.wiring.sources[c.source].id);
        findings.add(TWO_SOURCES_ON_BUS.finding(
            feed_at(judged, switching, index),
            None,
            None,
            format!(
                "In mode {} {} feeds circuit {} and {} feeds circuit {}, and both circuits start from bus bar {bus}: the two sources are joined.",
                switching.id,
                name(other),
                circuits[other].id,
                name(index),
                line.id
            ),
            "Feed the bus bar through a transfer switch that lets one source in at a time, or split it.",
        ));
    }
}

fn neutrals(judged: &Judged, mode: &ModeNumbers, switching: &Switching, findings: &mut Findings) {
    let in_trailer = judged.wiring.neutral_bonded;
    for (index, supply) in judged.wiring.sources.iter().enumerate() {
        if !supply.is_ac() || mode.flow.sources[index].is_none() {
            continue;
        }
        let id = supply.id;
        if supply.bonded && in_trailer {
            findings.add(TWO_NEUTRAL_BONDS.finding(
                "/electrical/neutral_bonded",
                None,
                None,
                format!(
                    "In mode {} neutral and ground are joined at {id} and in the trailer's panel.",
                    switching.id
                ),
                "Take the bond out of the trailer's panel; the source has it.",
            ));
            // Only to a neutral that is bonded at the source too can current come back past the ground-fault device.
            if supply.source.gfci == Some(true) {
                findings.add(GFCI_BEFORE_BOND.finding(
                    format!("/electrical/sources/{id}/gfci"),
                    None,
                    None,
                    format!("In mode {} a ground-fault outlet feeds the trailer, in which neutral and ground are joined.", switching.id),
                    "Take the bond out of the trailer's panel.",
                ));
            }
        } else if !supply.bonded && !in_trailer {
            findings.add(NEUTRAL_NOT_BONDED.finding(
                format!("/electrical/sources/{id}/neutral_bonded"),
                None,
                None,
                format!(
                    "In mode {} neutral and ground are joined neither at {id} nor in the trailer.",
                    switching.id
                ),
                "Let a licensed electrician bond the neutral at that source.",
            ));
        }
    }
}

fn shared_neutrals(judged: &Judged, mode: &ModeNumbers, switching: &Switching, findings: &mut Findings) {
    let circuits = &judged.wiring.circuits;
    for (index, line) in circuits.iter().enumerate() {
        let Some(partner) = line.shares_neutral_with else { continue };
        // Two circuits that name each other share one neutral.
        if partner < index && circuits[partner].shares_neutral_with == Some(index) {
            continue;
        }
        let (Some(carried), Some(other)) = (mode.flow.circuits[index], mode.flow.circuits[partner]) else {
            continue;
        };
        if carried.source != other.source || !judged.wiring.sources[carried.source].in_phase {
            continue;
        }
        let neutral_a = carried.drawn.current_a + other.drawn.current_a;
        // Each breaker lets its own rating through: that is what the neutral may have to carry.
        let breakers_a = [line, &circuits[partner]].map(|line| line.circuit.breaker_a.unwrap_or(0.0));
        let (may_a, one_a) = (breakers_a[0] + breakers_a[1], breakers_a[0].min(breakers_a[1]));
        findings.add(SHARED_NEUTRAL_IN_PHASE.finding(
            format!("/electrical/circuits/{}/shares_neutral_with", line.id),
            Some(may_a.max(neutral_a)),
            Some(one_a),
            format!(
                "In mode {} circuits {} and {} share a neutral while {} feeds both in phase: it carries {} A and may come to {} A, and no device opens for that.",
                switching.id,
                line.id,
                circuits[partner].id,
                judged.wiring.sources[carried.source].id,
                figure(neutral_a, 1),
                figure(may_a, 0)
            ),
            "Give each circuit a neutral of its own, or never feed both from one 120 V source.",
        ));
    }
}

fn without_power(judged: &Judged, mode: &ModeNumbers, switching: &Switching, findings: &mut Findings) {
    let names: Vec<&str> = judged
        .wiring
        .loads
        .iter()
        .zip(&mode.flow.powered)
        // A charger has nothing to do where its source is not there.
        .filter(|(load, on)| !**on && load.draw.charger.is_none())
        .map(|(load, _)| load.id)
        .collect();
    if names.is_empty() {
        return;
    }
    let dead = |&source: &Index| {
        switching.feeds.contains(&Some(source)) && !is_live(judged.wiring, switching, source)
    };
    let dead = (0..judged.wiring.sources.len()).filter(dead);
    let why: String = dead.map(|source| why_dead(judged.wiring, switching, source)).collect();
    let across = |&index: &Index| switching.feeds[index].is_some() && mode.flow.circuits[index].is_none();
    let circuits = 0..judged.wiring.circuits.len();
    let across = circuits.filter(across).filter(|&index| judged.wiring.leg(index) == Some(Leg::Both));
    let across: Vec<&str> = across.map(|index| judged.wiring.circuits[index].id).collect();
    let why = if across.is_empty() {
        why
    } else {
        format!("{why} There is no 240 V for circuit {}: both legs are in phase.", across.join(", "))
    };
    findings.add(LOADS_WITHOUT_SOURCE.finding(
        mode_at(judged, switching),
        None,
        None,
        format!("In mode {} these have no power: {}.{why}", switching.id, names.join(", ")),
        "Tell the owner, or feed their circuits in this mode.",
    ));
}

/// Why a source has no power to give.
fn why_dead(wiring: &Wiring, switching: &Switching, source: Index) -> String {
    let id = wiring.sources[source].id;
    let Some(above) = upstream(wiring, switching, source) else {
        return format!(" {id} has no power itself: its own circuit is off.");
    };
    // A circle of sources comes back to where it began.
    if !chain(wiring, switching, above).any(|other| other == source) {
        return format!(" {id} has no power itself: {} gives none.", wiring.sources[above].id);
    }
    let between = chain(wiring, switching, above).take_while(|&other| other != source);
    let between: Vec<&str> = between.map(|other| wiring.sources[other].id).collect();
    if between.is_empty() {
        format!(" {id} feeds on itself.")
    } else {
        format!(" {id} feeds on itself through {}.", between.join(" and "))
    }
}

fn never_fed(judged: &Judged, findings: &mut Findings) {
    for (index, line) in judged.wiring.circuits.iter().enumerate() {
        let fed = judged.wiring.modes.iter().any(|mode| mode.feeds[index].is_some());
        if !fed && !line.loads.is_empty() {
            findings.add(CIRCUIT_NEVER_FED.finding(
                format!("/electrical/circuits/{}", line.id),
                None,
                None,
                format!("No supply mode feeds circuit {}, and it has loads.", line.id),
                "Name its source in at least one mode.",
            ));
        }
    }
}
