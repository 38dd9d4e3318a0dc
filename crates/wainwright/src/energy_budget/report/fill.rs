//! From numbers to the report.

use jiff::civil::DateTime;

use super::assumptions::assumptions;
use super::summary::summary;
use super::types::*;
use crate::build::{Build, ChargingKind, Detail};
use crate::document::Keyed;
use crate::energy_budget::arrays::USUAL_AZIMUTH_DEG;
use crate::energy_budget::autonomy::Autonomy;
use crate::energy_budget::balance::Balance;
use crate::energy_budget::findings;
use crate::energy_budget::numbers::{Numbers, numbers};
use crate::energy_budget::setup::Setup;
use crate::energy_budget::smallest::Smallest;
use crate::energy_budget::stay::StayNumbers;
use crate::report::{Caution, Engine, shared_cautions};
use crate::sky::great_circle::distance_m;
use crate::sky::weather::Place;
use crate::units::{fahrenheit, mi};

/// What goes with every energy budget.
const CAUTIONS: &[Caution] = &[
    Caution {
        code: "typical_year",
        text: "Weather of a typical year is not that of the worst one. Leave a margin of a fifth either way.",
    },
    shared_cautions::BATTERY_HAZARDS,
    shared_cautions::FUSE_AT_BATTERY,
    shared_cautions::CARBON_MONOXIDE,
    Caution {
        code: "licensed_electrician",
        text: "Line-voltage wiring can kill. Have it designed, done and inspected by a licensed electrician; the locally \
            adopted code overrides every figure here.",
    },
];
/// How far below the others the resistance of an uneven string is, for its share of the current.
const UNEVEN: f64 = 0.2;

/// The answer for a build in which nothing is missing.
///
/// # Panics
///
/// Never: what [`Setup::of`] cannot do without was asked for before.
pub fn report(build: &Build) -> EnergyBudgetReport {
    #[expect(clippy::expect_used, reason = "`missing` notes everything that `Setup::of` cannot do without")]
    let setup = Setup::of(build).expect("nothing is missing");
    report_of(build, &setup)
}

/// The answer for a build that was made ready.
pub fn report_of(build: &Build, setup: &Setup) -> EnergyBudgetReport {
    let numbers = numbers(build, setup);
    let loads = loads(setup);
    let mut report = EnergyBudgetReport {
        summary: String::new(),
        load_wh_per_day: per_day(setup, numbers.books.whole.load_wh),
        autonomy_h: numbers.autonomy.hours_h,
        months: numbers.books.months.iter().map(|month| month_balance(setup, month)).collect(),
        smallest_array_w: numbers.smallest_array.size(),
        smallest_bank_ah: numbers.smallest_bank.size(),
        sizing: sizing(build, setup, &numbers),
        weather: weather(build, setup),
        mode: setup.consumers.mode.map(str::to_owned),
        loads,
        inverter_idle_wh_per_day: per_day(setup, numbers.idle_wh),
        bank: bank(build, setup),
        autonomy: autonomies(build, setup, &numbers),
        days_to_recover: numbers.recovery_days,
        stay: numbers.stay.as_ref().map(stay),
        total: month_balance(setup, &numbers.books.whole),
        arrays: arrays(build, setup),
        charging: charging(setup),
        worksheet: worksheet(setup, &numbers),
        life: LifeReport {
            full_cycles_per_year: numbers.life.full_cycles_per_year,
            years: numbers.life.years(),
            bound_by: if numbers.life.by_cycles_years < numbers.life.calendar_years {
                "cycles"
            } else {
                "age"
            },
        },
        days: Vec::new(),
        steps: None,
        findings: Vec::new(),
        assumptions: assumptions(build, setup),
        cautions: CAUTIONS,
        engine: Engine::THIS,
    };
    let detail = build.stay.as_ref().and_then(|stay| stay.detail).unwrap_or(Detail::Months);
    if detail >= Detail::Days {
        report.days = numbers.books.days.iter().map(day_balance).collect();
    }
    if detail >= Detail::Steps {
        report.steps = Some(steps(setup, &numbers));
    }
    report.findings = findings::findings(build, setup, &numbers);
    report.summary = summary(build, &report, &findings::remedy(setup, &numbers));
    report
}

/// A sum over the series as a mean day of it.
pub(super) fn per_day(setup: &Setup, wh: f64) -> f64 {
    wh / (setup.count() as f64 * setup.step_h / 24.0)
}

/// An instant as it is written in a build.
pub fn stamp(at: DateTime) -> String {
    at.strftime("%Y-%m-%dT%H:%M").to_string()
}

fn stamp_of(setup: &Setup, step: usize) -> String {
    stamp(setup.site.weather.clock.stamp(step))
}

pub(super) fn month_balance(setup: &Setup, month: &Balance) -> MonthBalance {
    let days = month.days(setup.step_h);
    let generator = setup.charging.iter().find(|source| source.kind == ChargingKind::Generator);
    MonthBalance {
        month: u32::from(month.first_day.month().unsigned_abs()),
        year: u32::from(month.first_day.year().unsigned_abs()),
        days,
        harvest_kwh: month.sun_wh / 1000.0,
        load_kwh: month.load_wh / 1000.0,
        spilled_kwh: month.spilled_wh / 1000.0,
        other_kwh: month.other_wh / 1000.0,
        lost_kwh: month.lost_wh / 1000.0,
        unmet_kwh: month.unmet_wh / 1000.0,
        unmet_h: month.unmet_h,
        lowest_soc: month.lowest_soc,
        mean_soc: month.mean_soc(),
        end_soc: month.last_soc,
        sun_hours_per_day: month.plane_wh_m2 / 1000.0 / days,
        generator_h: generator
            .filter(|source| source.power_w > 0.0)
            .map(|source| month.unmet_wh / source.power_w),
    }
}

fn day_balance(day: &Balance) -> DayBalance {
    DayBalance {
        month: u32::from(day.first_day.month().unsigned_abs()),
        day: u32::from(day.first_day.day().unsigned_abs()),
        harvest_wh: day.sun_wh,
        load_wh: day.load_wh,
        spilled_wh: day.spilled_wh,
        other_wh: day.other_wh,
        unmet_wh: day.unmet_wh,
        lowest_soc: day.lowest_soc,
        end_soc: day.last_soc,
    }
}

fn steps(setup: &Setup, numbers: &Numbers) -> StepTrace {
    StepTrace {
        start: stamp_of(setup, 0),
        step_min: setup.site.weather.clock.step_min(),
        end_soc: numbers.books.soc.clone(),
        harvest_w: setup.given_w.clone(),
        load_w: setup.load_w.clone(),
        unmet_wh: numbers.books.unmet_wh.clone(),
        battery_f: setup.through.battery_c.iter().copied().map(fahrenheit).collect(),
    }
}

fn sizing(build: &Build, setup: &Setup, numbers: &Numbers) -> Sizing {
    let bank = &setup.house.bank;
    let by_charge = setup.charging.iter().any(|source| source.start_soc.is_some());
    let not_monotone = if bank.wells.is_some() {
        Some("lead-acid has two wells")
    } else if bank.reconnect_soc.is_some() {
        Some("loads are switched off and on by the state of charge")
    } else if by_charge {
        Some("a source is started by the state of charge")
    } else {
        None
    };
    let tried = |why: &str| {
        format!("tried from the largest down, to 3 percent: {why}, so that larger is not always better")
    };
    let array = match (numbers.smallest_array, not_monotone) {
        (Smallest::Impossible, _) => "none: even an array that fills this battery in every hour of light leaves more unmet than may be; the nights ask for a larger battery".into(),
        (_, Some(why)) => tried(why).into(),
        (_, None) => "halved to 0.1 W: with this battery more array never leaves more unmet".into(),
    };
    let same_warmth = setup.through.usable.windows(2).all(|pair| pair[0] == pair[1]);
    let bank_words = match (numbers.smallest_bank, not_monotone) {
        (Smallest::Impossible, _) => "none: even a battery for 30 days without sun leaves more unmet than may be; it is the harvest that is too little".into(),
        (_, Some(why)) => tried(why).into(),
        (_, None) if !same_warmth => tried("the cold takes part of it away").into(),
        (_, None) => "halved: with these arrays a larger battery never leaves more unmet".into(),
    };
    let parallel = build.battery.as_ref().and_then(|battery| battery.parallel);
    let strings = |ah: f64| {
        parallel
            .map(|parallel| (ah / (setup.house.given_ah / f64::from(parallel)) - 1e-9).ceil().max(1.0) as u32)
    };
    Sizing {
        max_unmet_fraction: build.stay.as_ref().and_then(|stay| stay.max_unmet_fraction).unwrap_or(0.0),
        array,
        bank: bank_words,
        bank_parallel: numbers.smallest_bank.size().and_then(strings),
    }
}

fn weather(build: &Build, setup: &Setup) -> WeatherUsed {
    let clock = setup.site.weather.clock;
    let filled =
        setup.site.origin.file().map_or(0, |file| file.filled.iter().map(|filled| filled.count).sum());
    WeatherUsed {
        form: setup.site.origin.form(),
        meaning: setup.site.origin.meaning(),
        latitude_deg: setup.site.place.latitude_rad.to_degrees(),
        longitude_deg: setup.site.place.longitude_rad.to_degrees(),
        step_count: u32::try_from(clock.count()).unwrap_or(u32::MAX),
        step_min: clock.step_min(),
        station_away_mi: station_away_mi(build, setup),
        filled_count: u32::try_from(filled).unwrap_or(u32::MAX),
    }
}

/// How far the station is from the site, where the site says where it is.
pub fn station_away_mi(build: &Build, setup: &Setup) -> Option<f64> {
    let site = build.site.as_ref()?;
    let there = Place {
        latitude_rad: site.latitude_deg?.to_radians(),
        longitude_rad: site.longitude_deg?.to_radians(),
        ..setup.site.place
    };
    let away_mi = mi(distance_m(&there, &setup.site.place));
    let is_station = setup.site.origin.is_station();
    is_station.then_some(away_mi)
}

fn loads(setup: &Setup) -> Keyed<LoadShare> {
    let wh_per_day: Vec<f64> =
        setup.consumers.fed.iter().map(|one| per_day(setup, setup.alone(one).load_wh)).collect();
    let all: f64 = per_day(setup, setup.load_w.iter().sum::<f64>() * setup.step_h);
    let share = |wh: f64| if all > 0.0 { wh / all } else { 0.0 };
    let entries = setup.consumers.fed.iter().zip(wh_per_day).map(|(one, load_wh_per_day)| {
        let load = LoadShare { running_w: one.bus_w, load_wh_per_day, load_fraction: share(load_wh_per_day) };
        (one.id.to_owned(), load)
    });
    entries.collect()
}

fn bank(build: &Build, setup: &Setup) -> BankUsed {
    let battery = build.battery.as_ref();
    let (series, parallel) =
        (battery.and_then(|battery| battery.series), battery.and_then(|battery| battery.parallel));
    let given = series.is_some() || parallel.is_some();
    let (series, parallel) = (f64::from(series.unwrap_or(1)), f64::from(parallel.unwrap_or(1)));
    let house = &setup.house;
    let battery_c = || setup.through.battery_c.iter().copied();
    // Currents split as conductances do.
    let uneven = 1.0 / (1.0 - UNEVEN);
    BankUsed {
        capacity_wh: house.bank.rated_wh,
        usable_wh: house.bank.rated_wh * house.temper.usable,
        each_ah: given.then(|| house.given_ah / parallel),
        each_v: given.then(|| house.bank.nominal_v / series),
        uneven_string_fraction: (given && parallel > 1.0).then(|| uneven / (uneven + parallel - 1.0)),
        max_charge_a: house.bank.most_charge_w / house.bank.nominal_v,
        lowest_f: fahrenheit(battery_c().fold(f64::INFINITY, f64::min)),
        highest_f: fahrenheit(battery_c().fold(f64::NEG_INFINITY, f64::max)),
    }
}

fn autonomies(build: &Build, setup: &Setup, numbers: &Numbers) -> Autonomies {
    let Autonomy { start, hours_h, to_flat_h } = numbers.autonomy;
    let worst = &numbers.worst_autonomy;
    Autonomies {
        start: stamp_of(setup, start),
        start_soc: build.stay.as_ref().and_then(|stay| stay.start_soc).unwrap_or(1.0),
        autonomy_h: hours_h,
        to_flat_h,
        worst_start: stamp_of(setup, worst.start),
        worst_autonomy_h: worst.hours_h,
        worst_to_flat_h: worst.to_flat_h,
    }
}

fn stay(numbers: &StayNumbers) -> StayReport {
    StayReport {
        begins: stamp(numbers.begins),
        days: numbers.hours_h / 24.0,
        grey_days: numbers.grey_days,
        harvest_wh: numbers.sun_wh,
        load_wh: numbers.load_wh,
        unmet_wh: numbers.unmet_wh,
        lasts_h: numbers.lasts_h,
        lowest_soc: numbers.lowest_soc,
        lowest_at: stamp(numbers.lowest_at),
        full_again: numbers.full_again.map(stamp),
        end_soc: numbers.last_soc,
    }
}

fn arrays(build: &Build, setup: &Setup) -> Keyed<ArrayHarvest> {
    let heading_deg = build.site.as_ref().and_then(|site| site.heading_deg).unwrap_or(0.0);
    let given = build.solar.iter().flat_map(|solar| solar.arrays.iter().flatten());
    let entries = setup.array_sums.iter().zip(given).map(|(sum, (id, array))| {
        let turned_deg = if array.on_ground == Some(true) { 0.0 } else { heading_deg };
        let faces_deg = (array.azimuth_deg.unwrap_or(USUAL_AZIMUTH_DEG) + turned_deg).rem_euclid(360.0);
        let harvest = ArrayHarvest {
            harvest_kwh: sum.given_w * setup.step_h / 1000.0,
            sun_hours_per_day: per_day(setup, sum.plane_w_m2 * setup.step_h) / 1000.0,
            faces_deg,
        };
        (id.clone(), harvest)
    });
    entries.collect()
}

fn charging(setup: &Setup) -> Keyed<ChargingReport> {
    let entries = setup.charging.iter().map(|source| {
        let available_wh = source.available_w.iter().sum::<f64>() * setup.step_h;
        let available_h = if source.power_w > 0.0 { available_wh / source.power_w } else { 0.0 };
        (source.id.to_owned(), ChargingReport { output_w: source.power_w, available_h })
    });
    entries.collect()
}

fn worksheet(setup: &Setup, numbers: &Numbers) -> Option<WorksheetReport> {
    let sheet = numbers.worksheet.as_ref()?;
    let month = numbers.books.months.get(sheet.month)?;
    Some(WorksheetReport {
        month: u32::from(month.first_day.month().unsigned_abs()),
        sun_hours_per_day: sheet.sun_h,
        load_wh_per_day: sheet.load_wh_per_day,
        array_w: sheet.array_w,
        days: sheet.days,
        bank_ah: sheet.bank_wh / setup.house.bank.nominal_v,
        autonomy_h: sheet.autonomy_h,
    })
}
