//! The first page: the verdict, the few figures that matter, the gravest findings.

use super::model::{Block, Column, Note, Section, Table};
use super::weights::has_propane;
use super::words::{NONE, counted, lb, name, or_none, time};
use crate::axle_load::AxleLoadReport;
use crate::build::Build;
use crate::evaluate::EvaluateReport;
use crate::report::{Finding, Severity, figure, percent};

/// So many of the gravest findings stand on the first page.
const GRAVEST: usize = 5;

/// The page.
pub fn section(build: &Build, report: &EvaluateReport) -> Section {
    let mut page = Section::new("");
    page.blocks.push(Block::Verdict(word(report).to_owned(), report.verdict.sentence.clone()));
    page.text(
        "These papers are worked out from the list of parts and the labels. They are an estimate, not an approval: weigh the \
         trailer, loaded as it will travel, before it goes on the road.",
    );
    page.heading("The figures that matter");
    page.table(figures(build, report));
    let grave = report.findings.iter().filter(|finding| finding.severity != Severity::Note);
    let notes: Vec<Note> = grave.clone().take(GRAVEST).map(note).collect();
    if !notes.is_empty() {
        page.heading("What to know first");
        page.blocks.push(Block::Notes(notes));
        let more = grave.count().saturating_sub(GRAVEST);
        if more > 0 {
            page.text(format!(
                "{} more of this weight, and every note, are on the last pages.",
                figure(more as f64, 0)
            ));
        }
    }
    page
}

fn word(report: &EvaluateReport) -> &'static str {
    match report.verdict.status {
        "violation" => "Not as it is",
        "caution" => "Within its ratings, with cautions",
        _ if report.verdict.not_worked_out.is_empty() => "Within its ratings",
        _ => "Not all was worked out",
    }
}

/// A finding without its source.
fn note(finding: &Finding) -> Note {
    Note {
        severity: finding.severity.word(),
        message: finding.message.clone(),
        remedy: finding.remedy.to_string(),
        source: String::new(),
    }
}

fn figures(build: &Build, report: &EvaluateReport) -> Table {
    let mut table = Table::new(&[("", Column::Words), ("", Column::Figures), ("", Column::Words)]);
    let mut row =
        |what: &str, figure: String, meaning: String| table.row(vec![what.to_owned(), figure, meaning]);
    if let Some(payload) = &report.payload {
        row(
            "Empty",
            format!("{} lb", lb(payload.unloaded_mass_lb)),
            if has_propane(build) {
                "propane full, no water, nothing loaded"
            } else {
                "no water, nothing loaded"
            }
            .to_owned(),
        );
        row(
            "Most it may weigh (GVWR)",
            format!("{} lb", lb(payload.gvwr_lb)),
            "by its certification label".to_owned(),
        );
        let heaviest = payload.states.iter().max_by(|a, b| a.1.gross_mass_lb.total_cmp(&b.1.gross_mass_lb));
        if let Some((id, state)) = heaviest {
            row(
                "Left to load",
                format!("{} lb", lb(state.payload_left_lb)),
                format!("in its heaviest state, {}, at {} lb", name(id), lb(state.gross_mass_lb)),
            );
        }
    }
    if let Some(axle_load) = &report.axle_load {
        if let Some((least, greatest)) = tongue_range(axle_load) {
            let share = if least == greatest { least.clone() } else { format!("{least} to {greatest}") };
            row("Tongue", share, "of the gross weight, on the road; 10 to 15 % is right".to_owned());
        }
        let psi = build.axles().filter_map(|(_, axle)| axle.tire_psi).reduce(f64::max);
        if psi.is_some() {
            row("Tires, cold", format!("{} psi", or_none(psi, 0)), "see the loading guide".to_owned());
        }
    }
    if let Some(energy) = &report.energy_budget {
        let lasts = energy.autonomy_h.map_or("no end".to_owned(), time);
        row("Battery alone", lasts, "from full, without sun or plug".to_owned());
    }
    if let Some(cooling) = &report.cooling_load {
        let held =
            cooling.held_f.map_or_else(|| NONE.to_owned(), |held_f| format!("{} °F", figure(held_f, 0)));
        if cooling.held_f.is_some() {
            row("Hottest afternoon, cooled", held, "inside, with the air conditioner plugged in".to_owned());
        }
        row(
            "Hottest afternoon, not cooled",
            format!("{} °F", figure(cooling.uncooled_f, 0)),
            "inside, closed, with nothing that cools: leave no one in it".to_owned(),
        );
    }
    let count = |count: u32, noun: &str| counted(count as usize, noun);
    row(
        "Findings",
        figure(
            f64::from(
                report.verdict.violation_count + report.verdict.caution_count + report.verdict.note_count,
            ),
            0,
        ),
        format!(
            "{}, {}, {}",
            count(report.verdict.violation_count, "violation"),
            count(report.verdict.caution_count, "caution"),
            count(report.verdict.note_count, "note")
        ),
    );
    table
}

/// Least and greatest share of the tongue in the states that move.
fn tongue_range(report: &AxleLoadReport) -> Option<(String, String)> {
    let shares = || report.states.values().filter(|state| state.moving).map(|state| state.tongue_fraction);
    Some((percent(shares().reduce(f64::min)?), percent(shares().reduce(f64::max)?)))
}
