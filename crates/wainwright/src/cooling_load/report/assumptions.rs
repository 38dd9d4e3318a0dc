//! Every default that the cooling load used.

use crate::air::dew_point::dew_point_c;
use crate::air::humidity::vapor_pa;
use crate::build::{Build, CoolerKind, Cooling, Draw, Envelope, Facing, HeaterKind, Heating, Occupancy};
use crate::cooling_load::air_exchange::fan::SHARE_THROUGH_SCREEN;
use crate::cooling_load::air_exchange::infiltration::ORDINARY_PER_H;
use crate::cooling_load::airing::{USUAL_HEIGHT_IN, USUAL_LIMIT_F};
use crate::cooling_load::body::{FLOOR_LOAD_BTU_LB_F, radiant_of, usual_glazing};
use crate::cooling_load::cooler::{Cooler, power_w};
use crate::cooling_load::equipment::rating::SENSIBLE_FRACTION;
use crate::cooling_load::gains::{USUAL_ASLEEP_FROM, USUAL_ASLEEP_TO};
use crate::cooling_load::heater;
use crate::cooling_load::numbers::USUAL_START_HOUR;
use crate::cooling_load::setup::{DESIGN_HUMIDITY, SUMMER_WIND_M_S, Setup, WINTER_WIND_M_S};
use crate::document::Options;
use crate::drawn_power::CHARGER_EFFICIENCY;
use crate::drawn_power::inverter::{INVERTER_EFFICIENCY, idle_w};
use crate::report::{Assumption, Assumptions};
use crate::site_weather::DesignOrigin;
use crate::sky::turbidity::Turbidity;
use crate::standards::glazing::{self, Glazing};
use crate::units::{J_K_PER_BTU_F, cfm, fahrenheit, ft3, m2_k_w, mph};

const PRACTICE: &str = "common practice";
const CHOSEN: &str = "chosen here";

/// The assumptions of a build, in the order of the document.
pub(super) fn assumptions(build: &Build, setup: &Setup) -> Vec<Assumption> {
    let mut all = Assumptions::default();
    if let Some(envelope) = &build.envelope {
        of_envelope(envelope, setup, &mut all);
    }
    of_climate(build, setup, &mut all);
    of_gains(build, setup, &mut all);
    of_occupancy(build.occupancy.as_ref(), &mut all);
    of_site(build, setup, &mut all);
    setup.site.assume(build, &mut all);
    all.in_order(|pointer| build.position(pointer))
}

fn of_envelope(envelope: &Envelope, setup: &Setup, all: &mut Assumptions) {
    for (id, surface) in envelope.surfaces() {
        let at = |field: &str| format!("/envelope/surfaces/{id}/{field}");
        let radiant = radiant_of(surface);
        if surface.finish.is_none() && surface.solar_absorptance.is_none() {
            let reason = if surface.facing == Facing::Floor {
                "an underside in its own shade"
            } else {
                "white in service"
            };
            all.add(at("solar_absorptance"), radiant.absorptance, Some("fraction"), reason, PRACTICE);
        }
        if surface.posts.as_ref().is_some_and(|posts| posts.foam_in.is_none()) {
            let reason = "the posts reach from skin to lining";
            all.add(at("posts/foam_in"), 0.0, Some("in"), reason, PRACTICE);
        }
        if surface.finish.is_none() && surface.emittance.is_none() {
            all.add(at("emittance"), radiant.emittance, Some("fraction"), "paint", PRACTICE);
        }
    }
    for (id, window) in envelope.windows() {
        let at = |field: &str| format!("/envelope/windows/{id}/{field}");
        let kind = usual_glazing(window.glazing, window.u_value);
        let usual = glazing::window(kind);
        if window.glazing.is_none() {
            let reason = "by what it lets through; how its sun falls off aslant goes by it";
            all.add_words(at("glazing"), Glazing::WORDS[kind as usize].0.to_owned(), reason, PRACTICE);
        }
        if window.u_value.is_none() {
            let u_value = usual.u_w_m2_k * m2_k_w(1.0);
            all.add(at("u_value"), u_value, Some("BTU/(h·ft2·°F)"), "usual for its glazing", PRACTICE);
        }
        if window.shgc.is_none() {
            all.add(at("shgc"), usual.shgc, Some("fraction"), "usual for its glazing", PRACTICE);
        }
        if window.cover.is_none() {
            all.add_words(at("cover"), "none".to_owned(), "nothing covers it by day", PRACTICE);
        }
        if window.surface.is_none()
            && let Some((surface, _)) = envelope.surface_of(window)
        {
            all.add_words(at("surface"), surface.to_owned(), "the largest that faces so", PRACTICE);
        }
    }
    if envelope.shade_fraction.is_none() {
        let reason = "it stands in the open";
        all.add("/envelope/shade_fraction".to_owned(), 0.0, Some("fraction"), reason, PRACTICE);
    }
    if envelope.volume_ft3.is_none() {
        let reason = "that of a box with these surfaces";
        all.add(
            "/envelope/volume_ft3".to_owned(),
            ft3(setup.body.volume_m3),
            Some("ft3"),
            reason,
            "geometry",
        );
    }
    if envelope.leakage_in2.is_none() && envelope.air_changes_per_h.is_none() {
        let reason = "an ordinary conversion; a sealed one has half, one with worn ramp seals two to three";
        all.add("/envelope/air_changes_per_h".to_owned(), ORDINARY_PER_H, Some("1/h"), reason, CHOSEN);
    }
    if envelope.leakage_in2.is_some() && envelope.shelter.is_none() {
        all.add_words("/envelope/shelter".to_owned(), "moderate".to_owned(), "a campground", CHOSEN);
    }
    if envelope.heat_capacity_btu_f.is_none() {
        let btu_f = setup.body.mass_j_k / J_K_PER_BTU_F;
        let reason = "lining and furniture of a light body, by its floor";
        all.add("/envelope/heat_capacity_btu_f".to_owned(), btu_f, Some("BTU/°F"), reason, CHOSEN);
    }
    if envelope.floor_load.as_ref().is_some_and(|load| load.specific_heat_btu_lb_f.is_none()) {
        let pointer = "/envelope/floor_load/specific_heat_btu_lb_f".to_owned();
        all.add(
            pointer,
            FLOOR_LOAD_BTU_LB_F,
            Some("BTU/(lb·°F)"),
            "a machine of metal, plastic and oil",
            CHOSEN,
        );
    }
}

fn of_climate(build: &Build, setup: &Setup, all: &mut Assumptions) {
    let climate = build.climate.as_ref();
    let cooling = climate.and_then(|climate| climate.cooling.as_ref());
    if cooling.is_none_or(|cooling| cooling.setpoint_f.is_none()) {
        let reason = "what loads are worked out for";
        all.add("/climate/cooling/setpoint_f".to_owned(), Cooling::SETPOINT_F, Some("°F"), reason, PRACTICE);
    }
    if cooling.is_none_or(|cooling| cooling.humidity_fraction.is_none()) {
        let reason = "what loads are worked out for";
        let pointer = "/climate/cooling/humidity_fraction".to_owned();
        all.add(pointer, DESIGN_HUMIDITY, Some("fraction"), reason, PRACTICE);
    }
    if let Some(cooling) = cooling {
        of_cooling(cooling, setup.cooler.as_ref(), all);
    }
    let heating = climate.and_then(|climate| climate.heating.as_ref());
    if heating.is_none_or(|heating| heating.setpoint_f.is_none()) {
        let reason = "people asleep under blankets";
        all.add("/climate/heating/setpoint_f".to_owned(), Heating::SETPOINT_F, Some("°F"), reason, PRACTICE);
    }
    if let Some(heating) = heating {
        of_heating(heating, setup, all);
    }
    if let Some(fan) = climate.and_then(|climate| climate.fan.as_ref()) {
        if fan.screen_fraction.is_none() {
            let reason = "a screen and an inlet of the usual size";
            all.add(
                "/climate/fan/screen_fraction".to_owned(),
                SHARE_THROUGH_SCREEN,
                Some("fraction"),
                reason,
                PRACTICE,
            );
        }
        if fan.limit_f.is_none() {
            all.add(
                "/climate/fan/limit_f".to_owned(),
                USUAL_LIMIT_F,
                Some("°F"),
                "bearable in moving air",
                PRACTICE,
            );
        }
    }
    if let Some(open) = climate.and_then(|climate| climate.open_windows.as_ref())
        && open.height_in.is_none()
    {
        let reason = "all openings are as high as one another";
        all.add("/climate/open_windows/height_in".to_owned(), USUAL_HEIGHT_IN, Some("in"), reason, PRACTICE);
    }
}

/// The wind that is reckoned with where something is driven by it.
fn summer_wind(build: &Build, setup: &Setup, all: &mut Assumptions) {
    let by_gaps = build.envelope.as_ref().is_some_and(|envelope| envelope.leakage_in2.is_some());
    let by_windows = build.climate.as_ref().is_some_and(|climate| climate.open_windows.is_some());
    if setup.hot_day.wind_m_s.is_none() && (by_gaps || by_windows) {
        let reason =
            "a light wind drives the air through gaps and windows; the sunny faces stand in still air";
        let pointer = "/site/cooling_design/wind_mph".to_owned();
        all.add(pointer, mph(SUMMER_WIND_M_S), Some("mph"), reason, PRACTICE);
    }
}

fn of_cooling(cooling: &Cooling, cooler: Option<&Cooler>, all: &mut Assumptions) {
    let at = |field: &str| format!("/climate/cooling/{field}");
    if cooling.ceer.is_none() && cooling.power_w.is_none() {
        let reason = "the least that the law has allowed since 2014 for units with louvered sides";
        let ceer = cooling.capacity_btu_h / power_w(cooling);
        all.add(at("ceer"), ceer, Some("BTU/Wh"), reason, "10 CFR 430.32(b) (from memory)");
    }
    if cooling.sensible_fraction.is_none() {
        let reason = "usual at the rating point";
        all.add(at("sensible_fraction"), SENSIBLE_FRACTION, Some("fraction"), reason, CHOSEN);
    }
    if cooling.airflow_cfm.is_none()
        && let Some(cooler) = cooler
    {
        let reason = "312 cfm for each 12,000 BTU/h, a window unit at medium speed";
        let source = "NREL/TP-5500-57617 (at second hand)";
        all.add(at("airflow_cfm"), cfm(cooler.rating.flow_m3_s), Some("cfm"), reason, source);
    }
    if cooling.kind.is_none() {
        all.add_words(at("kind"), CoolerKind::WORDS[0].0.to_owned(), "the usual one", PRACTICE);
    }
    if cooling.recirculated_fraction.is_none() {
        let reason =
            "its condenser stands in the open; in a cabinet it breathes a tenth or more of its exhaust";
        all.add(at("recirculated_fraction"), 0.0, Some("fraction"), reason, PRACTICE);
    }
    if cooling.fan_always_on.is_none() {
        all.add(at("fan_always_on"), false, None, "its fan stops with its compressor", PRACTICE);
    }
    if cooling.duct_fraction.is_none() {
        all.add(at("duct_fraction"), 1.0, Some("fraction"), "it blows straight into the room", PRACTICE);
    }
    if cooling.start_hour.is_none() {
        let reason = "in the heat of the afternoon";
        all.add(at("start_hour"), f64::from(USUAL_START_HOUR), None, reason, PRACTICE);
    }
}

fn of_heating(heating: &Heating, setup: &Setup, all: &mut Assumptions) {
    let at = |field: &str| format!("/climate/heating/{field}");
    if heating.kind.is_none() {
        let word = HeaterKind::WORDS[heater::USUAL_KIND as usize].0;
        all.add_words(at("kind"), word.to_owned(), "the usual one in campers", PRACTICE);
    }
    if heating.efficiency.is_none() {
        let value = heater::efficiency(heating, setup.cold_night.air_c);
        all.add(at("efficiency"), value, Some("fraction"), "usual for its kind", PRACTICE);
    }
    if heating.night_h.is_none() {
        all.add(at("night_h"), heater::USUAL_NIGHT_H, Some("h"), "a winter night", PRACTICE);
    }
}

/// What is taken of parts that set heat free, and of inverters and chargers that lose some.
fn of_gains(build: &Build, setup: &Setup, all: &mut Assumptions) {
    let gains = &setup.around.gains;
    let parts = build.parts.as_ref();
    for one in &gains.parts {
        let Some(part) = parts.and_then(|parts| parts.get(one.id)) else { continue };
        let at = |field: &str| format!("/parts/{}/{field}", one.id);
        if part.heat_w.is_none() {
            let reason = "all that it takes in becomes heat in the box; of something outside give 0";
            all.add_words(at("heat_w"), "its power".to_owned(), reason, "energy balance");
        }
        let silent = |draw: &Draw| {
            draw.refrigerator.is_none() && draw.hours_per_day.is_none() && draw.on_fraction.is_none()
        };
        if part.electrical.as_ref().is_some_and(silent) {
            all.add(at("electrical/hours_per_day"), 24.0, Some("h"), "it is taken to run all day", PRACTICE);
        }
    }
    for one in &gains.losses {
        if let Some((_, source)) = build.sources().find(|(id, _)| *id == one.id) {
            let at = |field: &str| format!("/electrical/sources/{}/{field}", one.id);
            if source.efficiency.is_none() {
                let reason = "usual for an inverter under load";
                all.add(at("efficiency"), INVERTER_EFFICIENCY, Some("fraction"), reason, PRACTICE);
            }
            if source.idle_w.is_none() {
                let reason = "one percent of its rated output, nothing where that is not given";
                all.add(at("idle_w"), idle_w(source), Some("W"), reason, PRACTICE);
            }
        } else if parts
            .and_then(|parts| parts.get(one.id)?.electrical.as_ref()?.charger.as_ref()?.efficiency)
            .is_none()
        {
            let at = format!("/parts/{}/electrical/charger/efficiency", one.id);
            all.add(at, CHARGER_EFFICIENCY, Some("fraction"), "usual for a converter", PRACTICE);
        }
    }
}

fn of_occupancy(occupancy: Option<&Occupancy>, all: &mut Assumptions) {
    let at = |field: &str| format!("/occupancy/{field}");
    let Some(occupancy) = occupancy else {
        all.add(at("people"), 0.0, None, "nobody is in the box", PRACTICE);
        return;
    };
    if occupancy.activity.is_none() {
        all.add_words(at("activity"), "light_work".to_owned(), "what loads are worked out for", PRACTICE);
    }
    for (field, given, usual) in [
        ("asleep_from", occupancy.asleep_from, USUAL_ASLEEP_FROM),
        ("asleep_to", occupancy.asleep_to, USUAL_ASLEEP_TO),
    ] {
        if given.is_none() {
            all.add(at(field), f64::from(usual), None, "a usual night", PRACTICE);
        }
    }
    if occupancy.away_from.is_none() {
        all.add_words(at("away_from"), "never".to_owned(), "they are in all day", PRACTICE);
    }
    if occupancy.fresh_air_cfm.is_none() {
        all.add(at("fresh_air_cfm"), 0.0, Some("cfm"), "no fan brings fresh air", PRACTICE);
    }
}

fn of_site(build: &Build, setup: &Setup, all: &mut Assumptions) {
    let site = build.site.as_ref();
    let day = site.and_then(|site| site.cooling_design.as_ref());
    let form_day = site.and_then(|site| site.weather.as_ref()?.design_day.as_ref());
    let night = site.and_then(|site| site.heating_design.as_ref());
    let hot_day = &setup.hot_day;
    if day.is_none() && form_day.is_none() {
        let (reason, source) = origin(hot_day.origin);
        let min_c = hot_day.max_c - hot_day.range_k;
        for (field, celsius) in [("max_f", hot_day.max_c), ("min_f", min_c)] {
            all.add(format!("/site/cooling_design/{field}"), fahrenheit(celsius), Some("°F"), reason, source);
        }
    }
    if hot_day.linke_turbidity.is_none() && form_day.is_none() {
        let place = &setup.site.place;
        let turbidity = Turbidity::of(place.latitude_rad, place.longitude_rad).on(hot_day.date);
        let (reason, source) =
            ("haze of the place on that day", "Remund and others 2003 (SoDa), through pvlib's table");
        all.add("/site/cooling_design/linke_turbidity".to_owned(), turbidity, None, reason, source);
    }
    if !setup.hot_day.ratio_is_known {
        let reason =
            "the coldest air of the day, or of a mean day of the month, is saturated and keeps its water";
        let pointer = if day.is_none() && form_day.is_some() {
            "/site/weather/design_day/dew_point_f"
        } else {
            "/site/cooling_design/dew_point_f"
        };
        let dew_f = fahrenheit(dew_point_c(vapor_pa(setup.hot_day.ratio, setup.around.pressure_pa)));
        all.add(pointer.to_owned(), dew_f, Some("°F"), reason, "FAO-56, eq. 48 (from memory)");
    }
    summer_wind(build, setup, all);
    if night.is_none() {
        let (reason, source) = origin(setup.cold_night.origin);
        let pointer = "/site/heating_design/dry_bulb_f".to_owned();
        all.add(pointer, fahrenheit(setup.cold_night.air_c), Some("°F"), reason, source);
    }
    if setup.cold_night.wind_m_s.is_none() {
        let reason = "a winter night";
        let pointer = "/site/heating_design/wind_mph".to_owned();
        all.add(
            pointer,
            mph(WINTER_WIND_M_S),
            Some("mph"),
            reason,
            "ASHRAE Handbook Fundamentals (from memory)",
        );
    }
}

/// Why design weather is what it is, and where it is from.
fn origin(origin: DesignOrigin) -> (&'static str, &'static str) {
    match origin {
        DesignOrigin::Station(..) => (
            "design conditions of the nearest station",
            "header of its typical year (Climate Design Data 2009 ASHRAE Handbook)",
        ),
        DesignOrigin::Series => ("what few hours of the weather given pass", "quantile of the weather given"),
        DesignOrigin::ShortSeries => {
            ("the extreme of the weather given, which is no year", "the weather given")
        }
        DesignOrigin::Means => (
            "18 °F beyond the mean of the hottest, or the coldest, month: means know no heat waves and no cold spells",
            "mean over twelve stations, which lie 10 to 22 °F (hot) and 8 to 26 °F (cold) beyond",
        ),
        DesignOrigin::Given | DesignOrigin::DesignDay => ("as given", "the build"),
    }
}
