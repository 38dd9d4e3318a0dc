//! The report for people.

use std::fmt::{self, Write};

use super::report::*;
use crate::document::Keyed;
use crate::question::Answer;
use crate::report::{Assumption, Caution, Finding, figure, fixed, percent, percent_fixed};
use crate::text::{Table, heading};

impl Answer for AxleLoadReport {
    fn findings(&self) -> &[Finding] {
        &self.findings
    }

    fn assumptions(&self) -> &[Assumption] {
        &self.assumptions
    }

    fn cautions(&self) -> &[Caution] {
        self.cautions
    }

    fn write_figures(&self, out: &mut dyn Write) -> fmt::Result {
        writeln!(out, "AXLE LOAD")?;
        self.write_states(out)?;
        self.write_worst(out)?;
        self.write_checks(out)?;
        self.write_places(out)?;
        self.write_toys(out)?;
        Ok(())
    }
}

impl AxleLoadReport {
    fn write_states(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "Loading states, level and at rest, lb")?;
        let axles: Vec<&String> =
            self.states.values().next().map(|s| s.axles.keys().collect()).unwrap_or_default();
        let mut heads = vec!["", "gross", "tongue", "of gross", "center, in"];
        heads.extend(axles.iter().map(|id| id.as_str()));
        heads.extend(["jack", "tow front", "tow rear", "combination"]);
        let mut table = Table::new(&heads);
        for (id, state) in &self.states {
            let mut row = vec![
                if state.moving { id.clone() } else { format!("{id} (parked)") },
                fixed(state.gross_mass_lb, 1),
                fixed(state.tongue_lb, 1),
                percent_fixed(state.tongue_fraction),
                fixed(state.center.x_in, 1),
            ];
            row.extend(state.axles.values().map(|axle| fixed(axle.load_lb, 1)));
            row.push(or_dash(state.jack_lb));
            row.push(or_dash(state.tow_vehicle.map(|tow| tow.front_axle_lb)));
            row.push(or_dash(state.tow_vehicle.map(|tow| tow.rear_axle_lb)));
            row.push(or_dash(state.tow_vehicle.map(|tow| tow.combination_lb)));
            table.row(row);
        }
        table.write(out)
    }

    fn write_worst(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "Worst case over every tank fill and cargo choice, lb")?;
        let mut table = Table::new(&["", "least", "greatest"]);
        let pounds = |range: &Range| [fixed(range.min.value, 1), fixed(range.max.value, 1)];
        let mut row = |name: String, [least, greatest]: [String; 2]| table.row(vec![name, least, greatest]);
        row("gross mass".to_owned(), pounds(&self.worst.gross_mass_lb));
        row("tongue".to_owned(), pounds(&self.worst.tongue_lb));
        let fraction = &self.worst.tongue_fraction;
        let shares = [percent_fixed(fraction.min.value), percent_fixed(fraction.max.value)];
        row("tongue of gross".to_owned(), shares);
        for (id, axle) in &self.worst.axles {
            row(format!("axle {id}"), [fixed(axle.min.value, 1), fixed(axle.max.value, 1)]);
            row(format!("axle {id}, left"), pounds(&axle.left));
            row(format!("axle {id}, right"), pounds(&axle.right));
        }
        table.write(out)?;
        if let Some(used) = &self.normal_use {
            writeln!(
                out,
                "  in normal use, with {} lb of water going from fresh to waste: tongue {} to {} lb, {} to {} of gross; gross at most {} lb",
                figure(used.water_lb, 1),
                figure(used.tongue_min_lb, 1),
                figure(used.tongue_max_lb, 1),
                percent(used.tongue_fraction_min),
                percent(used.tongue_fraction_max),
                figure(used.gross_mass_max_lb, 1)
            )?;
        }
        Ok(())
    }

    fn write_checks(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "Limits, nearest first, in the states that move")?;
        let mut table = Table::new(&["", "load", "limit", "used", "state", "verdict"]).words_from(4);
        for check in &self.checks {
            let show = |value: f64| if check.unit == "1" { percent_fixed(value) } else { fixed(value, 1) };
            table.row(vec![
                words(&check.limit),
                show(check.value),
                show(check.bound),
                percent_fixed(check.used_fraction),
                check.state.clone(),
                check.status.to_owned(),
            ]);
        }
        table.write(out)
    }

    fn write_places(&self, out: &mut dyn Write) -> fmt::Result {
        if !self.placement.is_empty() {
            heading(out, "Where things may stand, inches behind the ball, everything else where it is")?;
        }
        let mut table = Table::new(&["", "from", "to", "because of"]).words_from(3);
        let placed = self.placement.iter().filter_map(|(id, place)| Some((id, place.as_ref()?)));
        for (id, place) in placed.clone() {
            table.row(vec![
                id.clone(),
                or_dash(place.min_x_in),
                or_dash(place.max_x_in),
                all(&place.bound_by),
            ]);
        }
        if placed.count() > 0 {
            table.write(out)?;
        }
        for (limits, ids) in by_limits(&self.no_place) {
            writeln!(out, "  no place keeps {limits}: {}", ids.join(", "))?;
        }
        if !self.largest_mass.is_empty() {
            heading(out, "Greatest mass at its place, lb")?;
            let mut table = Table::new(&["", "lb", "because of"]).words_from(2);
            for (id, largest) in &self.largest_mass {
                let row = match largest {
                    Some(LargestMass { mass_lb, bound_by, .. }) => {
                        [or_dash(*mass_lb), bound_by.as_deref().map(words).unwrap_or_default()]
                    }
                    None => ["none".to_owned(), "no mass there keeps every limit".to_owned()],
                };
                table.row(std::iter::once(id.clone()).chain(row).collect());
            }
            table.write(out)?;
        }
        let station = &self.axle_station;
        write!(out, "\n  The axle group acts at {} in", figure(station.now_in, 1))?;
        match (station.min_in, station.max_in) {
            (Some(min), Some(max)) => {
                write!(out, "; {} to {} in keeps the tongue at 10 to 15 %", figure(min, 1), figure(max, 1))?
            }
            _ => write!(out, "; no place keeps the tongue at 10 to 15 % in every state")?,
        }
        writeln!(out, "; nearest to 12.5 % is {} in", figure(station.best_in, 1))
    }

    fn write_toys(&self, out: &mut dyn Write) -> fmt::Result {
        if let Some(unhitched) = &self.unhitched {
            heading(out, "Unhitched")?;
            let show = |value: Option<f64>| {
                value.map_or_else(|| "any mass".to_owned(), |v| format!("{} lb", figure(v, 1)))
            };
            writeln!(
                out,
                "  {} at the hinge, {} in behind the ball, lifts the jack in a listed state; {} does with some fill and cargo",
                show(unhitched.lift_mass_lb),
                figure(unhitched.hinge_x_in, 1),
                show(unhitched.any_fill_lift_mass_lb)
            )?;
        }
        for (id, toy) in &self.toys {
            heading(out, &format!("Toy {id}"))?;
            if let Some(fit) = &toy.fit {
                let show = |value: Option<f64>| {
                    value.map_or_else(|| "an unknown number of".to_owned(), |value| figure(value, 1))
                };
                writeln!(
                    out,
                    "  room left in the bay: {} in of width, {} in of length, {} in of height",
                    show(fit.width_left_in),
                    figure(fit.length_left_in, 1),
                    show(fit.height_left_in)
                )?;
            }
            if let Some(ramp) = &toy.ramp {
                writeln!(out, "  ramp at {}°", figure(ramp.angle_deg, 1))?;
            }
            if let Some(floor) = &toy.floor {
                writeln!(
                    out,
                    "  heaviest wheel {} lb: {} psi in the floor panel, deflection span/{}",
                    figure(floor.wheel_lb, 0),
                    figure(floor.stress_psi, 0),
                    figure(floor.span_over_deflection, 0)
                )?;
            }
            if let Some(ties) = &toy.tie_downs {
                writeln!(
                    out,
                    "  {}: {} lb by the rule's count; {} lb is asked",
                    if ties.count == 1 {
                        "1 tie-down".to_owned()
                    } else {
                        format!("{} tie-downs", ties.count)
                    },
                    figure(ties.aggregate_lb, 1),
                    figure(ties.aggregate_needed_lb, 1)
                )?;
            }
        }
        Ok(())
    }
}

fn or_dash(value: Option<f64>) -> String {
    value.map_or_else(|| "-".to_owned(), |value| fixed(value, 1))
}

/// A limit's name in words.
pub(crate) fn words(limit: &str) -> String {
    match limit {
        "tongue_fraction_min" => return "tongue at least 10 %".to_owned(),
        "tongue_fraction_max" => return "tongue at most 15 %".to_owned(),
        _ => {}
    }
    let (what, axle) = limit.split_once('.').map_or((limit, None), |(what, axle)| (what, Some(axle)));
    let what: Vec<String> = what.split('_').map(rating_or_word).collect();
    match axle {
        Some(axle) => format!("{} of axle {axle}", what.join(" ")),
        None => what.join(" "),
    }
}

fn rating_or_word(word: &str) -> String {
    if matches!(word, "gvwr" | "gawr" | "gcwr") { word.to_uppercase() } else { word.to_owned() }
}

/// Limits in words, joined.
fn all(limits: &[String]) -> String {
    limits.iter().map(|limit| words(limit)).collect::<Vec<_>>().join(", ")
}

/// What has no place, by the limits that leave it none.
fn by_limits(no_place: &Keyed<Vec<String>>) -> Keyed<Vec<&str>> {
    let mut groups: Keyed<Vec<&str>> = Keyed::default();
    for (id, limits) in no_place {
        let limits: Vec<String> = limits.iter().map(|limit| words(limit)).collect();
        groups.entry(limits.join(" with ")).or_default().push(id);
    }
    groups
}
