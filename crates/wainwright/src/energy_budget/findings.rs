//! The rules of the energy budget, and a build held against them.

use super::bank::usual;
use super::numbers::Numbers;
use super::report::station_away_mi;
use super::setup::Setup;
use crate::build::Build;
use crate::report::{Finding, Findings, figure, percent, rules};
use crate::site_weather::Origin;
use crate::text::month_name;

/// Share of the load that the idle draw of inverters may take before it is said.
const IDLE_FRACTION: f64 = 0.2;
/// Share of the harvest that a controller's limit may keep back before it is said.
const CLIPPED_FRACTION: f64 = 0.05;
/// Hours without sun that a battery should carry the loads: one night and the grey day after it.
const LEAST_AUTONOMY_H: f64 = 24.0;
/// Days after which a lead-acid battery that was never full hardens.
const MOST_DAYS_WITHOUT_FULL: f64 = 14.0;
/// How far a station may be before its weather is another's [mi].
const MOST_AWAY_MI: f64 = 100.0;
/// How far apart worksheet and simulation may be, as a ratio.
const MOST_WORKSHEET_RATIO: f64 = 1.5;
/// An array or a battery so many times as large is no remedy.
const MOST_TIMES: f64 = 4.0;
/// Years that a battery should last.
const LEAST_YEARS: f64 = 3.0;
/// Steps in which something must happen before it is said: one may be chance [h].
const A_FEW_H: f64 = 3.0;

rules! {
    shared {}
    LOAD_UNMET: Caution Maximum "h", "load_unmet",
        "Through the weather given the battery is empty in some hours, and loads go without power.",
        "common practice";
    STAY_RUNS_EMPTY: Caution Minimum "h", "stay_runs_empty",
        "In the stay the battery is empty before it ends.",
        "common practice";
    STAY_OUTSIDE_WEATHER: Note - -, "stay_outside_weather",
        "The stay is not in the weather given, or not all of it: what lies outside was not worked out.",
        "common practice";
    AUTONOMY_SHORT: Caution Minimum "h", "autonomy_short",
        "A full battery does not carry the loads through a night and a grey day.",
        "common practice: at least a day, better two or three";
    CHARGE_TOO_COLD: Caution Maximum "Wh", "charge_too_cold",
        "Sunlight is lost because the battery is too cold to be charged.",
        "common practice: no charge of lithium iron phosphate below 0 °C (32 °F)";
    BATTERY_MAY_FREEZE: Caution Maximum "h", "battery_may_freeze",
        "A lead-acid battery is so cold and so empty that it may freeze.",
        "handbook figures (from memory)";
    REFRIGERATOR_CANNOT_HOLD: Caution Maximum "h", "refrigerator_cannot_hold",
        "A refrigerator runs without a stop and still does not keep its temperature.",
        "common practice";
    INVERTER_IDLE_LARGE: Note Maximum "fraction", "inverter_idle_large",
        "Inverters take a large part of the energy for themselves.",
        "common practice";
    CONTROLLER_CLIPS: Note Maximum "fraction", "controller_clips",
        "The controller's limit keeps back a part of what the arrays could give.",
        "common practice";
    ARRAY_VOLTAGE_SHORT: Caution Maximum "h", "array_voltage_short",
        "In good light an array gives nothing, because its voltage does not reach that of the battery.",
        "common practice: a string needs about 1 V above the battery";
    SELDOM_FULL: Caution Maximum "days", "seldom_full",
        "A lead-acid battery is not full for weeks, and hardens.",
        "common practice: full at least every one to two weeks";
    LIFE_SHORT: Note Minimum "years", "life_short",
        "Used like this, the battery's cycles are used up early.",
        "common practice";
    WEATHER_OF_ANOTHER_PLACE: Caution Maximum "mi", "weather_of_another_place",
        "The station that the weather is from is far from the site.",
        "common practice: 10 to 20 percent within 120 mi or 3,000 ft of height";
    CLEAR_SKY_ALL_YEAR: Caution - -, "clear_sky_all_year",
        "The answer holds for a sky without clouds, which no place has.",
        "common practice";
    MONTH_BRIGHTER_THAN_SUN: Note Maximum "kWh/(m2·day)", "month_brighter_than_sun",
        "The mean given for a month is more than the sun gives through the clearest air; the month was made as bright as can be.",
        "clear-sky model of Ineichen and Perez at Linke turbidity 2";
    WORKSHEET_DIFFERS: Note Maximum "ratio", "worksheet_differs",
        "The array of the one-line worksheet is far from that of the simulation.",
        "common practice";
    SUPPLY_IN_MODE: Note - -, "supply_in_mode",
        "The supply mode that was looked at has shore power or a generator in it; what they feed does not count here.",
        "common practice";
    PARTS_WITHOUT_BATTERY: Note - -, "parts_without_battery",
        "Some parts that draw power are not fed by the battery in the supply mode that was looked at, and do not count.",
        "common practice";
    HARVEST_WITHOUT_ARRAY: Note - -, "harvest_without_array",
        "The build has no solar array, so that nothing is harvested.",
        "common practice";
}

/// What the rules say of a build.
pub(super) fn findings(build: &Build, setup: &Setup, numbers: &Numbers) -> Vec<Finding> {
    let mut all = Findings::default();
    of_year(setup, numbers, &mut all);
    of_stay(build, setup, numbers, &mut all);
    of_battery(setup, numbers, &mut all);
    of_solar(build, setup, numbers, &mut all);
    of_loads(setup, numbers, &mut all);
    of_weather(build, setup, &mut all);
    all.in_order()
}

fn hours(hours_h: f64) -> String {
    format!("{} h", figure(hours_h, 1))
}

/// What would put a shortage right, by the sizes that were found: those that are no more than a few times what is there.
pub(super) fn remedy(setup: &Setup, numbers: &Numbers) -> String {
    if numbers.smallest_bank.size().is_some_and(|ah| ah <= setup.house.given_ah) {
        return "that is no more than the share of the load that may go unmet".to_owned();
    }
    let rated_w = setup.harvester.rated_w();
    // A first array is a remedy of any size.
    let is_fair = |watts: &f64| rated_w == 0.0 || *watts <= MOST_TIMES * rated_w;
    let array = numbers.smallest_array.size().filter(is_fair);
    let bank = numbers.smallest_bank.size().filter(|ah| *ah <= MOST_TIMES * setup.house.given_ah);
    let array = array.map(|watts| {
        let most_w = setup.given_w.iter().copied().fold(0.0, f64::max) * watts / rated_w;
        let most_a = (most_w / setup.house.bank.nominal_v).ceil();
        let controller = if most_w > setup.harvester.most_w {
            format!(" behind a controller of {} A", figure(most_a, 0))
        } else {
            String::new()
        };
        format!("{} W of array{controller}", figure(watts.ceil(), 0))
    });
    let bank = bank.map(|ah| format!("{} Ah of battery", figure(ah.ceil(), 0)));
    match (array, bank) {
        (Some(array), Some(bank)) => format!("{array} or {bank} would do, everything else as it is"),
        (Some(one), None) | (None, Some(one)) => format!("{one} would do, everything else as it is"),
        (None, None) => "neither more array nor more battery alone mends that; enlarge both, add a charging source, or use less".to_owned(),
    }
}

/// The remedy as a sentence.
fn remedy_sentence(setup: &Setup, numbers: &Numbers) -> String {
    let remedy = remedy(setup, numbers);
    let mut letters = remedy.chars();
    let first = letters.next().map(|first| first.to_uppercase().collect::<String>()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

fn of_year(setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    let whole = &numbers.books.whole;
    if whole.unmet_h > 0.0 {
        let worst = numbers.books.months.iter().max_by(|a, b| a.unmet_wh.total_cmp(&b.unmet_wh));
        let worst = worst.map_or(String::new(), |month| {
            let name = month_name(u32::from(month.first_day.month().unsigned_abs()));
            format!(", most in {name} ({} kWh)", figure(month.unmet_wh / 1000.0, 1))
        });
        let message =
            format!("Through the weather given loads go without power for {}{worst}.", hours(whole.unmet_h));
        all.add(LOAD_UNMET.finding(
            "/battery/capacity_ah",
            Some(whole.unmet_h),
            Some(0.0),
            message,
            remedy_sentence(setup, numbers),
        ));
    }
    let worst = &numbers.worst_autonomy;
    if let Some(hours_h) = worst.hours_h.filter(|hours_h| *hours_h < LEAST_AUTONOMY_H) {
        let message = format!(
            "A full battery carries the loads for {} without sun where most is asked of it.",
            hours(hours_h)
        );
        let day = (LEAST_AUTONOMY_H / setup.step_h) as usize;
        let asked_wh = setup.from(worst.start).into_iter().flatten().take(day).map(|step| setup.load_w[step]);
        let needed_ah = asked_wh.sum::<f64>() * setup.step_h
            / setup.house.bank.nominal_v
            / (setup.house.temper.usable * setup.house.bank.discharge_efficiency);
        let remedy = format!(
            "The {} from then on ask for {} Ah of this battery, and for more in the cold; or use less.",
            hours(LEAST_AUTONOMY_H),
            figure(needed_ah.ceil(), 0)
        );
        all.add(AUTONOMY_SHORT.finding(
            "/battery/capacity_ah",
            Some(hours_h),
            Some(LEAST_AUTONOMY_H),
            message,
            remedy,
        ));
    }
    if let Some(sheet) = &numbers.worksheet
        && let Some(array_w) = numbers.smallest_array.size().filter(|watts| *watts > 0.0)
    {
        let ratio = (sheet.array_w / array_w).max(array_w / sheet.array_w);
        if ratio > MOST_WORKSHEET_RATIO {
            let message = format!(
                "The worksheet asks for {} W of array, the simulation for {} W.",
                figure(sheet.array_w, 0),
                figure(array_w, 0)
            );
            let remedy =
                "Trust the simulation: grey days in a row and a full battery in summer are not on one line.";
            all.add(WORKSHEET_DIFFERS.finding(
                "/solar/arrays",
                Some(ratio),
                Some(MOST_WORKSHEET_RATIO),
                message,
                remedy,
            ));
        }
    }
}

fn of_stay(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    let Some(asked) = &build.stay else { return };
    let Some(stay) = &numbers.stay else {
        let message = "The stay begins at a time that is not in the weather given.".to_owned();
        let last = setup.site.days.last().map_or(String::new(), |day| day.date.to_string());
        let remedy = format!("Give weather that has its day and hour, or a day up to {last}.");
        let at = if asked.first_day.is_some() { "/stay/first_day" } else { "/stay" };
        all.add(STAY_OUTSIDE_WEATHER.finding(at, None, None, message, remedy));
        return;
    };
    if stay.hours_h < stay.asked_h {
        let message = format!(
            "The weather given ends before the stay does: {} of {} were worked out.",
            hours(stay.hours_h),
            hours(stay.asked_h)
        );
        let remedy = "Give weather for all of it, or a shorter stay.";
        let at = if asked.days.is_some() { "/stay/days" } else { "/stay" };
        all.add(STAY_OUTSIDE_WEATHER.finding(at, None, None, message, remedy));
    }
    if let Some(lasts_h) = stay.lasts_h {
        let message = format!(
            "In the stay the battery is empty after {} of {}; {} Wh are missing.",
            hours(lasts_h),
            hours(stay.hours_h),
            figure(stay.unmet_wh, 0)
        );
        let missing_ah = stay.unmet_wh
            / (setup.house.temper.usable * setup.house.bank.discharge_efficiency)
            / setup.house.bank.nominal_v;
        let remedy = format!(
            "{} Ah more of battery would carry it, or {} Wh a day less.",
            figure(missing_ah.ceil(), 0),
            figure((stay.unmet_wh / (stay.hours_h / 24.0)).ceil(), 0)
        );
        all.add(STAY_RUNS_EMPTY.finding("/stay", Some(lasts_h), Some(stay.hours_h), message, remedy));
    }
}

fn of_battery(setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    let is_lead = setup.house.temper.is_lead;
    let cold_wh = numbers.books.cold_spilled_wh;
    if cold_wh > 0.01 * setup.house.bank.rated_wh {
        let message = format!(
            "{} kWh of sunlight are lost while the battery is below 32 °F.",
            figure(cold_wh / 1000.0, 1)
        );
        let remedy = "Keep it in the heated part of the box, or choose one with a heater (heater_w).";
        all.add(CHARGE_TOO_COLD.finding("/battery/chemistry", Some(cold_wh), Some(0.0), message, remedy));
    }
    if numbers.freezing_h > 0.0 {
        let message = format!(
            "For {} the battery is colder than its acid bears at its charge.",
            hours(numbers.freezing_h)
        );
        let remedy =
            "Keep it charged in winter, or take it out: a frozen battery is lost, and dangerous to charge.";
        all.add(BATTERY_MAY_FREEZE.finding(
            "/battery/chemistry",
            Some(numbers.freezing_h),
            Some(0.0),
            message,
            remedy,
        ));
    }
    if is_lead && numbers.longest_without_full_days > MOST_DAYS_WITHOUT_FULL {
        let days = numbers.longest_without_full_days;
        let message = format!("For {} days on end the battery is never full.", figure(days, 0));
        let remedy =
            "Charge it fully every week or two, from shore power or a generator, or enlarge the array.";
        all.add(SELDOM_FULL.finding(
            "/battery/chemistry",
            Some(days),
            Some(MOST_DAYS_WITHOUT_FULL),
            message,
            remedy,
        ));
    }
    let years = numbers.life.by_cycles_years;
    if years < LEAST_YEARS {
        let message = format!(
            "The battery goes through {} full cycles a year and has used up its cycles in {} years.",
            figure(numbers.life.full_cycles_per_year, 0),
            figure(years, 1)
        );
        let depth = percent(usual(setup.house.chemistry).life.depth);
        let remedy =
            format!("A larger battery is drawn less deeply; its cycles are usually stated for {depth}.");
        all.add(LIFE_SHORT.finding("/battery/capacity_ah", Some(years), Some(LEAST_YEARS), message, remedy));
    }
}

fn of_solar(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    if setup.harvester.sources.is_empty() {
        let message =
            "There is no solar array: everything comes from the battery and other sources.".to_owned();
        let remedy = "Give the arrays under /solar/arrays, or leave it so.";
        let at = if build.solar.is_some() { "/solar" } else { "/battery" };
        all.add(HARVEST_WITHOUT_ARRAY.finding(at, None, None, message, remedy));
    }
    let given_wh = setup.given_w.iter().sum::<f64>() * setup.step_h;
    let clipped = numbers.clipped_wh / given_wh;
    if clipped > CLIPPED_FRACTION {
        let most_a = setup.harvester.most_w / setup.house.bank.nominal_v;
        let message = format!(
            "The controller's {} A keep back {} of the harvest.",
            figure(most_a, 1),
            percent(clipped)
        );
        let greatest_w = setup.given_w.iter().copied().fold(0.0, f64::max);
        let greatest_a = greatest_w / setup.house.bank.nominal_v;
        let remedy =
            format!("A controller of {} A would let all of it through.", figure(greatest_a.ceil(), 0));
        let at = "/solar/controller/max_output_a";
        all.add(CONTROLLER_CLIPS.finding(at, Some(clipped), Some(CLIPPED_FRACTION), message, remedy));
    }
    for ((id, _), sum) in setup.harvester.sources.iter().zip(&setup.array_sums) {
        let short_h = sum.short_steps as f64 * setup.step_h;
        if short_h > A_FEW_H {
            let message = format!(
                "In {} of good light array {id} gives nothing: its voltage does not reach the battery's.",
                hours(short_h)
            );
            let remedy = "Put more modules in series, within what the controller bears, or mount them so that they stay cooler.";
            // Without it nothing is known of its voltage.
            let at = format!("/solar/arrays/{id}/vmp_v");
            all.add(ARRAY_VOLTAGE_SHORT.finding(at, Some(short_h), Some(0.0), message, remedy));
        }
    }
}

fn of_loads(setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    let fridges = setup.consumers.fed.iter().filter(|one| one.draw.refrigerator.is_some());
    for one in fridges.take_while(|_| setup.too_warm_steps > 0) {
        let too_warm_h = setup.alone(one).too_warm_steps as f64 * setup.step_h;
        if too_warm_h > A_FEW_H {
            let message = format!(
                "For {} {} runs without a stop and does not keep its temperature.",
                hours(too_warm_h),
                one.id
            );
            let remedy = "Give it air and shade, or choose one with a stronger compressor or thicker walls.";
            let at = format!("/parts/{}/electrical/refrigerator", one.id);
            all.add(REFRIGERATOR_CANNOT_HOLD.finding(at, Some(too_warm_h), Some(0.0), message, remedy));
        }
    }
    let idle = numbers.idle_wh / numbers.books.whole.load_wh;
    if let Some((_, id, source)) = setup.consumers.inverters.first()
        && idle > IDLE_FRACTION
    {
        let message =
            format!("{} of the energy goes into inverters with nothing switched on.", percent(idle));
        let remedy =
            "Switch it off while nothing runs on it (off_when_unused), or choose one that takes less.";
        let field = if source.idle_w.is_some() { "/idle_w" } else { "" };
        let at = format!("/electrical/sources/{id}{field}");
        all.add(INVERTER_IDLE_LARGE.finding(at, Some(idle), Some(IDLE_FRACTION), message, remedy));
    }
    if setup.consumers.mode_has_supply
        && let Some(mode) = setup.consumers.mode
    {
        let message =
            format!("Mode {mode} has shore power or a generator in it; only what the battery feeds counts.");
        let remedy = "Name a mode without them under /stay/mode, or add one.";
        all.add(SUPPLY_IN_MODE.finding(format!("/electrical/modes/{mode}"), None, None, message, remedy));
    }
    if !setup.consumers.left_out.is_empty() {
        let parts = setup.consumers.left_out.join(", ");
        let message = format!("Not fed by the battery here, and not counted: {parts}.");
        let remedy =
            "Feed their circuits from the battery or an inverter in this mode, if they are to run on it.";
        all.add(PARTS_WITHOUT_BATTERY.finding("/parts", None, None, message, remedy));
    }
}

fn of_weather(build: &Build, setup: &Setup, all: &mut Findings) {
    if setup.site.origin == Origin::ClearSky {
        let message =
            "The weather is a clear sky all year: real months give less, winter months far less.".to_owned();
        let remedy = "Give a place, monthly means or a weather file.";
        all.add(CLEAR_SKY_ALL_YEAR.finding("/site/weather/clear_sky", None, None, message, remedy));
    }
    if let Some(away_mi) = station_away_mi(build, setup).filter(|away_mi| *away_mi > MOST_AWAY_MI) {
        let message = format!("The weather is from a station {} mi away.", figure(away_mi, 0));
        let remedy = "Give monthly means or a weather file of a nearer place.";
        let at = format!("/site/weather/{}", setup.site.origin.form());
        all.add(WEATHER_OF_ANOTHER_PLACE.finding(at, Some(away_mi), Some(MOST_AWAY_MI), message, remedy));
    }
    for shortfall in &setup.site.shortfalls {
        let month = usize::from(shortfall.month) - 1;
        let message = format!(
            "{} is given {} kWh/(m2·day); the sun gives {} there at most.",
            month_name(u32::from(shortfall.month)),
            figure(shortfall.given_kwh_m2_d, 2),
            figure(shortfall.made_kwh_m2_d, 2)
        );
        let remedy =
            "Check the figure and its unit: kilowatt-hours on a square meter of level ground in a day.";
        let at = format!("/site/weather/monthly/ghi_kwh_m2_day/{month}");
        let (value, limit) = (Some(shortfall.given_kwh_m2_d), Some(shortfall.made_kwh_m2_d));
        all.add(MONTH_BRIGHTER_THAN_SUN.finding(at, value, limit, message, remedy));
    }
}
