//! Supplies: what they may give, how many circuits they may feed, converters, batteries and their cables.

use super::outlets::SINGLE_CIRCUIT_A;
use super::*;
use crate::build::Leg;
use crate::build::{Chemistry, LoadKind, SourceKind};
use crate::circuit_load::converter;
use crate::circuit_load::defaults;
use crate::circuit_load::drawn::{SourceFlow, inrush_multiple};
use crate::circuit_load::numbers::{ModeNumbers, charging_a, connected_a};
use crate::circuit_load::ratings::LimitedBy;
use crate::circuit_load::wiring::{Index, Supply, Switching, is_on};
use crate::report::{exceeds, figure, percent};
use crate::standards::supply;

/// Thermostat-controlled appliances on a 30 A supply (NEC 551.42(C)).
const THERMOSTATS: f64 = 2.0;
/// Line-voltage circuits from which a 50 A supply is asked for (NEC 551.42(C), (D)).
const MOST_ON_30_A: u32 = 5;
/// Conductors of a generator against its rated current (NEC 445.13).
const GENERATOR_LEAD: f64 = 1.15;
/// A chance of passing the rating that a person notices. Common practice.
const TRIP_RISK_MOST: f64 = 0.05;
/// Openings of a battery's compartment, top and bottom (NEC 2008, 552.10(D)) [in²].
const VENT_IN2: f64 = 1.7;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (m, mode) in judged.numbers.modes.iter().enumerate() {
        let switching = &judged.wiring.modes[m];
        for (index, supply) in judged.wiring.sources.iter().enumerate() {
            let Some(gives) = &mode.flow.sources[index] else { continue };
            let source = InMode { judged, mode, switching, index, supply, gives };
            source.limit(findings);
            source.starts(findings);
            source.circuits(findings);
            source.lead(findings);
            source.voltage(findings);
            source.demand(findings);
            source.converter(findings);
        }
    }
    vent(judged, findings);
}

/// One source in one mode.
struct InMode<'a> {
    judged: &'a Judged<'a>,
    mode: &'a ModeNumbers<'a>,
    switching: &'a Switching<'a>,
    index: Index,
    supply: &'a Supply<'a>,
    gives: &'a SourceFlow,
}

impl InMode<'_> {
    fn at(&self, field: &str) -> String {
        format!("/electrical/sources/{}/{field}", self.supply.id)
    }

    /// The loads that this source feeds, on one leg of it.
    fn loads(&self, leg: Leg) -> impl Iterator<Item = Index> {
        let wiring = self.judged.wiring;
        (0..wiring.loads.len()).filter(move |&load| {
            let circuit = wiring.loads[load].circuit;
            let of_circuit = wiring.leg(circuit).filter(|_| self.supply.split);
            self.mode.flow.powered[load]
                && self.switching.feeds[circuit] == Some(self.index)
                && is_on(of_circuit, leg)
        })
    }

    /// What it may give for hours against what runs for hours, against the largest load alone, and against all.
    fn limit(&self, findings: &mut Findings) {
        let rating = self.mode.ratings[self.index];
        let Some(limit_a) = rating.limit_a else { return };
        let id = self.supply.id;
        if self.supply.source.kind == SourceKind::Battery {
            self.battery(limit_a, findings);
            return;
        }
        let by_power = rating.by == LimitedBy::Power;
        let rules = if by_power {
            (&POWER_OVERLOADED, &POWER_CANNOT_RUN_ALL)
        } else {
            (&SUPPLY_OVERLOADED, &SUPPLY_CANNOT_RUN_ALL)
        };
        let at = match rating.by {
            LimitedBy::Power => self.at("continuous_w"),
            LimitedBy::Path(name) => self.at(&format!("path_a/{name}")),
            LimitedBy::Mode => format!("/electrical/modes/{}/limits_a/{id}", self.switching.id),
            LimitedBy::Rating | LimitedBy::Nothing => self.at("rating_a"),
        };
        let managed = self.is_managed();
        let sides: &[Leg] = if self.supply.split { &[Leg::A, Leg::B] } else { &[Leg::A] };
        for (&side, drawn) in sides.iter().zip(&self.gives.legs) {
            let leg = match (self.supply.split, side) {
                (true, Leg::A) => " on leg a",
                (true, _) => " on leg b",
                _ => "",
            };
            let names = |loads: Vec<Index>| {
                loads.iter().map(|&load| self.judged.wiring.loads[load].id).collect::<Vec<_>>().join(", ")
            };
            let loads = &self.mode.flow.loads;
            // A load of less than three hours may reach the rating itself.
            let most_a = rating.rating_a.filter(|_| !by_power).unwrap_or(limit_a);
            let alone = self.loads(side).find(|&load| exceeds(loads[load].current_a, most_a));
            if exceeds(drawn.continuous_a, limit_a) && !managed {
                let running: Vec<Index> =
                    self.loads(side).filter(|&load| loads[load].continuous_a > 0.0).collect();
                let remedy = if running.len() > 1 {
                    "Take a larger supply, switch one of them so that they cannot run together, or let energy management shed one."
                } else {
                    "Take a larger supply, or leave it off in this mode."
                };
                findings.add(rules.0.finding(
                    at.clone(),
                    Some(drawn.continuous_a),
                    Some(limit_a),
                    format!(
                        "In mode {} what runs for hours on {id}{leg} ({}) takes {} A; it may give {} A for hours.",
                        self.switching.id,
                        names(running),
                        figure(drawn.continuous_a, 1),
                        figure(limit_a, 1)
                    ),
                    remedy,
                ));
            } else if let Some(load) = alone {
                findings.add(rules.0.finding(
                    at.clone(),
                    Some(loads[load].current_a),
                    Some(most_a),
                    format!(
                        "In mode {} {} alone takes {} A of {id}{leg}; it may give {} A.",
                        self.switching.id,
                        self.judged.wiring.loads[load].id,
                        figure(loads[load].current_a, 1),
                        figure(most_a, 1)
                    ),
                    "Take a larger supply, or leave it off in this mode.",
                ));
            } else if exceeds(drawn.current_a, limit_a) {
                findings.add(rules.1.finding(
                    at.clone(),
                    Some(drawn.current_a),
                    Some(limit_a),
                    format!(
                        "In mode {} everything on {id}{leg} together takes {} A; it may give {} A for hours.{}",
                        self.switching.id,
                        figure(drawn.current_a, 1),
                        figure(limit_a, 1),
                        self.conflicts()
                    ),
                    "Tell the owner what may run together: the report lists it.",
                ));
            } else if exceeds(drawn.current_a, limit_a * (1.0 - conductors::TIGHT)) {
                let left = 1.0 - drawn.current_a / limit_a;
                findings.add(LIMIT_TIGHT.finding(
                    at.clone(),
                    Some(left),
                    Some(conductors::TIGHT),
                    format!(
                        "In mode {} everything on {id}{leg} together takes {} A of the {} A it may give for hours.",
                        self.switching.id,
                        figure(drawn.current_a, 1),
                        figure(limit_a, 1)
                    ),
                    "It holds as listed; leave room for what is plugged in later.",
                ));
            }
        }
    }

    /// What a battery may give against what it gives with everything on, and with its inverters at their rated output.
    fn battery(&self, limit_a: f64, findings: &mut Findings) {
        let id = self.supply.id;
        let (actual_a, rated_a) = (self.gives.actual_a, self.gives.drawn.current_a);
        let (rule, current_a, what, remedy) = if exceeds(actual_a, limit_a) {
            let remedy = "Take a bank that may give more, or run less at a time.";
            (&BATTERY_OVERLOADED, actual_a, "with everything on", remedy)
        } else if exceeds(rated_a, limit_a) {
            let remedy = "Tell the owner what may run together, or take a bank that may give more.";
            (&BATTERY_BELOW_INVERTERS, rated_a, "with its inverters at their rated output", remedy)
        } else {
            return;
        };
        findings.add(rule.finding(
            format!("/electrical/sources/{id}"),
            Some(current_a),
            Some(limit_a),
            format!(
                "In mode {} {what}, {id} gives {} A; it may give {} A.",
                self.switching.id,
                figure(current_a, 1),
                figure(limit_a, 1)
            ),
            remedy,
        ));
    }

    /// Does energy management hold what runs together within the rating?
    fn is_managed(&self) -> bool {
        self.judged.wiring.energy_management && self.supply.source.kind == SourceKind::Shore
    }

    /// The first conflicts, for a person.
    fn conflicts(&self) -> String {
        let wiring = self.judged.wiring;
        let here = |load: &usize| self.switching.feeds[wiring.loads[*load].circuit] == Some(self.index);
        let conflicts: Vec<String> = (self.mode.together.conflicts.iter())
            .filter(|conflict| conflict.len() > 1 && conflict.iter().all(here))
            .take(2)
            .map(|conflict| {
                conflict.iter().map(|&load| wiring.loads[load].id).collect::<Vec<_>>().join(" + ")
            })
            .collect();
        if conflicts.is_empty() { String::new() } else { format!(" Not together: {}.", conflicts.join("; ")) }
    }

    /// Starts on an inverter or generator.
    fn starts(&self, findings: &mut Findings) {
        let (Some(surge_w), Some(starter)) = (self.supply.source.surge_w, self.gives.starter) else { return };
        let wiring = self.judged.wiring;
        let va = |load: Index| {
            let volts =
                self.mode.flow.circuits[wiring.loads[load].circuit].map_or(0.0, |circuit| circuit.voltage_v);
            self.mode.flow.loads[load].current_a * volts
        };
        let start = |load: Index| va(load) * inrush_multiple(&wiring.loads[load], true);
        let all = || {
            (0..wiring.loads.len()).filter(|&load| {
                self.mode.flow.powered[load]
                    && self.switching.feeds[wiring.loads[load].circuit] == Some(self.index)
            })
        };
        let beside = |starting: Index| -> f64 {
            all().filter(|&load| load != starting && wiring.loads[load].continuous).map(va).sum()
        };
        // A load that only runs is for the continuous power to judge, where that is given.
        let counts = |load: Index| {
            inrush_multiple(&wiring.loads[load], true) > 1.0 || self.supply.source.continuous_w.is_none()
        };
        let worst = all()
            .filter(|&load| counts(load))
            .map(|load| (start(load) + beside(load), load))
            .max_by(|a, b| a.0.total_cmp(&b.0));
        let at = self.at("surge_w");
        let words = |start_va: f64, load: Index, others: &str| {
            format!(
                "In mode {} {} asks for {} VA of {} when it starts{others}; it can give {} W for a moment.",
                self.switching.id,
                wiring.loads[load].id,
                figure(start_va, 0),
                self.supply.id,
                figure(surge_w, 0)
            )
        };
        let remedy = "Fit a soft starter, run less beside it, or take a larger one.";
        if let Some((start_va, load)) = worst.filter(|(start_va, _)| exceeds(*start_va, surge_w)) {
            let message = words(start_va, load, " with what runs for hours");
            findings.add(START_OVER_SURGE.finding(at, Some(start_va), Some(surge_w), message, remedy));
        } else if exceeds(self.gives.start_va, surge_w) && counts(starter) {
            let message = words(self.gives.start_va, starter, " with everything else running");
            findings.add(START_MAY_EXCEED_SURGE.finding(
                at,
                Some(self.gives.start_va),
                Some(surge_w),
                message,
                remedy,
            ));
        }
        let (Some(surge_s), Some(continuous_w)) =
            (self.supply.source.surge_s, self.supply.source.continuous_w)
        else {
            return;
        };
        let start_s = |load: Index| wiring.loads[load].draw.inrush_s.unwrap_or(defaults::start_s(true));
        let needs_surge = |load: &Index| {
            exceeds(start(*load) + beside(*load), continuous_w)
                && inrush_multiple(&wiring.loads[*load], true) > 1.0
        };
        let longest = all().filter(needs_surge).max_by(|a, b| start_s(*a).total_cmp(&start_s(*b)));
        if let Some(load) = longest.filter(|&load| exceeds(start_s(load), surge_s)) {
            findings.add(START_OUTLASTS_SURGE.finding(
                self.at("surge_s"),
                Some(start_s(load)),
                Some(surge_s),
                format!(
                    "{} starts for {} s; {} gives its surge for {} s.",
                    wiring.loads[load].id,
                    figure(start_s(load), 2),
                    self.supply.id,
                    figure(surge_s, 2)
                ),
                remedy,
            ));
        }
    }

    /// How many circuits, and how many thermostats, shore power feeds.
    fn circuits(&self, findings: &mut Findings) {
        let Some(rating_a) = self.supply.source.rating_a else { return };
        if self.supply.source.kind != SourceKind::Shore {
            return;
        }
        // Energy management stands in for a larger supply on 30 A alone (551.42(C)).
        let managed = self.is_managed() && rating_a > SINGLE_CIRCUIT_A;
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
        if let Some(most) = most.filter(|most| count as u32 > *most && !managed) {
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
        let thermostat = |load: &Index| {
            let load = &wiring.loads[*load];
            load.kind == LoadKind::RoomAirConditioner || load.draw.thermostat == Some(true)
        };
        let on_it = |load: &Index| self.switching.feeds[wiring.loads[*load].circuit] == Some(self.index);
        let thermostats: Vec<Index> = (0..wiring.loads.len()).filter(on_it).filter(thermostat).collect();
        let count: f64 = thermostats.iter().map(|&load| wiring.loads[load].quantity).sum();
        if rating_a < 50.0 && exceeds(count, THERMOSTATS) && !managed {
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
                format!("/electrical/sources/{}", self.supply.id),
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
        if let Some(arriving_v) = arriving_v
            && exceeds(cutoff_v, arriving_v)
        {
            findings.add(INVERTER_BELOW_CUTOFF.finding(
                self.at("cutoff_v"),
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
                self.at("cutoff_v"),
                Some(at_start_v),
                Some(cutoff_v),
                format!(
                    "In mode {} while {} starts, {id} gets {} V{over}; it shuts off at {} V.",
                    self.switching.id,
                    wiring.loads[starter].id,
                    figure(at_start_v, 2),
                    figure(cutoff_v, 1)
                ),
                "Fit a soft starter, take heavier or shorter cable, or a bank of less resistance.",
            ));
        }
    }

    /// How often the loads on at one moment pass the rating. What a battery may give is judged with everything on.
    fn demand(&self, findings: &mut Findings) {
        if self.supply.source.kind == SourceKind::Battery {
            return;
        }
        let (Some(demand), Some(rating_a)) =
            (&self.mode.demands[self.index], self.mode.ratings[self.index].rating_a)
        else {
            return;
        };
        let worst =
            demand.hours.iter().enumerate().max_by(|a, b| {
                a.1.risk.unwrap_or(0.0).total_cmp(&b.1.risk.unwrap_or(0.0)).then(b.0.cmp(&a.0))
            });
        let Some((hour, risk)) = worst.and_then(|(hour, numbers)| Some((hour, numbers.risk?))) else {
            return;
        };
        if exceeds(risk, TRIP_RISK_MOST) && !self.is_managed() {
            findings.add(TRIP_RISK.finding(
                self.at("rating_a"),
                Some(risk),
                Some(TRIP_RISK_MOST),
                format!(
                    "In mode {} the loads on {} pass its {} A in {} of the time{}, if they switch independently.",
                    self.switching.id,
                    self.supply.id,
                    figure(rating_a, 0),
                    percent(risk),
                    if demand.by_hour { format!(" between {hour} and {} o'clock", hour + 1) } else { String::new() }
                ),
                "Tell the owner what may run together, or take a larger supply.",
            ));
        }
    }

    /// Converter and chargers against the demand of the low-voltage loads.
    fn converter(&self, findings: &mut Findings) {
        if self.supply.source.kind != SourceKind::Battery {
            return;
        }
        let wiring = self.judged.wiring;
        let charging_a = charging_a(wiring, self.switching, self.mode, self.index);
        let connected_a = connected_a(wiring, self.switching, self.mode, self.index);
        let demand_a = converter::demand_a(connected_a);
        if charging_a > 0.0 && exceeds(demand_a, charging_a) {
            let charger = (wiring.loads.iter().zip(&self.mode.flow.powered))
                .find_map(|(load, on)| Some(load).filter(|load| *on && load.charges == Some(self.index)));
            findings.add(CONVERTER_BELOW_DEMAND.finding(
                charger.map_or_else(
                    || format!("/electrical/sources/{}", self.supply.id),
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
