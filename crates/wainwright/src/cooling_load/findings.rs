//! The rules of the cooling load, and a build held against them.

use super::air_exchange::fresh_air::{CO2_ASLEEP_M3_S, LEAST_M3_S, co2_rise_ppm, needed_m3_s};
use super::cold_night::InsideFace;
use super::cooler::Cooler;
use super::equipment::heating::WARM_UP_FACTOR;
use super::lap::Room;
use super::numbers::Numbers;
use super::setup::Setup;
use super::sizes::HELD_K;
use crate::air::properties::volume_m3_kg;
use crate::build::{Build, CoolerKind, HeaterKind, LoadKind};
use crate::drawn_power::running_w;
use crate::report::{Finding, Findings, figure, rules};
use crate::site_weather::DesignOrigin;
use crate::units::{btu_h, cfm, fahrenheit};

/// Run fraction in its busiest hour above which an air conditioner has no margin.
const NO_MARGIN: f64 = 0.95;
/// Run fraction in its busiest hour below which it is too large to dry the air.
const OVERSIZED: f64 = 0.4;
/// Heat of the warm-up that a heater should have beyond the load.
const HEATER_MARGIN: f64 = 1.0;
/// Carbon dioxide above that of the outdoors that sleepers should not pass [ppm].
const MOST_CO2_RISE_PPM: f64 = 2000.0;
/// Two powers this near are the same, as a share.
const SAME_FRACTION: f64 = 0.1;
/// Voltage by which a current among the parts is turned into a power [V].
const LINE_V: f64 = 120.0;
/// Share of its label that a fan should move.
const LEAST_OF_LABEL: f64 = 0.5;
/// Temperature inside above which a lithium battery must not be charged, and nothing living be left [°F].
const DEADLY_F: f64 = 104.0;

rules! {
    shared {}
    COOLER_TOO_SMALL: Caution Maximum "°F", "cooler_too_small",
        "On the hot day the given air conditioner does not hold the temperature it is set to.",
        "common practice";
    COOLER_WITHOUT_MARGIN: Note Maximum "fraction", "cooler_without_margin",
        "In its busiest hour the air conditioner hardly stops.",
        "common practice";
    COOLER_OVERSIZED: Note Minimum "fraction", "cooler_oversized",
        "Even in its busiest hour the air conditioner runs little: in short runs it hardly dries the air.",
        "common practice";
    COOLER_RATING_IMPOSSIBLE: Caution - -, "cooler_rating_impossible",
        "No coil can have the rating given: with so little air and so much moisture its air would come out as mist.",
        "line from the rating point to saturation, ASHRAE Handbook Fundamentals, chapter 1";
    COOLER_BEYOND_CURVES: Note - -, "cooler_beyond_curves",
        "The air conditioner runs in conditions beyond those its curves were measured in.",
        "NREL/TP-5500-57617 (at second hand)";
    COOLER_BREATHES_ITS_EXHAUST: Caution Maximum "fraction", "cooler_breathes_its_exhaust",
        "The condenser breathes a part of its own exhaust, cools less and draws more.",
        "common practice";
    COOLER_POWER_DIFFERS: Note - -, "cooler_power_differs",
        "The air conditioner among the parts draws another power than the one in the climate section.",
        "the same appliance, described twice";
    SINGLE_HOSE: Caution - -, "single_hose",
        "A unit with one hose blows out air of the box and draws in as much from outside.",
        "common practice: half of its label or less is left";
    DEADLY_WITHOUT_COOLING: Caution Maximum "°F", "deadly_without_cooling",
        "Closed and with nothing that cools, the box grows dangerously hot.",
        "common practice";
    HEATER_TOO_SMALL: Caution Minimum "BTU/h", "heater_too_small",
        "The given heater gives less than the cold night takes.",
        "common practice";
    HEATER_WITHOUT_WARM_UP: Note Minimum "BTU/h", "heater_without_warm_up",
        "The given heater holds the temperature of the cold night, and has too little beyond that to warm the box up.",
        "common practice: a quarter more than the load";
    UNVENTED_BURNER: Violation - -, "unvented_burner",
        "The heater gives its exhaust into the box.",
        "common practice: never sleep with an unvented burner; NFPA 1192 (from memory)";
    CONDENSATION: Note Maximum "°F", "condensation",
        "On the cold night water condenses on the inside of a surface or a window.",
        "dew point against the inside surface, ISO 6946";
    TOO_LITTLE_FRESH_AIR: Caution Minimum "cfm", "too_little_fresh_air",
        "Too little air comes in for those who sleep in the box.",
        "common practice: 7.5 cfm for each sleeper; below 4 carbon dioxide rises by more than 2,000 ppm";
    NO_DESIGN_NIGHT: Note - -, "no_design_night",
        "The weather given is no whole year: how cold the coldest night is does not follow from it.",
        "common practice";
    NO_DESIGN_DAY: Note - -, "no_design_day",
        "The weather given is no whole year: how hot the hottest day is does not follow from it.",
        "common practice";
    INLET_TOO_SMALL: Caution Minimum "fraction", "inlet_too_small",
        "Through the inlet given the fan moves little of what its label says.",
        "common practice: an inlet of one and a half times the fan's own opening";
    COOLER_BELOW_STEADY_PEAK: Note Minimum "BTU/h", "cooler_below_steady_peak",
        "The air conditioner covers the peak that was worked out, and not the one by U-values alone, which is an upper bound.",
        "steady heat balance by U-values, as a check";
}

/// What an air conditioner gives that lowers the temperature, by the sensible load of the peak hour; 0 without a load.
pub(super) fn margin(delivered_w: f64, numbers: &Numbers) -> f64 {
    let load_w = numbers.peak.sensible_w;
    if load_w > 0.0 { delivered_w / load_w } else { 0.0 }
}

/// What the rules say of a build.
pub(super) fn findings(build: &Build, setup: &Setup, numbers: &Numbers) -> Vec<Finding> {
    let mut all = Findings::default();
    of_cooler(build, setup, numbers, &mut all);
    of_heat(numbers, &mut all);
    of_heater(build, setup, numbers, &mut all);
    of_damp(numbers, &mut all);
    of_air(build, setup, numbers, &mut all);
    of_design(setup, &mut all);
    all.in_order()
}

fn degrees(celsius: f64) -> String {
    format!("{} °F", figure(fahrenheit(celsius), 0))
}

fn of_cooler(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    let Some(cooling) = build.climate.as_ref().and_then(|climate| climate.cooling.as_ref()) else { return };
    let at_field = |field: &str| format!("/climate/cooling/{field}");
    if cooling.kind == Some(CoolerKind::SingleHose) {
        let message = "A unit with a single hose draws in as much outdoor air as it blows out.".to_owned();
        let remedy = "Take a unit with two hoses, or one in a window or on the roof.";
        all.add(SINGLE_HOSE.finding(at_field("kind"), None, None, message, remedy));
    }
    let Some((cooler, day)) = setup.cooler.as_ref().zip(numbers.cooled.as_ref()) else {
        let message =
            "No coil has so small a sensible share with so little air: the air conditioner was left out."
                .to_owned();
        let remedy = "Leave sensible_fraction and airflow_cfm out, or give a larger share or more air.";
        let field = if cooling.sensible_fraction.is_some() { "sensible_fraction" } else { "airflow_cfm" };
        all.add(COOLER_RATING_IMPOSSIBLE.finding(at_field(field), None, None, message, remedy));
        return;
    };
    let set_c = setup.around.cool_c;
    let busiest = day.hours.iter().map(|hour| hour.run_fraction).fold(0.0, f64::max);
    if day.warmest_c > set_c + HELD_K {
        let message = format!(
            "On the hot day the air conditioner lets the box get {}; it is set to {}.",
            degrees(day.warmest_c),
            degrees(set_c)
        );
        let remedy = match (numbers.smallest_btu_h, numbers.effects.first()) {
            (Some(btu_h), _) if btu_h > cooling.capacity_btu_h => format!(
                "{} BTU/h of the same kind would hold it, or {}.",
                figure(btu_h, 0),
                numbers.effects.first().map_or("a better envelope", |effect| effect.change.words())
            ),
            (_, Some(effect)) => format!("Most would help {}.", effect.change.words()),
            _ => "Insulate, shade, or take a larger one.".to_owned(),
        };
        let (value, limit) = (fahrenheit(day.warmest_c), fahrenheit(set_c));
        all.add(COOLER_TOO_SMALL.finding(
            at_field("capacity_btu_h"),
            Some(value),
            Some(limit),
            message,
            remedy,
        ));
    } else if busiest > NO_MARGIN {
        let message = format!(
            "In its busiest hour the air conditioner runs {} % of the time.",
            figure(100.0 * busiest, 0)
        );
        let remedy = "Take the next size, or lower the load: see the changes.";
        all.add(COOLER_WITHOUT_MARGIN.finding(
            at_field("capacity_btu_h"),
            Some(busiest),
            Some(NO_MARGIN),
            message,
            remedy,
        ));
    } else if busiest < OVERSIZED {
        let message = format!(
            "Even in its busiest hour the air conditioner runs only {} % of the time.",
            figure(100.0 * busiest, 0)
        );
        let remedy = match numbers.smallest_btu_h.filter(|btu_h| *btu_h < cooling.capacity_btu_h) {
            Some(btu_h) => format!("{} BTU/h would do, draw less and dry the air better.", figure(btu_h, 0)),
            None => {
                "A smaller one is not common; let its fan stop with its compressor, so that it dries the air."
                    .to_owned()
            }
        };
        all.add(COOLER_OVERSIZED.finding(
            at_field("capacity_btu_h"),
            Some(busiest),
            Some(OVERSIZED),
            message,
            remedy,
        ));
    }
    let hour = &day.hours[numbers.peak_hour];
    let at = cooler.at(&Room::even(hour.air_c, hour.ratio), numbers.peak.outdoor_c, setup.around.pressure_pa);
    let delivered_w = at.sensible_w * cooler.delivered;
    if day.warmest_c <= set_c + HELD_K && delivered_w < numbers.steady_peak_w {
        let message = format!(
            "In the hour of the peak the air conditioner gives {} BTU/h that lower the temperature; by U-values alone up to {} \
             come in.",
            figure(btu_h(delivered_w), 0),
            figure(btu_h(numbers.steady_peak_w), 0)
        );
        let remedy = "Where the figures of the envelope are guessed, take the next size.";
        let (value, limit) = (btu_h(delivered_w), btu_h(numbers.steady_peak_w));
        all.add(COOLER_BELOW_STEADY_PEAK.finding(
            at_field("capacity_btu_h"),
            Some(value),
            Some(limit),
            message,
            remedy,
        ));
    }
    if day.extrapolated {
        let message = "While it runs most of the time the room's wet bulb or the air outside lies beyond 54 to 77 °F or 68 to 115 °F; the \
            nearest conditions measured were taken."
            .to_owned();
        let remedy = "Ask the maker what it gives in that heat.";
        all.add(COOLER_BEYOND_CURVES.finding(at_field("capacity_btu_h"), None, None, message, remedy));
    }
    of_its_part(build, cooler, all);
    if cooler.recirculated > 0.0 {
        let message = format!(
            "The condenser breathes {} % of its own exhaust.",
            figure(100.0 * cooler.recirculated, 0)
        );
        let remedy = "Keep intake and exhaust apart, without a shared louver, and let the pan drain.";
        all.add(COOLER_BREATHES_ITS_EXHAUST.finding(
            at_field("recirculated_fraction"),
            Some(cooler.recirculated),
            Some(0.0),
            message,
            remedy,
        ));
    }
}

/// The air conditioner is described once more among the parts, for its mass and its circuit.
fn of_its_part(build: &Build, cooler: &Cooler, all: &mut Findings) {
    let given_w = cooler.rating.power_w;
    let parts = build.draws().filter(|(_, draw)| draw.kind == Some(LoadKind::RoomAirConditioner));
    let nearest = parts
        .map(|(id, draw)| (id, running_w(draw, LINE_V, true)))
        .min_by(|one, other| (one.1 - given_w).abs().total_cmp(&(other.1 - given_w).abs()));
    let Some((id, part_w)) = nearest.filter(|(_, part_w)| (part_w - given_w).abs() > SAME_FRACTION * given_w)
    else {
        return;
    };
    let message = format!(
        "In the climate section the air conditioner draws {} W at its rating, the part {id} {} W.",
        figure(given_w, 0),
        figure(part_w, 0)
    );
    let remedy =
        format!("Give both the same: {} W is what circuits and battery reckon with.", figure(part_w, 0));
    all.add(COOLER_POWER_DIFFERS.finding(format!("/parts/{id}/electrical"), None, None, message, remedy));
}

fn of_heat(numbers: &Numbers, all: &mut Findings) {
    let warmest_f = fahrenheit(numbers.free.warmest_c);
    if warmest_f > DEADLY_F {
        let message = format!(
            "With nothing that cools, the closed box gets {} on the hot day.",
            degrees(numbers.free.warmest_c)
        );
        let remedy =
            "Leave nobody in it, no animal, and nothing that the heat spoils; shade and a fan help most.";
        all.add(DEADLY_WITHOUT_COOLING.finding(
            "/envelope",
            Some(warmest_f),
            Some(DEADLY_F),
            message,
            remedy,
        ));
    }
}

fn of_heater(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    let Some(heating) = build.climate.as_ref().and_then(|climate| climate.heating.as_ref()) else { return };
    let at = |field: &str| format!("/climate/heating/{field}");
    if heating.kind == Some(HeaterKind::PropaneUnvented) {
        let message =
            "The heater gives carbon monoxide and water into the box that people sleep in.".to_owned();
        let remedy =
            "Take a vented one that draws its air from outside; never sleep with an unvented burner.";
        all.add(UNVENTED_BURNER.finding(at("kind"), None, None, message, remedy));
    }
    let load_w = numbers.night.sum_w();
    let given_w = super::heater::capacity_w(heating, numbers.night.outdoor_c);
    let warm_up_w = load_w * WARM_UP_FACTOR;
    if load_w <= 0.0 {
        return;
    }
    let of = |needed_w: f64| (Some(btu_h(given_w)), Some(btu_h(needed_w)));
    if given_w < HEATER_MARGIN * load_w {
        let holds_c = super::heater::holds_to_c(heating, &numbers.night);
        let message = format!(
            "On the cold night, {} outside, the box takes {} BTU/h to stay at {}; the heater gives {} and holds it down to {}.",
            degrees(numbers.night.outdoor_c),
            figure(btu_h(load_w), 0),
            degrees(setup.heat_c),
            figure(btu_h(given_w), 0),
            degrees(holds_c)
        );
        let remedy = format!(
            "{} BTU/h would do with some to warm up; or insulate what lets most through.",
            figure((btu_h(warm_up_w) / 100.0).ceil() * 100.0, 0)
        );
        let (value, limit) = of(load_w);
        all.add(HEATER_TOO_SMALL.finding(at("capacity_btu_h"), value, limit, message, remedy));
    } else if given_w < warm_up_w {
        let message = format!(
            "The heater gives {} BTU/h; the cold night takes {} to hold the box at {}.",
            figure(btu_h(given_w), 0),
            figure(btu_h(load_w), 0),
            degrees(setup.heat_c)
        );
        let remedy = "Warm the box up before the cold comes, or take a heater with a quarter more.";
        let (value, limit) = of(warm_up_w);
        all.add(HEATER_WITHOUT_WARM_UP.finding(at("capacity_btu_h"), value, limit, message, remedy));
    }
}

fn of_damp(numbers: &Numbers, all: &mut Findings) {
    let dew_c = numbers.damp.dew_point_c;
    for face in numbers.damp.faces.iter().filter(|face: &&InsideFace| face.lowest_c() < dew_c) {
        let map = if face.is_window { "windows" } else { "surfaces" };
        let place = if face.coldest_c.is_some_and(|coldest_c| coldest_c < face.inside_c) {
            " over its posts"
        } else {
            ""
        };
        let message = format!(
            "On the cold night the inside of {}{place} is {}; the air inside drips below {}.",
            face.id,
            degrees(face.lowest_c()),
            degrees(dew_c)
        );
        let remedy = if face.is_window {
            "Air more, or cover it inside and let the cover seal; a second pane helps."
        } else {
            "Air more, or run foam over the posts: half an inch that nothing bridges is enough for most."
        };
        let (value, limit) = (fahrenheit(dew_c), fahrenheit(face.lowest_c()));
        all.add(CONDENSATION.finding(
            format!("/envelope/{map}/{}", face.id),
            Some(value),
            Some(limit),
            message,
            remedy,
        ));
    }
}

fn of_air(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    if let Some(airing) = &numbers.airing
        && build
            .climate
            .as_ref()
            .is_some_and(|climate| climate.fan.as_ref().is_some_and(|fan| fan.inlet_in2.is_some()))
        && airing.fan_m3_s < LEAST_OF_LABEL * airing.label_m3_s
    {
        let message = format!(
            "Through its inlet the fan moves {} cfm of the {} on its label.",
            figure(cfm(airing.fan_m3_s), 0),
            figure(cfm(airing.label_m3_s), 0)
        );
        let remedy =
            "Open a window or a second vent: an inlet of one and a half times the fan's own opening.";
        let moved = airing.fan_m3_s / airing.label_m3_s;
        all.add(INLET_TOO_SMALL.finding(
            "/climate/fan/inlet_in2",
            Some(moved),
            Some(LEAST_OF_LABEL),
            message,
            remedy,
        ));
    }
    let people = build.occupancy.as_ref().map_or(0.0, |occupancy| f64::from(occupancy.people));
    let night = &numbers.night;
    let volume = volume_m3_kg(night.outdoor_c, 0.0, setup.around.pressure_pa);
    let comes_m3_s = night.air_kg_s * volume;
    let co2_m3_s = people * CO2_ASLEEP_M3_S;
    let least_m3_s = co2_m3_s / (MOST_CO2_RISE_PPM * 1e-6);
    if comes_m3_s < least_m3_s {
        let rise_ppm = co2_rise_ppm(co2_m3_s, comes_m3_s);
        let message = format!(
            "{} cfm come in while {} sleep; carbon dioxide rises {}.",
            figure(cfm(comes_m3_s), 1),
            figure(people, 0),
            if rise_ppm.is_finite() {
                format!("by {} ppm", figure(rise_ppm, 0))
            } else {
                "without end".to_owned()
            }
        );
        let remedy = format!(
            "Leave vents open, or run a fan for {} cfm of fresh air (occupancy.fresh_air_cfm).",
            figure(cfm(needed_m3_s(people, LEAST_M3_S)), 0)
        );
        let (value, limit) = (cfm(comes_m3_s), cfm(least_m3_s));
        all.add(TOO_LITTLE_FRESH_AIR.finding("/occupancy/people", Some(value), Some(limit), message, remedy));
    }
}

fn of_design(setup: &Setup, all: &mut Findings) {
    if setup.cold_night.origin == DesignOrigin::ShortSeries {
        let message = format!(
            "The cold night was taken to be the coldest hour of the weather given, {}.",
            degrees(setup.cold_night.air_c)
        );
        let remedy = "Give site.heating_design with the temperature that heating is sized for.";
        all.add(NO_DESIGN_NIGHT.finding("/site/weather", None, None, message, remedy));
    }
    if setup.hot_day.origin == DesignOrigin::ShortSeries {
        let message = format!(
            "The hot day was taken to be as the hottest of the weather given, {}.",
            degrees(setup.hot_day.max_c)
        );
        let remedy = "Give site.cooling_design with the day that cooling is sized for.";
        all.add(NO_DESIGN_DAY.finding("/site/weather", None, None, message, remedy));
    }
}
