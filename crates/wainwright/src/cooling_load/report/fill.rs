//! From numbers to the report.

use std::borrow::Cow;

use jiff::civil::DateTime;

use super::assumptions::assumptions;
use super::summary::summary;
use super::types::*;
use crate::air::dew_point::dew_point_c;
use crate::air::humidity::{relative, vapor_pa};
use crate::air::properties::{specific_heat_j_kg_k, volume_m3_kg};
use crate::air::wet_bulb::wet_bulb_c;
use crate::build::{Build, Facing};
use crate::cooling_load::air_exchange::moisture::EVAPORATION_J_KG;
use crate::cooling_load::airing::{Airing, USUAL_LIMIT_F};
use crate::cooling_load::changes::Effect;
use crate::cooling_load::cold_night::{Damp, InsideFace};
use crate::cooling_load::cooler::Cooler;
use crate::cooling_load::envelope::sol_air::sol_air_c;
use crate::cooling_load::equipment::heating::WARM_UP_FACTOR;
use crate::cooling_load::equipment::propane::liquid_l;
use crate::cooling_load::equipment::room_area;
use crate::cooling_load::findings;
use crate::cooling_load::gains::{HOURS, PartHeat};
use crate::cooling_load::heater;
use crate::cooling_load::hot_day::{LoadHour, Parts, RunDay, RunHour};
use crate::cooling_load::lap::Room;
use crate::cooling_load::numbers::{Numbers, numbers};
use crate::cooling_load::pull_down::PullDown;
use crate::cooling_load::season::MonthClimate;
use crate::cooling_load::setup::Setup;
use crate::cooling_load::trace::Trace;
use crate::document::Keyed;
use crate::report::{Caution, Engine, figure, shared_cautions};
use crate::site_weather::DesignOrigin;
use crate::units::{
    PA_PER_PSI, btu_h, btu_h_f, cfm, difference_f, fahrenheit, ft2, ft3, gal, lb, mi, r_value,
};

/// What goes with every cooling load.
pub(super) const CAUTIONS: &[Caution] = &[
    Caution {
        code: "never_rely_on_it",
        text: "A closed box in the sun grows deadly hot within an hour. Never leave people or animals to an air conditioner \
            that nobody watches; keep propane, aerosols and lithium batteries out of the heat.",
    },
    Caution {
        code: "how_sure",
        text: "A peak is known to 15 to 20 percent for a build whose layers and gaps are known, to 30 percent with guessed \
            ones. The design day is already harder than most: add no second margin.",
    },
    shared_cautions::BURNERS_INSIDE,
    shared_cautions::CARBON_MONOXIDE,
    Caution {
        code: "true_resistance",
        text: "Foam between steel posts holds back about half of what its label says. Give the true value, or layers and posts.",
    },
    Caution {
        code: "licensed_work",
        text: "Gas, line-voltage wiring and refrigerant are for licensed people and listed appliances; the locally adopted \
            code overrides every figure here.",
    },
];

/// The answer for a build in which nothing is missing.
///
/// # Panics
///
/// Never: what [`Setup::of`] cannot do without was asked for before.
pub fn report(build: &Build) -> CoolingLoadReport {
    #[expect(clippy::expect_used, reason = "`missing` notes everything that `Setup::of` cannot do without")]
    let setup = Setup::of(build).expect("nothing is missing");
    report_of(build, &setup, &numbers(build, &setup, setup.walk_weather()))
}

/// The answer for a build that was made ready and worked out.
pub fn report_of(build: &Build, setup: &Setup, numbers: &Numbers) -> CoolingLoadReport {
    let around = &setup.around;
    let cooled = numbers.cooled.as_ref();
    let run = cooled.unwrap_or(&numbers.free);
    let mut report = CoolingLoadReport {
        peak: of_peak(numbers.peak_hour, &numbers.peak),
        hours: of_hours(&numbers.hours, run, &numbers.free, around.pressure_pa),
        held_f: cooled.map(|day| fahrenheit(day.warmest_c)),
        cooling_kwh_per_day: cooled.map(|day| day.electric_wh() / 1000.0),
        heating: heating(build, numbers),
        design: design(setup),
        cooler: setup.cooler.as_ref().zip(cooled).map(|(cooler, day)| of_cooler(setup, numbers, cooler, day)),
        smallest_btu_h: numbers.smallest_btu_h,
        uncooled_f: fahrenheit(numbers.free.warmest_c),
        steady_peak_btu_h: btu_h(numbers.steady_peak_w),
        pull_down: numbers.pull_down.map(of_pull_down),
        airing: numbers.airing.map(|airing| of_airing(build, &airing)),
        envelope: envelope(setup),
        gains: gains(setup, numbers.peak_hour),
        mode: around.gains.mode.map(str::to_owned),
        changes: numbers.effects.iter().map(|effect| of_effect(numbers, effect)).collect(),
        condensation: condensation(setup, &numbers.damp),
        months: numbers.months.iter().map(of_month).collect(),
        trace: numbers.trace.as_ref().map(of_trace),
        findings: findings::findings(build, setup, numbers),
        assumptions: assumptions(build, setup),
        cautions: CAUTIONS,
        engine: Engine::THIS,
        summary: String::new(),
    };
    report.summary = summary(setup, &report);
    report
}

/// The greatest load, and its hour.
pub(super) fn of_peak(hour: usize, load: &LoadHour) -> PeakLoad {
    PeakLoad {
        sensible_btu_h: btu_h(load.sensible_w),
        latent_btu_h: btu_h(load.latent_w),
        total_btu_h: btu_h(load.sensible_w + load.latent_w),
        hour: hour as u32,
    }
}

/// The hours of the hot day.
///
/// - `loads`  held at the set temperature
/// - `run`    with what cools, where there is something
/// - `free`   without
pub(super) fn of_hours(
    loads: &[LoadHour; HOURS],
    run: &RunDay,
    free: &RunDay,
    pressure_pa: f64,
) -> Vec<HourLoad> {
    let hours = loads.iter().zip(&run.hours).zip(&free.hours).enumerate();
    hours.map(|(hour, ((load, run), free))| of_hour(hour, load, run, free, pressure_pa)).collect()
}

fn of_hour(hour: usize, load: &LoadHour, run: &RunHour, free: &RunHour, pressure_pa: f64) -> HourLoad {
    HourLoad {
        hour: hour as u32,
        outdoor_f: fahrenheit(load.outdoor_c),
        indoor_f: fahrenheit(run.air_c),
        load_btu_h: btu_h(load.sensible_w + load.latent_w),
        run_fraction: run.run_fraction,
        sensible_btu_h: btu_h(load.sensible_w),
        latent_btu_h: btu_h(load.latent_w),
        electric_w: run.electric_w,
        humidity_fraction: relative(run.ratio, run.air_c, pressure_pa).min(1.0),
        uncooled_f: fahrenheit(free.air_c),
        parts: of_parts(&load.parts),
    }
}

fn of_parts(parts: &Parts) -> LoadParts {
    let face = |facing: Facing| btu_h(parts.faces_w[facing as usize]);
    LoadParts {
        roof_btu_h: face(Facing::Roof),
        floor_btu_h: face(Facing::Floor),
        front_btu_h: face(Facing::Front),
        rear_btu_h: face(Facing::Rear),
        left_btu_h: face(Facing::Left),
        right_btu_h: face(Facing::Right),
        windows_btu_h: btu_h(parts.windows_w),
        sun_btu_h: btu_h(parts.sun_w),
        air_btu_h: btu_h(parts.air_w),
        people_btu_h: btu_h(parts.people_w),
        equipment_btu_h: btu_h(parts.equipment_w),
        cooking_btu_h: btu_h(parts.cooking_w),
        lost_btu_h: -btu_h(parts.lost_w),
        stored_btu_h: btu_h(parts.stored_w),
    }
}

fn heating(build: &Build, numbers: &Numbers) -> HeatingLoad {
    let night = &numbers.night;
    let load_w = night.sum_w();
    let given = build.climate.as_ref().and_then(|climate| climate.heating.as_ref());
    let night_h = given.and_then(|heating| heating.night_h).unwrap_or(heater::USUAL_NIGHT_H);
    let used = given.map(|heating| heater::night(heating, load_w, night.outdoor_c, night_h));
    HeatingLoad {
        load_btu_h: btu_h(load_w),
        outdoor_f: fahrenheit(night.outdoor_c),
        indoor_f: fahrenheit(night.indoor_c),
        opaque_btu_h: btu_h(night.opaque_w),
        windows_btu_h: btu_h(night.windows_w),
        air_btu_h: btu_h(night.air_w),
        with_warm_up_btu_h: btu_h(load_w) * WARM_UP_FACTOR,
        capacity_btu_h: used.map(|used| btu_h(used.capacity_w)),
        holds_to_f: numbers.holds_to_c.map(fahrenheit),
        night_h,
        night_btu: btu_h(load_w) * night_h,
        night_kwh: used.and_then(|used| used.electric_wh).map(|wh| wh / 1000.0),
        propane_lb: used.and_then(|used| used.propane_kg).map(lb),
        propane_gal: used.and_then(|used| used.propane_kg).map(|kg| gal(liquid_l(kg))),
    }
}

fn design(setup: &Setup) -> DesignUsed {
    let (day, night) = (&setup.hot_day, &setup.cold_night);
    let pressure_pa = setup.around.pressure_pa;
    DesignUsed {
        month: u32::from(day.date.month().unsigned_abs()),
        day: u32::from(day.date.day().unsigned_abs()),
        max_f: fahrenheit(day.max_c),
        min_f: fahrenheit(day.max_c - day.range_k),
        dew_point_f: fahrenheit(dew_point_c(vapor_pa(day.ratio, pressure_pa)).min(day.max_c)),
        wet_bulb_f: fahrenheit(wet_bulb_c(day.max_c, day.ratio, pressure_pa)),
        night_f: fahrenheit(night.air_c),
        hot_day: origin_words(day.origin, "hotter in 0.4 percent of the hours of a year"),
        cold_night: origin_words(night.origin, "colder in 1 percent of the hours of a year"),
        pressure_psi: pressure_pa / PA_PER_PSI,
    }
}

/// Where design weather is from, for people.
fn origin_words(origin: DesignOrigin, share: &str) -> Cow<'static, str> {
    match origin {
        DesignOrigin::Given => "as given in the site".into(),
        DesignOrigin::DesignDay => "the day that the weather consists of".into(),
        DesignOrigin::Series => format!("read off the weather given: {share}").into(),
        DesignOrigin::Station(station, away_m) => format!(
            "design conditions of {}, {}, {} miles away: {share}",
            station.station,
            station.state,
            figure(mi(away_m), 0)
        )
        .into(),
        DesignOrigin::Means => {
            "18 °F beyond the mean of that month: means know no heat waves and no cold spells".into()
        }
        DesignOrigin::ShortSeries => "the extreme of the weather given, which is no whole year".into(),
    }
}

fn of_cooler(setup: &Setup, numbers: &Numbers, cooler: &Cooler, day: &RunDay) -> CoolerReport {
    let pressure_pa = setup.around.pressure_pa;
    let hour = &day.hours[numbers.peak_hour];
    let at = cooler.at(&Room::even(hour.air_c, hour.ratio), numbers.peak.outdoor_c, pressure_pa);
    let delivered_w = at.sensible_w * cooler.delivered;
    let mean = |of: fn(&RunHour) -> f64| day.hours.iter().map(of).sum::<f64>() / HOURS as f64;
    let mean_c = mean(|hour| hour.air_c);
    let latent_wh: f64 = day.hours.iter().map(|hour| hour.latent_w).sum();
    CoolerReport {
        capacity_btu_h: btu_h(cooler.rating.capacity_w),
        at_peak_btu_h: btu_h(at.total_w * cooler.delivered),
        sensible_at_peak_btu_h: btu_h(delivered_w),
        power_at_peak_w: at.power_w,
        margin_factor: findings::margin(delivered_w, numbers),
        run_h: day.run_h(),
        busiest_run_fraction: day.hours.iter().map(|hour| hour.run_fraction).fold(0.0, f64::max),
        mean_f: fahrenheit(mean_c),
        warm_h: day.warm_h,
        humidity_fraction: relative(mean(|hour| hour.ratio), mean_c, pressure_pa).min(1.0),
        condensate_gal: condensate_gal(latent_wh),
        by_room_area_btu_h: room_area::by_area_w(setup.body.floor_m2).map(btu_h),
        extrapolated: day.extrapolated,
    }
}

/// Water of so much latent heat [gal].
fn condensate_gal(latent_wh: f64) -> f64 {
    /// A litre of water weighs a kilogram.
    const KG_PER_L: f64 = 1.0;
    let kg = latent_wh * 3600.0 / EVAPORATION_J_KG;
    gal(kg / KG_PER_L)
}

fn of_pull_down(found: PullDown) -> PullDownReport {
    PullDownReport {
        start_hour: found.start_hour as u32,
        soaked_f: fahrenheit(found.soaked_c),
        soaked_lining_f: fahrenheit(found.soaked_lining_c),
        air_h: found.air_h,
        lining_h: found.lining_h,
    }
}

fn of_airing(build: &Build, airing: &Airing) -> AiringReport {
    let limit_f = build.climate.as_ref().and_then(|climate| climate.fan.as_ref()?.limit_f);
    AiringReport {
        fan_cfm: cfm(airing.fan_m3_s),
        flow_cfm: cfm(airing.flow_m3_s),
        warmest_f: fahrenheit(airing.warmest_c),
        above_outdoor_f: difference_f(airing.above_outdoor_k),
        limit_f: limit_f.unwrap_or(USUAL_LIMIT_F),
        outdoor_limit_f: fahrenheit(airing.outdoor_limit_c),
    }
}

fn envelope(setup: &Setup) -> EnvelopeUsed {
    let (case, around) = (&setup.case, &setup.around);
    let course = &case.course;
    let mean = |list: &[f64]| list.iter().sum::<f64>() / list.len().max(1) as f64;
    let (air_kg_s, ratio) = (mean(&course.air_kg_s), mean(&course.outdoor_ratio));
    let air_w_k = air_kg_s * specific_heat_j_kg_k(ratio);
    let volume_m3_kg = volume_m3_kg(mean(&course.outdoor_c), ratio, around.pressure_pa);
    let opaque_w_k: f64 = case.sums.opaque_w_k.iter().sum();
    let out_w_k = opaque_w_k + case.sums.windows_w_k + air_w_k;
    let held_j_k = case.of.network.air_j_k
        + case.of.network.mass_j_k
        + case.of.network.floor_load.map_or(0.0, |load| load.heat_j_k);
    let surfaces = setup.body.opaque.iter().map(|one| {
        let film_w_m2_k = around.film_w_m2_k;
        let r_m2_k_w = one.inner_m2_k_w + 1.0 / film_w_m2_k;
        let warmest_c = around.outdoors.air_c.iter().zip(&around.outdoors.light).map(|(air_c, light)| {
            let sun_w_m2 = one.lit * light[one.facing as usize].total_w_m2();
            sol_air_c(*air_c, sun_w_m2, one.absorptance, one.sky_loss_w_m2(), film_w_m2_k)
        });
        let used = SurfaceUsed {
            area_ft2: ft2(one.area_m2),
            r_value: r_value(r_m2_k_w),
            sol_air_f: fahrenheit(warmest_c.fold(f64::NEG_INFINITY, f64::max)),
        };
        (one.id.to_owned(), used)
    });
    EnvelopeUsed {
        opaque_btu_h_f: btu_h_f(opaque_w_k),
        windows_btu_h_f: btu_h_f(case.sums.windows_w_k),
        air_btu_h_f: btu_h_f(air_w_k),
        air_cfm: cfm(air_kg_s * volume_m3_kg),
        volume_ft3: ft3(setup.body.volume_m3),
        surfaces: surfaces.collect(),
        time_constant_h: if out_w_k > 0.0 { held_j_k / out_w_k / 3600.0 } else { 0.0 },
    }
}

fn gains(setup: &Setup, peak_hour: usize) -> Keyed<GainReport> {
    let all = &setup.around.gains;
    let of = |one: &PartHeat| GainReport {
        mean_w: one.heat_w.iter().sum::<f64>() / HOURS as f64,
        at_peak_w: one.heat_w[peak_hour],
    };
    let mut keyed: Keyed<GainReport> = Keyed::default();
    for one in all.parts.iter().chain(&all.losses) {
        let gain = of(one);
        // A charger may be a part with heat of its own as well.
        let sum = keyed.entry(one.id.to_owned()).or_insert(GainReport { mean_w: 0.0, at_peak_w: 0.0 });
        sum.mean_w += gain.mean_w;
        sum.at_peak_w += gain.at_peak_w;
    }
    keyed
}

fn of_effect(numbers: &Numbers, effect: &Effect) -> ChangeReport {
    let base_w = numbers.peak.sensible_w + numbers.peak.latent_w;
    let base = numbers.cooled.as_ref().unwrap_or(&numbers.free);
    let base_wh = numbers.cooled.as_ref().map(RunDay::electric_wh);
    ChangeReport {
        change: effect.change.code(),
        meaning: effect.change.words(),
        peak_btu_h: btu_h(effect.peak_w),
        peak_saved_btu_h: btu_h(base_w - effect.peak_w),
        warmest_f: fahrenheit(effect.warmest_c),
        warmest_lowered_f: difference_f(base.warmest_c - effect.warmest_c),
        cooling_kwh_per_day: effect.electric_wh.map(|wh| wh / 1000.0),
        saved_kwh_per_day: base_wh.zip(effect.electric_wh).map(|(base, wh)| (base - wh) / 1000.0),
    }
}

fn condensation(setup: &Setup, damp: &Damp) -> Condensation {
    let of = |face: &InsideFace| InsideReport {
        inside_f: fahrenheit(face.inside_c),
        coldest_f: face.coldest_c.map(fahrenheit),
        drips: face.lowest_c() < damp.dew_point_c,
    };
    Condensation {
        dew_point_f: fahrenheit(damp.dew_point_c),
        humidity_fraction: relative(damp.ratio, damp.indoor_c, setup.around.pressure_pa).min(1.0),
        insides: damp.faces.iter().map(|face| (face.id.to_owned(), of(face))).collect(),
    }
}

fn of_month(month: &MonthClimate) -> MonthReport {
    MonthReport {
        month: u32::from(month.first_day.month().unsigned_abs()),
        year: u32::from(month.first_day.year().unsigned_abs()),
        cooling_kwh: month.cooling_wh / 1000.0,
        run_h: month.run_h,
        heat_kwh: month.heating_wh / 1000.0,
        warmest_f: fahrenheit(month.warmest_c),
        coldest_f: fahrenheit(month.coldest_c),
        warm_h: month.warm_h,
        cold_h: month.cold_h,
    }
}

fn stamp(at: DateTime) -> String {
    at.strftime("%Y-%m-%dT%H:%M").to_string()
}

fn of_trace(trace: &Trace) -> TraceReport {
    let before = trace.before.unwrap_or_default();
    let network = &trace.network;
    TraceReport {
        start: stamp(trace.start),
        step_min: trace.step_min,
        air_j_k: network.air_j_k,
        mass_j_k: network.mass_j_k,
        floor_load_j_k: network.floor_load.map(|load| load.heat_j_k),
        surface_to_air_w_k: network.surface_to_air_w_k,
        mass_to_surface_w_k: network.mass_to_surface_w_k,
        outside_to_mass_w_k: network.outside_to_mass_w_k,
        windows_w_k: network.windows_w_k,
        floor_load_to_surface_w_k: network.floor_load.map(|load| load.to_surface_w_k),
        air_before_c: before.air_c,
        mass_before_c: before.mass_c,
        floor_load_before_c: before.floor_load_c,
        ventilation_w_k: trace.ventilation_w_k.clone(),
        outdoor_c: trace.outdoor_c.clone(),
        equivalent_c: trace.equivalent_c.clone(),
        air_w: trace.air_w.clone(),
        surface_w: trace.surface_w.clone(),
        mass_w: trace.mass_w.clone(),
        plant_w: trace.plant_w.clone(),
        air_c: trace.air_c.clone(),
        mass_c: trace.mass_c.clone(),
        floor_load_c: trace.floor_load_c.clone(),
        run_fraction: trace.run_fraction.clone(),
        electric_w: trace.electric_w.clone(),
    }
}
