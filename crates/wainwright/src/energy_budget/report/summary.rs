//! The answer in two sentences, for whoever will camp in it.

use jiff::civil::DateTime;

use super::types::{EnergyBudgetReport, MonthBalance, StayReport};
use crate::build::Build;
use crate::report::figure;
use crate::text::month_name;

/// Two sentences: the stay, or the mean day; then the dark and the year.
///
/// - `remedy`  what would put a shortage right, as the end of a sentence
pub fn summary(build: &Build, report: &EnergyBudgetReport, remedy: &str) -> String {
    let start_soc = build.stay.as_ref().and_then(|stay| stay.start_soc).unwrap_or(1.0);
    let first = match &report.stay {
        Some(stay) => of_stay(stay, start_soc),
        None => format!("A mean day takes {} Wh from the battery.", figure(report.load_wh_per_day, 0)),
    };
    format!("{first} {}", of_year(report, remedy))
}

/// How a stay goes.
fn of_stay(stay: &StayReport, start_soc: f64) -> String {
    let battery = if start_soc >= 0.995 {
        "a full battery".to_owned()
    } else {
        format!("the battery at {} %", figure(100.0 * start_soc, 0))
    };
    let grey = match stay.grey_days {
        0 => String::new(),
        1 => " and a grey day ahead".to_owned(),
        days => format!(" and {days} grey days ahead"),
    };
    let arriving = format!("Arriving on {} with {battery}{grey}", at(&stay.begins));
    match stay.lasts_h {
        None => format!(
            "{arriving}, everything runs through all {}; the battery falls to {} % on {}.",
            days(stay.days),
            figure(100.0 * stay.lowest_soc.max(0.0), 0),
            at(&stay.lowest_at)
        ),
        Some(lasts_h) => format!(
            "{arriving}, the lights go out after {}: over {} the battery is {} Wh short.",
            time(lasts_h),
            days(stay.days),
            figure(stay.unmet_wh, 0)
        ),
    }
}

/// What the dark and the year bring.
fn of_year(report: &EnergyBudgetReport, remedy: &str) -> String {
    let dark = match report.autonomy_h {
        Some(hours_h) => format!("Without any sun the battery carries the loads for {}", time(hours_h)),
        None => "Without any sun the battery carries the loads longer than the weather given".to_owned(),
    };
    let short: Vec<&MonthBalance> = report.months.iter().filter(|month| month.unmet_kwh > 1e-6).collect();
    let span = if report.months.len() >= 12 { "the year" } else { "the weather given" };
    let Some(worst) = short.iter().max_by(|a, b| a.unmet_kwh.total_cmp(&b.unmet_kwh)) else {
        return format!("{dark}; over {span} nothing goes short.");
    };
    let months = if short.len() == 1 { "one month".to_owned() } else { format!("{} months", short.len()) };
    format!(
        "{dark}; over {span} it goes short in {months}, most in {} ({} of {} kWh): {remedy}.",
        month_name(worst.month),
        figure(worst.unmet_kwh, 1),
        figure(worst.load_kwh, 1)
    )
}

/// An instant for people: October 24 at 18:00.
fn at(stamp: &str) -> String {
    match stamp.parse::<DateTime>() {
        Ok(at) => format!(
            "{} {} at {:02}:{:02}",
            month_name(u32::from(at.month().unsigned_abs())),
            at.day(),
            at.hour(),
            at.minute()
        ),
        Err(_) => stamp.to_owned(),
    }
}

fn days(days: f64) -> String {
    if days == 1.0 { "1 day".to_owned() } else { format!("{} days", figure(days, 1)) }
}

/// A time for people: minutes to two hours, hours to two days, then days.
fn time(hours_h: f64) -> String {
    if hours_h < 1.95 {
        format!("{} minutes", figure(60.0 * hours_h, 0))
    } else if hours_h < 48.0 {
        format!("{} hours", figure(hours_h, 0))
    } else {
        format!("{} days", figure(hours_h / 24.0, 1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_said_as_people_say_them() {
        assert_eq!([0.75, 30.4, 60.0].map(time), ["45 minutes", "30 hours", "2.5 days"]);
        assert_eq!((days(1.0), days(5.0)), ("1 day".to_owned(), "5 days".to_owned()));
        assert_eq!(at("2025-10-24T18:00"), "October 24 at 18:00");
        assert_eq!((month_name(1), month_name(12)), ("January", "December"));
    }
}
