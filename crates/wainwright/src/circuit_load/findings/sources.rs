//! Supplies: how many circuits they may feed, their cords, what voltage they hold, converters, and the battery's vents.

use super::outlets::SINGLE_CIRCUIT_A;
use super::source_in_mode::{SourceInMode, in_modes};
use super::*;
use super::{limits, starts};
use crate::build::{Chemistry, LoadKind, SourceKind};
use crate::circuit_load::charging::{charging_a, connected_a};
use crate::circuit_load::converter;
use crate::circuit_load::wiring::Index;
use crate::report::{exceeds, figure};
use crate::standards::supply;

/// Thermostat-controlled appliances on a 30 A supply (NEC 551.42(C)).
const THERMOSTATS: f64 = 2.0;
/// Line-voltage circuits from which a 50 A supply is asked for (NEC 551.42(C), (D)).
const MOST_ON_30_A: u32 = 5;
/// Conductors of a generator against its rated current (NEC 445.13).
const GENERATOR_LEAD: f64 = 1.15;
/// Openings of a battery's compartment, top and bottom (NEC 2008, 552.10(D)) [in²].
const VENT_IN2: f64 = 1.7;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for source in in_modes(judged) {
        limits::judge(&source, findings);
        starts::judge(&source, findings);
        if source.supply.source.kind == SourceKind::Shore {
            source.circuits(findings);
            source.thermostats(findings);
        }
        source.lead(findings);
        source.voltage(findings);
        if source.supply.source.kind == SourceKind::Battery {
            source.converter(findings);
        }
    }
    vent(judged, findings);
}

impl SourceInMode<'_> {
    /// How many circuits shore power feeds.
    fn circuits(&self, findings: &mut Findings) {
        let Some(rating_a) = self.supply.source.rating_a else { return };
        let wiring = self.judged.wiring;
        let fed = |&circuit: &Index| {
            self.switching.feeds[circuit] == Some(self.index) && wiring.circuits[circuit].branches.is_empty()
        };
        let circuits: Vec<Index> = (0..wiring.circuits.len()).filter(fed).collect();
        let most = match supply::of_rating(rating_a) {
            Some(supply) => supply.most_circuits,
            None if rating_a < 50.0 => Some(MOST_ON_30_A),
            None => None,
        };
        // A sixth circuit that serves the converter alone is allowed on 30 A.
        let converters_alone = circuits.iter().filter(|&&circuit| {
            let loads = &wiring.circuits[circuit].loads;
            !loads.is_empty() && loads.iter().all(|&load| wiring.loads[load].draw.charger.is_some())
        });
        let spared =
            usize::from(most == Some(MOST_ON_30_A) && converters_alone.count() > 0 && circuits.len() == 6);
        let count = circuits.len() - spared;
        if let Some(most) = most.filter(|most| count as u32 > *most && !self.stands_in(rating_a)) {
            findings.add(TOO_MANY_CIRCUITS.finding(
                self.at("rating_a"),
                Some(count as f64),
                Some(f64::from(most)),
                format!(
                    "In mode {} {} of {} A feeds {count} line-voltage circuits; {most} is the most for it.",
                    self.switching.id,
                    self.supply.id,
                    figure(rating_a, 0)
                ),
                if most == 1 {
                    "Take a 30 A supply, which may feed two to five circuits."
                } else {
                    "Take a 50 A supply, or a listed energy management system."
                },
            ));
        }
    }

    /// How many appliances with thermostats shore power feeds.
    fn thermostats(&self, findings: &mut Findings) {
        let Some(rating_a) = self.supply.source.rating_a else { return };
        let wiring = self.judged.wiring;
        let thermostat = |load: &Index| {
            let load = &wiring.loads[*load];
            load.kind == LoadKind::RoomAirConditioner || load.draw.thermostat == Some(true)
        };
        let thermostats: Vec<Index> = self.loads().filter(thermostat).collect();
        let count: f64 = thermostats.iter().map(|&load| wiring.loads[load].quantity).sum();
        if rating_a < 50.0 && exceeds(count, THERMOSTATS) && !self.stands_in(rating_a) {
            let names: Vec<&str> = thermostats.iter().map(|&load| wiring.loads[load].id).collect();
            findings.add(THERMOSTAT_LOADS.finding(
                self.at("rating_a"),
                Some(count),
                Some(THERMOSTATS),
                format!(
                    "In mode {} {} appliances with thermostats are on {}: {}.",
                    self.switching.id,
                    figure(count, 0),
                    self.supply.id,
                    names.join(", ")
                ),
                "Put an isolation switch between two of them, take a listed energy management system, or a 50 A supply.",
            ));
        }
    }

    /// Does energy management stand in for a larger supply? It does on 30 A alone (551.42(C)).
    fn stands_in(&self, rating_a: f64) -> bool {
        self.is_managed() && rating_a > SINGLE_CIRCUIT_A
    }

    /// The cord or cable.
    fn lead(&self, findings: &mut Findings) {
        let Some(sizing) = self.mode.leads[self.index] else { return };
        let source = self.supply.source;
        let legs = if self.supply.split { 2.0 } else { 1.0 };
        let rated_a = self.mode.ratings[self.index].rating_a;
        let least_a = match source.continuous_w {
            _ if source.kind != SourceKind::Generator => rated_a,
            Some(power_w) => Some(GENERATOR_LEAD * power_w / (source.voltage_v * legs)),
            None => rated_a.map(|rated_a| GENERATOR_LEAD * rated_a),
        };
        let Some(least_a) = least_a else { return };
        let carries_a = sizing.ampacity_a.unwrap_or(0.0);
        if self.supply.lead.is_some_and(|lead| lead.size.is_some()) && exceeds(least_a, carries_a) {
            findings.add(LEAD_BELOW_SUPPLY.finding(
                self.at("lead/awg"),
                Some(carries_a),
                Some(least_a),
                format!(
                    "The {} AWG cord or cable of {} may carry {} A; {} A is asked of it.",
                    sizing.size.map_or("", |size| size.name()),
                    self.supply.id,
                    figure(carries_a, 1),
                    figure(least_a, 1)
                ),
                "Take a heavier cord or cable.",
            ));
        }
    }

    /// Does the supply hold its voltage, and does what feeds an inverter?
    fn voltage(&self, findings: &mut Findings) {
        let voltages = &self.mode.voltages;
        let fed = |&circuit: &Index| {
            self.switching.feeds[circuit] == Some(self.index) && self.mode.flow.circuits[circuit].is_some()
        };
        let wiring = self.judged.wiring;
        let collapsed = (0..wiring.circuits.len()).filter(fed).find(|&c| voltages.arriving_v[c].is_none());
        if let Some(circuit) = collapsed {
            findings.add(SUPPLY_COLLAPSES.finding(
                self.here(),
                None,
                None,
                format!(
                    "In mode {} with everything on, {} cannot hold its voltage: circuit {} asks for more power than can reach it.",
                    self.switching.id, self.supply.id, wiring.circuits[circuit].id
                ),
                "Take heavier or shorter wire, or run less at a time.",
            ));
        }
        if self.supply.source.kind == SourceKind::Inverter {
            self.cutoff(findings);
        }
    }

    /// What an inverter gets at its rated output, and while a load starts.
    fn cutoff(&self, findings: &mut Findings) {
        let wiring = self.judged.wiring;
        let (arriving_v, over) = match self.supply.circuit {
            Some(circuit) => (
                self.mode.voltages.arriving_v[circuit],
                format!(" over circuit {}", wiring.circuits[circuit].id),
            ),
            None => {
                (self.supply.battery.and_then(|battery| self.mode.voltages.bus_v[battery]), String::new())
            }
        };
        let id = self.supply.id;
        let cutoff_v = self.supply.cutoff_v;
        let at = within(&self.here(), "cutoff_v", self.supply.source.cutoff_v.is_some());
        if let Some(arriving_v) = arriving_v
            && exceeds(cutoff_v, arriving_v)
        {
            findings.add(INVERTER_BELOW_CUTOFF.finding(
                at,
                Some(arriving_v),
                Some(cutoff_v),
                format!(
                    "At its rated output {id} gets {} V{over}; it shuts off at {} V.",
                    figure(arriving_v, 2),
                    figure(cutoff_v, 1)
                ),
                "Take heavier or shorter cable, or a bank of less resistance.",
            ));
        } else if let (Some(at_start_v), Some(starter)) = (self.mode.starts_v[self.index], self.gives.starter)
            && exceeds(cutoff_v, at_start_v)
        {
            findings.add(START_BELOW_CUTOFF.finding(
                at,
                Some(at_start_v),
                Some(cutoff_v),
                format!(
                    "In mode {} while {} starts, {id} gets {} V{over}; it shuts off at {} V.",
                    self.switching.id,
                    wiring.loads[starter].id,
                    figure(at_start_v, 2),
                    figure(cutoff_v, 1)
                ),
                if starts::has_inrush(self, starter) {
                    "Fit a soft starter, take heavier or shorter cable, or a bank of less resistance."
                } else {
                    "Take heavier or shorter cable, or a bank of less resistance."
                },
            ));
        }
    }

    /// Converter and chargers against the demand of the low-voltage loads.
    fn converter(&self, findings: &mut Findings) {
        let wiring = self.judged.wiring;
        let charging_a = charging_a(wiring, self.switching, self.mode, self.index);
        let connected_a = connected_a(wiring, self.switching, self.mode, self.index);
        let demand_a = converter::demand_a(connected_a);
        if charging_a > 0.0 && exceeds(demand_a, charging_a) {
            let charger = (wiring.loads.iter().zip(&self.mode.flow.powered))
                .find_map(|(load, on)| Some(load).filter(|load| *on && load.charges == Some(self.index)));
            findings.add(CONVERTER_BELOW_DEMAND.finding(
                charger.map_or_else(
                    || self.here(),
                    |load| format!("/parts/{}/electrical/charger/output_a", load.id),
                ),
                Some(charging_a),
                Some(demand_a),
                format!(
                    "In mode {} converter and chargers give {} A; the low-voltage loads, {} A connected, have a demand of {} A.",
                    self.switching.id,
                    figure(charging_a, 1),
                    figure(connected_a, 1),
                    figure(demand_a, 1)
                ),
                "Take a larger converter; the battery pays for the rest.",
            ));
        }
    }
}

/// The openings of a flooded battery's compartment.
fn vent(judged: &Judged, findings: &mut Findings) {
    let Some(battery) = &judged.build.battery else { return };
    let Some(vent_in2) = battery.vent_in2.filter(|_| battery.chemistry == Chemistry::Flooded) else { return };
    if exceeds(VENT_IN2, vent_in2) {
        findings.add(BATTERY_VENT_SMALL.finding(
            "/battery/vent_in2",
            Some(vent_in2),
            Some(VENT_IN2),
            format!(
                "The compartment of the flooded battery is vented by {} in² above and below; each opening needs {} in².",
                figure(vent_in2, 2),
                figure(VENT_IN2, 1)
            ),
            "Vent it to the outside at top and bottom, sealed from the living space, or take a sealed battery. Hydrogen is explosive.",
        ));
    }
}
