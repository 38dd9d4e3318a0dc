//! Every default that the energy budget used.

use crate::build::{Battery, Build, ChargingKind, ControllerKind, LoadKind, Refrigerator};
use crate::drawn_power::inverter::{INVERTER_EFFICIENCY, idle_w};
use crate::drawn_power::refrigerator::HEAT_LEAK_W_PER_K;
use crate::drawn_power::{CHARGER_EFFICIENCY, usual_ceer, usual_kind, usual_power_factor};
use crate::energy_budget::arrays::{
    USUAL_AZIMUTH_DEG, USUAL_EFFICIENCY, USUAL_GAMMA_PER_C, USUAL_LOSS, USUAL_VMP_PER_C, USUAL_VOC_PER_C,
};
use crate::energy_budget::bank::{USUAL_RATED_H, USUAL_THERMAL_H, usual};
use crate::energy_budget::charging::{ALTERNATOR_V, LINE_MOHM};
use crate::energy_budget::consumers::{Consumer, Way};
use crate::energy_budget::setup::Setup;
use crate::energy_budget::stay::{USUAL_DAYS, USUAL_FIRST_HOUR, USUAL_GREY_FRACTION};
use crate::report::{Assumption, Assumptions};

const PRACTICE: &str = "common practice";

/// The assumptions of a build, in the order of the document.
pub(super) fn assumptions(build: &Build, setup: &Setup) -> Vec<Assumption> {
    let mut all = Assumptions::default();
    for one in &setup.consumers.fed {
        of_consumer(one, setup, &mut all);
    }
    of_inverters(setup, &mut all);
    if let Some(battery) = &build.battery {
        of_battery(battery, setup, &mut all);
        of_charging(battery, &mut all);
    }
    of_solar(build, &mut all);
    setup.site.assume(build, &mut all);
    of_stay(build, setup, &mut all);
    if !setup.box_is_known && build.stay.as_ref().is_none_or(|stay| stay.heated_to_f.is_none()) {
        let reason = "the box is not heated: refrigerator and battery stand in air as cold, and as warm, as that outside";
        all.add_words("/stay/heated_to_f".to_owned(), "outdoor air".to_owned(), reason, PRACTICE);
    }
    all.in_order(|pointer| build.position(pointer))
}

fn of_consumer(one: &Consumer, setup: &Setup, all: &mut Assumptions) {
    let at = |field: &str| format!("/parts/{}/electrical/{field}", one.id);
    let draw = one.draw;
    let is_followed = setup.cooler.is_some_and(|(id, _)| id == one.id);
    if !is_followed
        && draw.refrigerator.is_none()
        && draw.hours_per_day.is_none()
        && draw.on_fraction.is_none()
    {
        all.add(at("hours_per_day"), 24.0, Some("h"), "it is taken to run all day", PRACTICE);
    }
    if let Some(refrigerator) = &draw.refrigerator {
        if refrigerator.inside_f.is_none() {
            let reason = "what food keeps at";
            all.add(at("refrigerator/inside_f"), Refrigerator::INSIDE_F, Some("°F"), reason, PRACTICE);
        }
        if refrigerator.kwh_per_day.is_none() && refrigerator.heat_leak_w_per_k.is_none() {
            let reason = "a well-insulated box of 50 L";
            all.add(at("refrigerator/heat_leak_w_per_k"), HEAT_LEAK_W_PER_K, Some("W/K"), reason, PRACTICE);
        }
        if refrigerator.kwh_per_day.is_some() && refrigerator.rated_f.is_none() {
            let reason = "the room that makers state it for";
            all.add(at("refrigerator/rated_f"), Refrigerator::RATED_F, Some("°F"), reason, PRACTICE);
        }
    }
    let kind = draw.kind.unwrap_or(usual_kind(draw));
    if one.way != Way::Direct && draw.current_a.is_some() && draw.power_factor.is_none() {
        let reason = "usual for its kind; the nameplate may say";
        all.add(at("power_factor"), usual_power_factor(kind), Some("fraction"), reason, PRACTICE);
    }
    if let Some(capacity_btu_h) =
        draw.capacity_btu_h.filter(|_| draw.ceer.is_none() && kind == LoadKind::RoomAirConditioner)
    {
        let reason = "the least that the law has allowed since 2014 for units with louvered sides";
        let value = usual_ceer(capacity_btu_h);
        all.add(at("ceer"), value, Some("BTU/Wh"), reason, "10 CFR 430.32(b) (from memory)");
    }
}

fn of_inverters(setup: &Setup, all: &mut Assumptions) {
    for (_, id, source) in &setup.consumers.inverters {
        let at = |field: &str| format!("/electrical/sources/{id}/{field}");
        if source.efficiency.is_none() {
            all.add(
                at("efficiency"),
                INVERTER_EFFICIENCY,
                Some("fraction"),
                "usual for an inverter under load",
                PRACTICE,
            );
        }
        if source.idle_w.is_none() {
            let reason = "one percent of its rated output, nothing where that is not given";
            all.add(at("idle_w"), idle_w(source), Some("W"), reason, PRACTICE);
        }
        if source.off_when_unused.is_none() {
            all.add(at("off_when_unused"), false, None, "it is on day and night", PRACTICE);
        }
    }
}

fn of_battery(battery: &Battery, setup: &Setup, all: &mut Assumptions) {
    let at = |field: &str| format!("/battery/{field}");
    let usual = usual(battery.chemistry);
    let is_lead = battery.chemistry.is_lead();
    let reason = "usual for its chemistry";
    let fraction = Some("fraction");
    let nominal_v = setup.house.bank.nominal_v;
    for (name, given, value, unit) in [
        ("usable_fraction", battery.usable_fraction, usual.usable, fraction),
        ("round_trip_efficiency", battery.round_trip_efficiency, usual.round_trip, fraction),
        ("self_discharge_fraction", battery.self_discharge_fraction, usual.self_discharge, fraction),
        ("max_charge_a", battery.max_charge_a, setup.house.bank.most_charge_w / nominal_v, Some("A")),
        ("absorption_h", battery.absorption_h, usual.absorption_h, Some("h")),
        ("cycles", battery.cycles, usual.life.cycles, None),
    ] {
        if given.is_none() {
            all.add(at(name), value, unit, reason, PRACTICE);
        }
    }
    if battery.cycle_depth.is_none() {
        all.add(
            at("cycle_depth"),
            usual.life.depth,
            fraction,
            "the depth that its cycles are stated for",
            PRACTICE,
        );
    }
    if battery.thermal_h.is_none() {
        let reason = "4 to 10 h for a battery in a trailer";
        all.add(at("thermal_h"), USUAL_THERMAL_H, Some("h"), reason, PRACTICE);
    }
    if is_lead && battery.peukert_exponent.is_none() {
        all.add(at("peukert_exponent"), usual.exponent, None, reason, PRACTICE);
    }
    if is_lead && battery.rated_h.is_none() {
        all.add(at("rated_h"), USUAL_RATED_H, Some("h"), "what capacities are rated over", PRACTICE);
    }
}

fn of_charging(battery: &Battery, all: &mut Assumptions) {
    for (id, charging) in battery.charging.iter().flatten() {
        let at = |field: &str| format!("/battery/charging/{id}/{field}");
        let is_tow_vehicle = charging.kind == ChargingKind::TowVehicle;
        let has_converter = !is_tow_vehicle || charging.output_a.is_some() || charging.input_w.is_some();
        if charging.efficiency.is_none() && charging.part.is_none() && has_converter {
            all.add(at("efficiency"), CHARGER_EFFICIENCY, Some("fraction"), "usual for a charger", PRACTICE);
        }
        if is_tow_vehicle && charging.alternator_v.is_none() {
            all.add(at("alternator_v"), ALTERNATOR_V, Some("V"), "usual on the road", PRACTICE);
        }
        if is_tow_vehicle && charging.line_mohm.is_none() {
            all.add(
                at("line_mohm"),
                LINE_MOHM,
                Some("mΩ"),
                "20 ft of AWG 10, there and back, and its plugs",
                PRACTICE,
            );
        }
        if charging.hours_per_day.is_none() && charging.on_fraction.is_none() {
            all.add(at("hours_per_day"), 24.0, Some("h"), "it can run at any time", PRACTICE);
        }
    }
}

fn of_solar(build: &Build, all: &mut Assumptions) {
    let Some(solar) = &build.solar else { return };
    let is_pwm = solar.controller.as_ref().is_some_and(|controller| controller.kind == ControllerKind::Pwm);
    for (id, array) in solar.arrays.iter().flatten() {
        let at = |field: &str| format!("/solar/arrays/{id}/{field}");
        if array.tilt_deg.is_none() {
            all.add(at("tilt_deg"), 0.0, Some("degree"), "flat on the roof", PRACTICE);
        }
        if array.azimuth_deg.is_none() {
            let reason = match array.tilt_deg {
                Some(tilt_deg) if tilt_deg > 0.0 => "to the rear: south where the tongue points north",
                _ => "without effect on a flat array",
            };
            all.add(at("azimuth_deg"), USUAL_AZIMUTH_DEG, Some("degree"), reason, PRACTICE);
        }
        if array.mount.is_none() {
            all.add(at("mount"), "insulated", None, "flat on the roof, the hottest mount", PRACTICE);
        }
        if array.power_fraction_per_c.is_none() && !is_pwm {
            all.add(
                at("power_fraction_per_c"),
                USUAL_GAMMA_PER_C,
                Some("1/°C"),
                "usual for silicon",
                PRACTICE,
            );
        }
        if array.loss_fraction.is_none() {
            let reason = "unlike modules, wiring, connections, the label: 6 to 9 percent is usual";
            all.add(at("loss_fraction"), USUAL_LOSS, Some("fraction"), reason, PRACTICE);
        }
        if array.soiling_fraction.is_none() {
            all.add(at("soiling_fraction"), 0.0, Some("fraction"), "clean modules", PRACTICE);
        }
        if array.shade_by_hour.is_none() && array.shade_by_month.is_none() && array.sky_view.is_none() {
            all.add(at("sky_view"), 1.0, Some("fraction"), "an open sky, nothing in the way", PRACTICE);
        }
        if array.vmp_v.is_some() && array.vmp_fraction_per_c.is_none() && array.voc_fraction_per_c.is_none() {
            all.add(at("vmp_fraction_per_c"), USUAL_VMP_PER_C, Some("1/°C"), "usual for silicon", PRACTICE);
        }
        if is_pwm && array.voc_fraction_per_c.is_none() {
            all.add(at("voc_fraction_per_c"), USUAL_VOC_PER_C, Some("1/°C"), "usual for silicon", PRACTICE);
        }
    }
    match &solar.controller {
        None => {
            let reason = "a controller that finds the greatest power and has no limit";
            all.add("/solar/controller/kind".to_owned(), "mppt", None, reason, PRACTICE);
            all.add(
                "/solar/controller/efficiency".to_owned(),
                USUAL_EFFICIENCY,
                Some("fraction"),
                "usual",
                PRACTICE,
            );
        }
        Some(controller) => {
            if controller.efficiency.is_none() && !is_pwm {
                let at = "/solar/controller/efficiency".to_owned();
                all.add(at, USUAL_EFFICIENCY, Some("fraction"), "94 to 98 percent is usual", PRACTICE);
            }
            if controller.standby_w.is_none() {
                let at = "/solar/controller/standby_w".to_owned();
                all.add(at, 0.0, Some("W"), "its own draw, up to 2 W day and night, is left out", PRACTICE);
            }
        }
    }
}

fn of_stay(build: &Build, setup: &Setup, all: &mut Assumptions) {
    let at = |field: &str| format!("/stay/{field}");
    let stay = build.stay.as_ref();
    if !setup.consumers.mode_was_given
        && let Some(mode) = setup.consumers.mode
    {
        let reason =
            "the first supply mode in which neither shore nor generator feeds a circuit, or the first of all";
        all.add_words(at("mode"), mode.to_owned(), reason, PRACTICE);
    }
    if stay.is_none_or(|stay| stay.start_soc.is_none()) {
        all.add(at("start_soc"), 1.0, Some("fraction"), "a full battery", PRACTICE);
    }
    if stay.is_none_or(|stay| stay.max_unmet_fraction.is_none()) {
        let reason = "the smallest sizes leave nothing unmet";
        all.add(at("max_unmet_fraction"), 0.0, Some("fraction"), reason, PRACTICE);
    }
    let Some(stay) = stay else { return };
    if stay.first_day.is_none() {
        all.add_words(
            at("first_day"),
            "the first day of the weather".to_owned(),
            "no day is given",
            PRACTICE,
        );
    }
    if stay.first_hour.is_none() {
        all.add(at("first_hour"), f64::from(USUAL_FIRST_HOUR), None, "arrival in the evening", PRACTICE);
    }
    if stay.days.is_none() {
        all.add(at("days"), f64::from(USUAL_DAYS), None, "a long weekend and two days", PRACTICE);
    }
    if stay.grey_days.is_none() {
        all.add(at("grey_days"), 0.0, None, "the days of the weather as they are", PRACTICE);
    }
    if stay.grey_days.is_some_and(|days| days > 0) && stay.grey_fraction.is_none() {
        let reason = "a thick cover lets through 10 to 25 percent of a clear day's light";
        all.add(at("grey_fraction"), USUAL_GREY_FRACTION, Some("fraction"), reason, PRACTICE);
    }
}
