//! The report for people.

use std::fmt::{self, Write};

use super::report::*;
use crate::question::Answer;
use crate::report::{Finding, figure, percent};
use crate::text::{Table, ending, heading};

impl Answer for AxleLoadReport {
    fn findings(&self) -> &[Finding] {
        &self.findings
    }

    fn write_text(&self, out: &mut dyn Write) -> fmt::Result {
        writeln!(out, "AXLE LOAD")?;
        self.write_states(out)?;
        self.write_worst(out)?;
        self.write_checks(out)?;
        self.write_places(out)?;
        self.write_toys(out)?;
        ending(out, &self.findings, &self.assumptions, self.cautions)
    }
}

impl AxleLoadReport {
    fn write_states(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "Loading states, level and at rest, lb")?;
        let axles: Vec<&String> =
            self.states.values().next().map(|s| s.axles.keys().collect()).unwrap_or_default();
        let mut heads = vec!["", "gross", "tongue", "of gross", "center in"];
        heads.extend(axles.iter().map(|id| id.as_str()));
        heads.extend(["jack", "tow front", "tow rear", "combination"]);
        let mut table = Table::new(&heads);
        for (id, state) in &self.states {
            let mut row = vec![
                if state.moving { id.clone() } else { format!("{id} (parked)") },
                figure(state.gross_mass_lb, 1),
                figure(state.tongue_lb, 1),
                percent(state.tongue_fraction),
                figure(state.center.x_in, 1),
            ];
            row.extend(state.axles.values().map(|axle| figure(axle.load_lb, 1)));
            let or_dash = |value: Option<f64>| value.map_or_else(|| "-".to_owned(), |value| figure(value, 1));
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
        let pounds = |range: &Range| [figure(range.min.value, 1), figure(range.max.value, 1)];
        let mut row = |name: String, [least, greatest]: [String; 2]| table.row(vec![name, least, greatest]);
        row("gross mass".to_owned(), pounds(&self.worst.gross_mass_lb));
        row("tongue".to_owned(), pounds(&self.worst.tongue_lb));
        let fraction = &self.worst.tongue_fraction;
        row("tongue of gross".to_owned(), [percent(fraction.min.value), percent(fraction.max.value)]);
        for (id, axle) in &self.worst.axles {
            row(format!("axle {id}"), [figure(axle.min.value, 1), figure(axle.max.value, 1)]);
            row(format!("axle {id}, left"), pounds(&axle.left));
            row(format!("axle {id}, right"), pounds(&axle.right));
        }
        table.write(out)?;
        if let Some(used) = &self.normal_use {
            writeln!(
                out,
                "  in normal use, {} lb of water going round: tongue {} to {} lb, {} to {}; gross at most {} lb",
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
        let mut table = Table::new(&["", "load", "limit", "used", "state", "verdict"]);
        for check in &self.checks {
            let show = |value: f64| if check.unit == "1" { percent(value) } else { figure(value, 1) };
            table.row(vec![
                check.limit.clone(),
                show(check.value),
                show(check.bound),
                percent(check.used_fraction),
                check.state.clone(),
                check.status.to_owned(),
            ]);
        }
        table.write(out)
    }

    fn write_places(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "Where things may stand, inches behind the ball, everything else where it is")?;
        let mut table = Table::new(&["", "from", "to", "because of"]);
        let show = |x: Option<f64>| x.map_or_else(|| "-".to_owned(), |x| figure(x, 1));
        for (id, place) in &self.placement {
            let row = match place {
                Some(place) => [show(place.min_x_in), show(place.max_x_in), place.bound_by.join(", ")],
                None => {
                    let limits = self.no_place.get(id).map(|limits| limits.join(" and ")).unwrap_or_default();
                    ["nowhere".to_owned(), String::new(), limits]
                }
            };
            table.row(std::iter::once(id.clone()).chain(row).collect());
        }
        table.write(out)?;
        if !self.largest_mass.is_empty() {
            heading(out, "Greatest mass at its place, lb")?;
            let mut table = Table::new(&["", "lb", "because of"]);
            for (id, largest) in &self.largest_mass {
                let row = match largest {
                    Some(largest) => [show(largest.mass_lb), largest.bound_by.clone().unwrap_or_default()],
                    None => ["none".to_owned(), String::new()],
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
            _ => write!(out, "; no station keeps the tongue at 10 to 15 % in every state")?,
        }
        writeln!(out, "; best {} in", figure(station.best_in, 1))
    }

    fn write_toys(&self, out: &mut dyn Write) -> fmt::Result {
        if let Some(unhitched) = &self.unhitched {
            heading(out, "Unhitched")?;
            let show = |value: Option<f64>| {
                value.map_or_else(|| "any mass".to_owned(), |v| format!("{} lb", figure(v, 1)))
            };
            writeln!(
                out,
                "  at the hinge {} lifts the jack in the listed states, {} with some fill and cargo",
                show(unhitched.lift_mass_lb),
                show(unhitched.any_fill_lift_mass_lb)
            )?;
        }
        for (id, toy) in &self.toys {
            heading(out, &format!("Toy {id}"))?;
            if let Some(fit) = &toy.fit {
                let show =
                    |value: Option<f64>| value.map_or_else(|| "?".to_owned(), |value| figure(value, 1));
                writeln!(
                    out,
                    "  left around it: width {} in, length {} in, height {} in",
                    show(fit.width_left_in),
                    figure(fit.length_left_in, 1),
                    show(fit.height_left_in)
                )?;
            }
            if let Some(ramp) = &toy.ramp {
                writeln!(out, "  ramp {}°", figure(ramp.angle_deg, 1))?;
            }
            if let Some(floor) = &toy.floor {
                writeln!(
                    out,
                    "  heaviest wheel {} lb: {} psi, bends by a {}th of the span",
                    figure(floor.wheel_lb, 0),
                    figure(floor.stress_psi, 0),
                    figure(floor.span_over_deflection, 0)
                )?;
            }
            if let Some(ties) = &toy.tie_downs {
                writeln!(
                    out,
                    "  {} tie-downs count for {} lb of {} lb asked",
                    ties.count,
                    figure(ties.aggregate_lb, 1),
                    figure(ties.aggregate_needed_lb, 1)
                )?;
            }
        }
        Ok(())
    }
}
