//! The report for people.

use std::fmt::{self, Write};

use super::EvaluateReport;
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

/// A report whose figures can be written, whatever its type.
trait WriteFigures {
    fn write(&self, out: &mut dyn Write) -> fmt::Result;
}

impl<A: Answer> WriteFigures for A {
    fn write(&self, out: &mut dyn Write) -> fmt::Result {
        self.write_figures(out)
    }
}
