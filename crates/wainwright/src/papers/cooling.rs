//! The page on heat and cold: the hot day, the cold night, and where water condenses.

use super::drawing::{Bars, Chart, Look, Trace};
use super::model::{Column, Section, Table};
use super::words::{name, not_worked_out};
use crate::build::Build;
use crate::cooling_load::{CoolingLoadReport, HourLoad};
use crate::evaluate::EvaluateReport;
use crate::report::{figure, fixed, percent};
use crate::text::month_name;

/// So many single changes are told.
const CHANGES: usize = 5;

/// The page.
pub fn section(build: &Build, report: &EvaluateReport) -> Section {
    let mut page = Section::new("Heat and cold");
    let Some(cooling) = &report.cooling_load else {
        page.text(not_worked_out(report, "cooling_load"));
        return page;
    };
    page.text(cooling.summary.clone());
    hot_day(&mut page, cooling);
    changes(&mut page, cooling);
    cold_night(&mut page, build, cooling);
    page
}

fn hot_day(page: &mut Section, cooling: &CoolingLoadReport) {
    let design = &cooling.design;
    page.heading("The hot day");
    page.text(format!(
        "{} {}: {} to {} °F outside ({}).",
        month_name(design.month),
        figure(f64::from(design.day), 0),
        figure(design.min_f, 0),
        figure(design.max_f, 0),
        design.hot_day
    ));
    let names: Vec<String> = cooling.hours.iter().map(|hour| figure(f64::from(hour.hour), 0)).collect();
    let of = |figure: fn(&HourLoad) -> f64| cooling.hours.iter().map(figure).collect::<Vec<f64>>();
    let mut traces = vec![
        Trace { what: "outside", look: Look::Dashed, values: of(|hour| hour.outdoor_f) },
        Trace { what: "inside, nothing cools", look: Look::Dotted, values: of(|hour| hour.uncooled_f) },
    ];
    if cooling.held_f.is_some() {
        let what = "inside, with the air conditioner";
        traces.push(Trace { what, look: Look::Thick, values: of(|hour| hour.indoor_f) });
    }
    let air = Chart {
        title: "Air outside and inside on the hot day, hour by hour",
        unit: "°F",
        names: names.clone(),
        traces,
        ..Chart::default()
    };
    page.figure(air.drawing(), "Air by the hour of the day, standard time.", None);
    let load = Chart {
        title: "Heat to be taken out on the hot day, hour by hour",
        unit: "BTU/h",
        names,
        bars: vec![Bars {
            what: "heat to be taken out at the set temperature",
            look: Look::Pale,
            values: of(|hour| hour.load_btu_h),
        }],
        from_zero: true,
        ..Chart::default()
    };
    page.figure(
        load.drawing(),
        format!(
            "The greatest is {} BTU/h, at {}:00.",
            figure(cooling.peak.total_btu_h, 0),
            figure(f64::from(cooling.peak.hour), 0)
        ),
        Some(hours(cooling)),
    );
    let mut lines = Vec::new();
    if let Some(cooler) = &cooling.cooler {
        lines.push(format!(
            "The air conditioner ({} BTU/h) runs {} hours of that day and takes {} kWh.",
            figure(cooler.capacity_btu_h, 0),
            figure(cooler.run_h, 0),
            figure(cooling.cooling_kwh_per_day.unwrap_or(0.0), 1)
        ));
    }
    match cooling.smallest_btu_h {
        Some(size) => lines.push(format!(
            "The smallest common size that holds the set temperature has {} BTU/h.",
            figure(size, 0)
        )),
        None => lines.push("No common size of room air conditioner holds the set temperature.".to_owned()),
    }
    if let Some(pull_down) = &cooling.pull_down {
        let after = pull_down
            .air_h
            .map_or("not within a day".to_owned(), |air_h| format!("after {} h", figure(air_h, 1)));
        lines.push(format!(
            "Stood closed in the sun it is at {} °F; switched on at {}:00, the air is at the set temperature {after}.",
            figure(pull_down.soaked_f, 0),
            figure(f64::from(pull_down.start_hour), 0)
        ));
    }
    if let Some(airing) = &cooling.airing {
        lines.push(format!(
            "With fan and windows alone it gets {} °F, {} °F more than outside; it stays below {} °F up to {} °F outside.",
            figure(airing.warmest_f, 0),
            figure(airing.above_outdoor_f, 0),
            figure(airing.limit_f, 0),
            figure(airing.outdoor_limit_f, 0)
        ));
    }
    page.list(lines);
}

fn hours(cooling: &CoolingLoadReport) -> Table {
    let mut table = Table::new(&[
        ("Hour", Column::Figures),
        ("Outside, °F", Column::Figures),
        ("Nothing cools, °F", Column::Figures),
        ("Inside, °F", Column::Figures),
        ("Heat, BTU/h", Column::Figures),
        ("Runs", Column::Figures),
    ]);
    for hour in &cooling.hours {
        table.row(vec![
            figure(f64::from(hour.hour), 0),
            fixed(hour.outdoor_f, 0),
            fixed(hour.uncooled_f, 0),
            fixed(hour.indoor_f, 0),
            figure(hour.load_btu_h, 0),
            percent(hour.run_fraction),
        ]);
    }
    table
}

fn changes(page: &mut Section, cooling: &CoolingLoadReport) {
    let help: Vec<String> = cooling
        .changes
        .iter()
        .filter(|change| change.peak_saved_btu_h > 0.5)
        .take(CHANGES)
        .map(|change| {
            format!(
                "{}: {} BTU/h less at the peak, {} °F at the warmest.",
                change.meaning,
                figure(change.peak_saved_btu_h, 0),
                figure(change.warmest_f, 0)
            )
        })
        .collect();
    if !help.is_empty() {
        page.heading("What would help");
        page.list(help);
    }
}

fn cold_night(page: &mut Section, build: &Build, cooling: &CoolingLoadReport) {
    let heating = &cooling.heating;
    page.heading("The cold night");
    let mut lines = vec![format!(
        "At {} °F outside it takes {} BTU/h to stay at {} °F, {} BTU/h with what it takes to warm up ({}).",
        figure(heating.outdoor_f, 0),
        figure(heating.load_btu_h, 0),
        figure(heating.indoor_f, 0),
        figure(heating.with_warm_up_btu_h, 0),
        cooling.design.cold_night
    )];
    if let Some(capacity) = heating.capacity_btu_h {
        let holds = match heating.holds_to_f {
            Some(holds_to_f) => format!("holds it down to {} °F outside", figure(holds_to_f, 0)),
            None => "holds it in any cold".to_owned(),
        };
        lines.push(format!("The heater gives {} BTU/h and {holds}.", figure(capacity, 0)));
    }
    if let Some(pounds) = heating.propane_lb {
        let gallons =
            heating.propane_gal.map_or_else(String::new, |gallons| format!(" ({} gal)", figure(gallons, 1)));
        lines.push(format!(
            "A night of {} h burns {} lb{gallons} of propane.",
            figure(heating.night_h, 0),
            figure(pounds, 1)
        ));
    }
    if let Some(kwh) = heating.night_kwh {
        lines.push(format!("A night of {} h takes {} kWh.", figure(heating.night_h, 0), figure(kwh, 1)));
    }
    page.list(lines);
    condensation(page, build, cooling);
}

fn condensation(page: &mut Section, _: &Build, cooling: &CoolingLoadReport) {
    let damp = &cooling.condensation;
    page.heading("Where water condenses");
    page.text(format!(
        "On the cold night the air inside is {} damp; water condenses on what is colder than {} °F.",
        percent(damp.humidity_fraction),
        figure(damp.dew_point_f, 0)
    ));
    let mut table = Table::new(&[
        ("Inside of", Column::Words),
        ("Its surface, °F", Column::Figures),
        ("Over a post, °F", Column::Figures),
        ("", Column::Words),
    ]);
    for (id, inside) in &damp.insides {
        let coldest =
            inside.coldest_f.map_or_else(|| super::words::NONE.to_owned(), |coldest_f| fixed(coldest_f, 0));
        let word = if inside.drips { "drips" } else { "stays dry" };
        table.row(vec![name(id), fixed(inside.inside_f, 0), coldest, word.to_owned()]);
    }
    page.table(table);
}
