//! The energy page: how long the battery lasts, what the sun brings by month, how the stay goes.

use super::drawing::{Bars, Chart, Look, Trace};
use super::model::{Column, Section, Table};
use super::words::{lb, name, not_worked_out, or_none, time};
use crate::build::Build;
use crate::energy_budget::{EnergyBudgetReport, MonthBalance};
use crate::evaluate::EvaluateReport;
use crate::report::{figure, fixed, percent};
use crate::text::month_name;

/// Below this a shortage is rounding [kWh].
const SHORT_KWH: f64 = 1e-6;

/// The page.
pub fn section(_: &Build, report: &EvaluateReport) -> Section {
    let mut page = Section::new("Battery and sun");
    let Some(energy) = &report.energy_budget else {
        page.text(not_worked_out(report, "energy_budget"));
        return page;
    };
    page.text(energy.summary.clone());
    page.text(energy.weather.meaning.to_string());
    battery(&mut page, energy);
    stay(&mut page, energy);
    months(&mut page, energy);
    loads(&mut page, energy);
    page
}

fn battery(page: &mut Section, energy: &EnergyBudgetReport) {
    page.heading("The battery alone");
    let lasts = |hours_h: Option<f64>| hours_h.map_or("longer than the weather given".to_owned(), time);
    let autonomy = &energy.autonomy;
    let soon = lasts(autonomy.worst_autonomy_h);
    let mut lines = vec![
        format!(
            "It holds {} Wh, of which {} Wh are used. A mean day takes {} Wh.",
            figure(energy.bank.capacity_wh, 0),
            figure(energy.bank.usable_wh, 0),
            figure(energy.load_wh_per_day, 0)
        ),
        format!(
            "Without any sun or other source it lasts {} from {}, {} from the worst hour of the year; with its reserve used up, {}.",
            lasts(energy.autonomy_h),
            stamp(&autonomy.start),
            soon,
            lasts(autonomy.to_flat_h)
        ),
    ];
    lines.push(match energy.days_to_recover {
        Some(days) => format!("Emptied, it is full again after {} days of sun.", figure(days, 1)),
        None => "Emptied, the sun does not fill it again in 60 days.".to_owned(),
    });
    lines.push(format!("It should last about {} years.", figure(energy.life.years, 0)));
    for (id, source) in &energy.charging {
        lines.push(format!("{} charges it with {} W while it runs.", name(id), figure(source.output_w, 0)));
    }
    page.list(lines);
}

/// An instant as people write it.
fn stamp(stamp: &str) -> String {
    stamp.get(5..).unwrap_or(stamp).replace('T', " at ")
}

fn stay(page: &mut Section, energy: &EnergyBudgetReport) {
    let Some(stay) = &energy.stay else { return };
    page.heading("The stay");
    let mut table = Table::new(&[("", Column::Words), ("", Column::Figures)]);
    let mut row = |what: &str, figure: String| table.row(vec![what.to_owned(), figure]);
    row("begins", stamp(&stay.begins));
    row(
        "days, of them grey at the beginning",
        format!("{}, {}", figure(stay.days, 1), figure(f64::from(stay.grey_days), 0)),
    );
    row("the sun gives, Wh", figure(stay.harvest_wh, 0));
    row("asked for, Wh", figure(stay.load_wh, 0));
    row("missing, Wh", figure(stay.unmet_wh, 0));
    row("the battery falls to", percent(stay.lowest_soc.max(0.0)));
    row("everything runs for", stay.lasts_h.map_or("all of it".to_owned(), time));
    page.table(table);
}

fn months(page: &mut Section, energy: &EnergyBudgetReport) {
    if energy.months.is_empty() {
        return;
    }
    page.heading("Month by month");
    let of = |figure: fn(&MonthBalance) -> f64| energy.months.iter().map(figure).collect::<Vec<f64>>();
    let names =
        || energy.months.iter().map(|month| month_name(month.month)[..3].to_owned()).collect::<Vec<_>>();
    let balance = Chart {
        title: "What the sun could give and what is asked of the battery, month by month",
        unit: "kWh",
        names: names(),
        bars: vec![
            Bars { what: "the sun could give", look: Look::Open, values: of(|month| month.harvest_kwh) },
            Bars { what: "asked for", look: Look::Dark, values: of(|month| month.load_kwh) },
        ],
        traces: Vec::new(),
        marks: Some(("goes short", energy.months.iter().map(|month| month.unmet_kwh > SHORT_KWH).collect())),
        from_zero: true,
    };
    page.figure(balance.drawing(), "Energy of each month.", None);
    if energy.months.len() > 1 {
        let charge = Chart {
            title: "State of charge of the battery, month by month",
            unit: "%",
            names: names(),
            bars: Vec::new(),
            traces: vec![
                Trace { what: "mean", look: Look::Thick, values: of(|month| 100.0 * month.mean_soc) },
                Trace { what: "lowest", look: Look::Dotted, values: of(|month| 100.0 * month.lowest_soc) },
            ],
            marks: None,
            from_zero: true,
        };
        page.figure(charge.drawing(), "How full the battery is.", None);
    }
    let mut table = Table::new(&[
        ("Month", Column::Words),
        ("Sun, h a day", Column::Figures),
        ("Could give, kWh", Column::Figures),
        ("Asked for, kWh", Column::Figures),
        ("Others, kWh", Column::Figures),
        ("Missing, kWh", Column::Figures),
        ("Missing, h", Column::Figures),
        ("Lowest", Column::Figures),
    ]);
    for month in &energy.months {
        table.row(vec![
            month_name(month.month).to_owned(),
            fixed(month.sun_hours_per_day, 1),
            fixed(month.harvest_kwh, 1),
            fixed(month.load_kwh, 1),
            fixed(month.other_kwh, 1),
            fixed(month.unmet_kwh, 1),
            fixed(month.unmet_h, 0),
            percent(month.lowest_soc),
        ]);
    }
    page.table(table);
    let sizes = [
        ("array", energy.smallest_array_w.map(|array_w| format!("{} W", lb(array_w))), "battery"),
        ("battery", energy.smallest_bank_ah.map(|bank_ah| format!("{} Ah", lb(bank_ah))), "array"),
    ];
    page.list(
        sizes
            .into_iter()
            .map(|(what, size, other)| match size {
                Some(size) => {
                    format!("The smallest {what} that leaves nothing missing, this {other} kept: {size}.")
                }
                None => format!("With this {other} no {what} leaves nothing missing."),
            })
            .collect(),
    );
}

fn loads(page: &mut Section, energy: &EnergyBudgetReport) {
    page.heading(match &energy.mode {
        Some(mode) => format!("What the battery feeds in supply {}", name(mode)),
        None => "What the battery feeds".to_owned(),
    });
    let mut table = Table::new(&[
        ("", Column::Words),
        ("Running, W", Column::Figures),
        ("A day, Wh", Column::Figures),
        ("of all", Column::Figures),
    ]);
    for (id, load) in &energy.loads {
        table.row(vec![
            name(id),
            figure(load.running_w, 0),
            figure(load.load_wh_per_day, 0),
            percent(load.load_fraction),
        ]);
    }
    if energy.inverter_idle_wh_per_day > 0.0 {
        table.row(vec![
            "inverters, for themselves".to_owned(),
            or_none(None, 0),
            figure(energy.inverter_idle_wh_per_day, 0),
            String::new(),
        ]);
    }
    table.row(vec!["in all".to_owned(), String::new(), figure(energy.load_wh_per_day, 0), String::new()]);
    page.table(table);
}
