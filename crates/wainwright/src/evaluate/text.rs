//! The report for people.

use std::fmt::{self, Write};

use super::{EvaluateReport, HandedOver};
use crate::question::Answer;
use crate::report::{Assumption, Caution, Finding, figure};
use crate::text::{Table, heading};

impl Answer for EvaluateReport {
    fn findings(&self) -> &[Finding] {
        &self.findings
    }

    fn assumptions(&self) -> &[Assumption] {
        &self.assumptions
    }

    fn cautions(&self) -> &[Caution] {
        &self.cautions
    }

    fn write_figures(&self, out: &mut dyn Write) -> fmt::Result {
        writeln!(out, "WHOLE BUILD")?;
        writeln!(out, "  {}", self.verdict.sentence)?;
        heading(out, "Margins")?;
        let mut margins = Table::new(&["", ""]);
        let of = &self.margins;
        for (name, value, unit, digits) in [
            ("payload left in the heaviest state", of.payload_left_lb, "lb", 1),
            ("tongue within 10 to 15 %", of.tongue_margin_fraction.map(|fraction| fraction * 100.0), "%", 1),
            ("battery alone, without sun", of.autonomy_h, "h", 1),
            (
                "air conditioner beyond the load of the peak",
                of.cooling_margin_fraction.map(|fraction| fraction * 100.0),
                "%",
                0,
            ),
        ] {
            let shown = value.map_or("-".to_owned(), |value| format!("{} {unit}", figure(value, digits)));
            margins.row(vec![name.to_owned(), shown]);
        }
        margins.write(out)?;
        if let Some(handed_over) = &self.handed_over {
            handed_over.write(out)?;
        }
        let of_question = |out: &mut dyn Write, report: Option<&dyn WriteFigures>| match report {
            Some(report) => {
                writeln!(out)?;
                report.write(out)
            }
            None => Ok(()),
        };
        of_question(out, self.payload.as_ref().map(|report| report as _))?;
        of_question(out, self.axle_load.as_ref().map(|report| report as _))?;
        of_question(out, self.circuit_load.as_ref().map(|report| report as _))?;
        of_question(out, self.energy_budget.as_ref().map(|report| report as _))?;
        of_question(out, self.cooling_load.as_ref().map(|report| report as _))
    }
}

impl HandedOver {
    fn write(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "What the questions told each other")?;
        let rounds = self.hot_day_rounds.max(self.weather_rounds);
        let rounds = if rounds == 1 { "1 round".to_owned() } else { format!("{rounds} rounds") };
        match self.settled {
            true => writeln!(out, "  settled to {} W in {rounds}", figure(self.tolerance_w, 1))?,
            false => {
                writeln!(out, "  not settled after {rounds}: {} W still change", figure(self.left_w, 1))?
            }
        }
        if let Some((part, wh)) = self.air_conditioner.as_ref().zip(self.air_conditioner_hot_day_wh) {
            let kwh = figure(wh / 1000.0, 2);
            writeln!(
                out,
                "  on the hot day {part} takes {kwh} kWh, by the hours that the heat of the box asks for"
            )?;
        }
        let kwh = figure(self.equipment_hot_day_wh / 1000.0, 2);
        writeln!(
            out,
            "  what draws power sets {kwh} kWh of heat free in the box on that day, losses counted"
        )?;
        let Some(air) = &self.box_air else { return Ok(()) };
        let mode = air.mode.as_ref().map(|mode| format!(" in mode {mode}")).unwrap_or_default();
        let by = match (air.cooled, air.heated) {
            (true, true) => "cooled and heated",
            (true, false) => "cooled",
            (false, true) => "heated",
            (false, false) => "neither cooled nor heated",
        };
        writeln!(
            out,
            "  refrigerator and battery stand in the air of the box{mode}, {by}: {} to {} °F, {} on the mean",
            figure(air.coldest_f, 0),
            figure(air.warmest_f, 0),
            figure(air.mean_f, 0)
        )
    }
}

/// A report whose figures can be written, whatever its type.
trait WriteFigures {
    fn write(&self, out: &mut dyn Write) -> fmt::Result;
}

impl<A: Answer> WriteFigures for A {
    fn write(&self, out: &mut dyn Write) -> fmt::Result {
        self.write_figures(out)
    }
}
