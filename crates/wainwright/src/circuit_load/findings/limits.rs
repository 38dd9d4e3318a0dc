//! What a source may give for hours against what runs for hours, against the largest load alone, and against all.

use super::source_in_mode::SourceInMode;
use super::*;
use crate::build::{Leg, SourceKind};
use crate::circuit_load::drawn::Drawn;
use crate::circuit_load::ratings::LimitedBy;
use crate::circuit_load::wiring::Index;
use crate::report::{exceeds, figure, percent};

/// A chance of passing the rating that a person notices. Common practice.
const TRIP_RISK_MOST: f64 = 0.05;

pub(super) fn judge(source: &SourceInMode, findings: &mut Findings) {
    if source.supply.source.kind == SourceKind::Battery {
        battery(source, findings);
        return;
    }
    trip_risk(source, findings);
    let Some(limit_a) = source.mode.ratings[source.index].limit_a else { return };
    let legs: &[(Leg, &str)] =
        if source.supply.split { &[(Leg::A, " on leg a"), (Leg::B, " on leg b")] } else { &[(Leg::A, "")] };
    for ((leg, words), drawn) in legs.iter().zip(&source.gives.legs) {
        let name = format!("{}{words}", source.supply.id);
        OnLeg { source, name, leg: *leg, drawn, limit_a }.judge(findings);
    }
}

/// What one leg of a source gives, or all of it where it has one.
struct OnLeg<'a> {
    source: &'a SourceInMode<'a>,
    name: String,
    leg: Leg,
    drawn: &'a Drawn,
    limit_a: f64,
}

impl OnLeg<'_> {
    /// The gravest alone: what holds for all follows from what holds for one.
    fn judge(&self, findings: &mut Findings) {
        let (drawn, limit_a) = (self.drawn, self.limit_a);
        if exceeds(drawn.continuous_a, limit_a) && !self.source.is_managed() {
            findings.add(self.for_hours());
        } else if let Some(finding) = self.alone() {
            findings.add(finding);
        } else if exceeds(drawn.current_a, limit_a) {
            findings.add(self.all_together());
        } else if exceeds(drawn.current_a, limit_a * (1.0 - TIGHT)) {
            findings.add(self.tight());
        }
    }

    fn by_power(&self) -> bool {
        self.source.mode.ratings[self.source.index].by == LimitedBy::Power
    }

    /// Where the limit stands in the build.
    fn at(&self) -> String {
        if self.by_power() { self.source.at("continuous_w") } else { self.source.rating_at() }
    }

    /// What runs for hours, or one load alone, is past the limit.
    fn overloaded(&self) -> &'static Rule {
        if self.by_power() { &POWER_OVERLOADED } else { &SUPPLY_OVERLOADED }
    }

    fn for_hours(&self) -> Finding {
        let loads = &self.source.mode.flow.loads;
        let running = self.source.loads_on(self.leg).filter(|&load| loads[load].continuous_a > 0.0);
        let names: Vec<&str> = running.map(|load| self.source.judged.wiring.loads[load].id).collect();
        self.overloaded().finding(
            self.at(),
            Some(self.drawn.continuous_a),
            Some(self.limit_a),
            format!(
                "In mode {} what runs for hours on {} ({}) takes {} A; it may give {} A for hours.",
                self.source.switching.id,
                self.name,
                names.join(", "),
                figure(self.drawn.continuous_a, 1),
                figure(self.limit_a, 1)
            ),
            if names.len() > 1 {
                "Take a larger supply, switch one of them so that they cannot run together, or let energy management shed one."
            } else {
                "Take a larger supply, or leave it off in this mode."
            },
        )
    }

    /// The first load that is too much alone. One of less than three hours may reach the rating itself.
    fn alone(&self) -> Option<Finding> {
        let source = self.source;
        let rating_a = source.mode.ratings[source.index].rating_a.filter(|_| !self.by_power());
        let most_a = rating_a.unwrap_or(self.limit_a);
        let current_a = |load: Index| source.mode.flow.loads[load].current_a;
        let load = source.loads_on(self.leg).find(|&load| exceeds(current_a(load), most_a))?;
        Some(self.overloaded().finding(
            self.at(),
            Some(current_a(load)),
            Some(most_a),
            format!(
                "In mode {} {} alone takes {} A of {}; it may give {} A.",
                source.switching.id,
                counted(&source.judged.wiring.loads[load]),
                figure(current_a(load), 1),
                self.name,
                figure(most_a, 1)
            ),
            "Take a larger supply, or leave it off in this mode.",
        ))
    }

    fn all_together(&self) -> Finding {
        let rule = if self.by_power() { &POWER_CANNOT_RUN_ALL } else { &SUPPLY_CANNOT_RUN_ALL };
        rule.finding(
            self.at(),
            Some(self.drawn.current_a),
            Some(self.limit_a),
            format!(
                "In mode {} everything on {} together takes {} A; it may give {} A for hours.{}",
                self.source.switching.id,
                self.name,
                figure(self.drawn.current_a, 1),
                figure(self.limit_a, 1),
                conflicts(self.source)
            ),
            "Tell the owner what may run together: the report lists it.",
        )
    }

    fn tight(&self) -> Finding {
        LIMIT_TIGHT.finding(
            self.at(),
            Some(1.0 - self.drawn.current_a / self.limit_a),
            Some(TIGHT),
            format!(
                "In mode {} everything on {} together takes {} A of the {} A it may give for hours.",
                self.source.switching.id,
                self.name,
                figure(self.drawn.current_a, 1),
                figure(self.limit_a, 1)
            ),
            "It holds as listed; leave room for what is plugged in later.",
        )
    }
}

/// The first conflicts, for a person.
fn conflicts(source: &SourceInMode) -> String {
    let name = |load: &Index| source.judged.wiring.loads[*load].id;
    let here = |conflict: &&Vec<Index>| conflict.len() > 1 && conflict.iter().all(|&load| source.feeds(load));
    let sums = |conflict: &Vec<Index>| conflict.iter().map(name).collect::<Vec<_>>().join(" + ");
    let first: Vec<String> = source.mode.together.conflicts.iter().filter(here).take(2).map(sums).collect();
    if first.is_empty() { String::new() } else { format!(" Not together: {}.", first.join("; ")) }
}

/// What a battery may give against what it gives with everything on, and with its inverters at their rated output.
fn battery(source: &SourceInMode, findings: &mut Findings) {
    let Some(limit_a) = source.mode.ratings[source.index].limit_a else { return };
    let (actual_a, rated_a) = (source.gives.actual.current_a, source.gives.drawn.current_a);
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
        source.here(),
        Some(current_a),
        Some(limit_a),
        format!(
            "In mode {} {what}, {} gives {} A; it may give {} A.",
            source.switching.id,
            source.supply.id,
            figure(current_a, 1),
            figure(limit_a, 1)
        ),
        remedy,
    ));
}

/// How often the loads on at one moment pass the rating. What a battery may give is judged with everything on.
fn trip_risk(source: &SourceInMode, findings: &mut Findings) {
    let (Some(demand), Some(rating_a)) =
        (&source.mode.demands[source.index], source.mode.ratings[source.index].rating_a)
    else {
        return;
    };
    // Of hours as bad as each other the first.
    let hours = demand.hours.iter().enumerate().filter_map(|(hour, numbers)| Some((hour, numbers.risk?)));
    let Some((hour, risk)) = hours.reduce(|worst, other| if other.1 > worst.1 { other } else { worst })
    else {
        return;
    };
    if exceeds(risk, TRIP_RISK_MOST) && !source.is_managed() {
        findings.add(TRIP_RISK.finding(
            source.rating_at(),
            Some(risk),
            Some(TRIP_RISK_MOST),
            format!(
                "In mode {} the loads on {} pass its {} A in {} of the time{}, if they switch independently.",
                source.switching.id,
                source.supply.id,
                figure(rating_a, 0),
                percent(risk),
                if demand.by_hour {
                    format!(" between {hour} and {} o'clock", hour + 1)
                } else {
                    String::new()
                }
            ),
            "Tell the owner what may run together, or take a larger supply.",
        ));
    }
}
