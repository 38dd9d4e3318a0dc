use serde_json::{Value, json};

use super::electrics::usual_mode;
use super::*;
use crate::cooling_load::fixture::{assert_same, plain, read, with};
use crate::drawn_power::refrigerator::{leak_of_rated, usual_mean_w};
use crate::units::celsius;

const JULY: u8 = 7;
/// Room of the table of people's heat [°C].
const ROOM_C: f64 = 24.0;

/// An hour's figure at some hours, another at the rest.
fn at_hours(hours: impl IntoIterator<Item = usize>, value_w: f64, else_w: f64) -> ByHour {
    let mut all = [else_w; HOURS];
    hours.into_iter().for_each(|hour| all[hour] = value_w);
    all
}

/// What is set free on a day in a room of one temperature, in the usual mode.
fn gains_at(build: &Build, month: u8, room_c: f64) -> Gains<'_> {
    gains(build, &Electrics::of(build, usual_mode(build), None), month, room_c, &Indoors::even(room_c))
}

#[track_caller]
fn assert_hours(got_w: ByHour, expected_w: ByHour) {
    got_w.iter().zip(expected_w).for_each(|(got_w, expected_w)| assert_same(*got_w, expected_w));
}

fn occupied(occupancy: Value) -> Value {
    with(plain(), "/occupancy", occupancy)
}

/// Shore power, an inverter and a battery, and what they feed in two modes.
fn wired() -> Value {
    let electrical = json!({
        "sources": {
            "shore": {"kind": "shore", "voltage_v": 120, "rating_a": 30},
            "inverter": {"kind": "inverter", "voltage_v": 120, "continuous_w": 2000, "efficiency": 0.9, "idle_w": 15},
            "bank": {"kind": "battery", "voltage_v": 12.8},
        },
        "circuits": {"outlets": {}, "charge": {}, "lights": {}, "cooler": {}},
        "modes": {
            "away": {"feeds": {"outlets": "inverter", "lights": "bank"}},
            "home": {"feeds": {"outlets": "shore", "charge": "shore", "lights": "bank", "cooler": "shore"}},
        },
    });
    with(plain(), "/electrical", electrical)
}

fn part(electrical: Value) -> Value {
    json!({"mass_lb": 1, "electrical": electrical})
}

/// Heat of a part, or of a source's losses, in each hour of a day in July; none where it is not listed.
fn heat_w(document: &Value, id: &str) -> Option<ByHour> {
    let build = read(document);
    let all = gains_at(&build, JULY, ROOM_C);
    let found = all.parts.iter().chain(&all.losses).find(|one| one.id == id);
    found.map(|one| one.heat_w)
}

#[test]
fn an_empty_box_sets_nothing_free() {
    let build = read(&plain());
    let all = gains_at(&build, JULY, ROOM_C);
    assert_eq!(all, Gains::default());
    assert!((0..HOURS).all(|hour| all.sensible_w(hour) == 0.0 && all.latent_w(hour) == 0.0));
}

/// Light work 70 and 45 W, asleep 50 and 25 W in a room of 24 °C.
#[test]
fn people_sleep_wake_and_go_out() {
    let build = read(&occupied(json!({"people": 2, "away_from": 9, "away_to": 12})));
    let all = gains_at(&build, JULY, ROOM_C);
    let asleep = (0..6).chain(22..24);
    let mut expected_w = at_hours(asleep.clone(), 100.0, 140.0);
    let mut expected_latent_w = at_hours(asleep, 50.0, 90.0);
    for hour in 9..12 {
        (expected_w[hour], expected_latent_w[hour]) = (0.0, 0.0);
    }
    assert_hours(all.people_w, expected_w);
    assert_hours(all.people_latent_w, expected_latent_w);
    assert_eq!(all.sensible_w(9), 0.0);
    assert_same(all.latent_w(13), 90.0);
}

#[test]
fn hours_of_sleep_and_absence_may_run_over_midnight_or_not() {
    let people_w = |occupancy: Value| gains_at(&read(&occupied(occupancy)), JULY, ROOM_C).people_w;
    let by_day = people_w(json!({"people": 1, "asleep_from": 8, "asleep_to": 16, "activity": "seated"}));
    assert_hours(by_day, at_hours(8..16, 50.0, 70.0));
    let at_night =
        people_w(json!({"people": 1, "away_from": 20, "away_to": 4, "asleep_from": 4, "asleep_to": 10}));
    let mut expected_w = at_hours(4..10, 50.0, 70.0);
    (20..24).chain(0..4).for_each(|hour| expected_w[hour] = 0.0);
    assert_hours(at_night, expected_w);
    // From an hour to the same hour nobody sleeps.
    assert_hours(people_w(json!({"people": 1, "asleep_from": 5, "asleep_to": 5})), [70.0; HOURS]);
    assert_hours(people_w(json!({"people": 0})), [0.0; HOURS]);
}

/// At 27 °C a fifth of the sensible heat becomes latent.
#[test]
fn in_a_warmer_room_people_sweat_more() {
    let build = read(&occupied(json!({"people": 1})));
    let warm = gains_at(&build, JULY, 27.0);
    assert_same(warm.people_w[12], 56.0);
    assert_same(warm.people_latent_w[12], 59.0);
}

/// 2,000 BTU in an hour are 586.14 W; of propane, water condensed, 1.634 kg of water a kilogram of 21,500 BTU/lb carry 47.9 W
/// at 2,500 kJ/kg.
#[test]
fn a_flame_gives_heat_and_water_in_the_hours_of_its_meals() {
    let cooking = json!({"people": 0, "cooking": {"btu_per_meal": 2000, "hours": [7, 18, 18]}});
    let build = read(&occupied(cooking));
    let all = gains_at(&build, JULY, ROOM_C);
    let together_w = |hour: usize| all.cooking_w[hour] + all.cooking_latent_w[hour];
    assert_eq!(format!("{:.2} {:.1}", together_w(7), all.cooking_latent_w[7]), "586.14 47.9");
    assert_same(all.cooking_w[18], 2.0 * all.cooking_w[7]);
    assert_eq!(all.cooking_w.iter().filter(|watts| **watts > 0.0).count(), 2);
    assert_eq!((all.sensible_w(7), all.latent_w(7)), (all.cooking_w[7], all.cooking_latent_w[7]));
}

#[test]
fn parts_set_their_power_free_by_the_hours_they_run() {
    let evening: Vec<f64> = (0..24).map(|hour| if hour >= 20 { 0.5 } else { 0.0 }).collect();
    let circuits =
        json!({"sources": {"bank": {"kind": "battery", "voltage_v": 12.8}}, "circuits": {"dc": {}}});
    let build = with(plain(), "/electrical", circuits);
    for (draw, expected_w) in [
        (json!({"circuit": "dc", "power_w": 40}), [40.0; HOURS]),
        (json!({"circuit": "dc", "power_w": 40, "hours_per_day": 6}), [10.0; HOURS]),
        (json!({"circuit": "dc", "power_w": 40, "on_fraction": evening}), at_hours(20..24, 20.0, 0.0)),
        (json!({"circuit": "dc", "current_a": 2}), [25.6; HOURS]),
        (json!({"circuit": "dc", "power_w": 40, "months": [6, 7]}), [40.0; HOURS]),
        // On some days of the week only: a hot day may be one of them.
        (json!({"circuit": "dc", "power_w": 40, "weekdays": ["sat"]}), [40.0; HOURS]),
    ] {
        assert_hours(heat_w(&with(build.clone(), "/parts/one", part(draw)), "one").unwrap(), expected_w);
    }
    let lamp = part(json!({"circuit": "dc", "power_w": 40}));
    let three = with(with(build.clone(), "/parts/one", lamp.clone()), "/parts/one/quantity", json!(3));
    assert_hours(heat_w(&three, "one").unwrap(), [120.0; HOURS]);
    for (member, value) in [
        ("/parts/one/quantity", json!(0)),
        ("/parts/one/electrical/months", json!([12, 1])),
        ("/parts/one/electrical/power_w", json!(0)),
        ("/parts/one/electrical", json!({"circuit": "dc", "charger": {"output_a": 45}})),
    ] {
        let build = with(with(build.clone(), "/parts/one", lamp.clone()), member, value);
        assert_eq!(heat_w(&build, "one"), None, "{member}");
    }
}

#[test]
fn heat_that_is_stated_takes_the_place_of_power() {
    let drawn = |heat_w: f64| {
        let draw = json!({"circuit": "dc", "power_w": 60, "hours_per_day": 12});
        with(
            plain(),
            "/parts/one",
            json!({"mass_lb": 1, "quantity": 2, "heat_w": heat_w, "electrical": draw}),
        )
    };
    assert_hours(heat_w(&drawn(30.0), "one").unwrap(), [30.0; HOURS]);
    assert_hours(heat_w(&drawn(-100.0), "one").unwrap(), [-100.0; HOURS]);
    assert_eq!(heat_w(&drawn(0.0), "one"), None);
    // What draws nothing gives it off all day.
    let undrawn = with(plain(), "/parts/one", json!({"mass_lb": 1, "quantity": 2, "heat_w": 30}));
    assert_hours(heat_w(&undrawn, "one").unwrap(), [60.0; HOURS]);
}

#[test]
fn heaters_on_a_thermostat_and_air_conditioners_give_no_heat_of_their_own() {
    let of = |draw: Value| heat_w(&with(plain(), "/parts/one", part(draw)), "one");
    assert_eq!(of(json!({"circuit": "ac", "power_w": 1500, "kind": "resistive", "thermostat": true})), None);
    assert_eq!(of(json!({"circuit": "ac", "power_w": 700, "kind": "room_air_conditioner"})), None);
    let kettle = of(json!({"circuit": "ac", "power_w": 1500, "kind": "resistive", "hours_per_day": 0.4}));
    assert_hours(kettle.unwrap(), [25.0; HOURS]);
    let pump = of(json!({"circuit": "ac", "power_w": 50, "kind": "motor", "thermostat": true}));
    assert_hours(pump.unwrap(), [50.0; HOURS]);
}

/// 0.45 kWh a day in a room of 90 °F are 18.75 W; in a cooler room its compressor works less, and against less.
#[test]
fn a_refrigerator_follows_the_room() {
    let draw = json!({"circuit": "dc", "power_w": 50, "hours_per_day": 24, "refrigerator": {"inside_f": 39, "kwh_per_day": 0.45}});
    let fridge = |more: &[(&str, Value)]| {
        more.iter().fold(with(plain(), "/parts/one", part(draw.clone())), |build, (at, value)| {
            with(build, at, value.clone())
        })
    };
    let mean_w = |document: &Value, room_c: f64| gains_at(&read(document), JULY, room_c).parts[0].heat_w[5];
    let usual = fridge(&[]);
    assert_same(mean_w(&usual, celsius(90.0)), 18.75);
    let (inside_c, rated_c) = (celsius(39.0), celsius(90.0));
    let leak_w_k = leak_of_rated(0.45, rated_c, inside_c);
    assert_same(mean_w(&usual, 24.0), usual_mean_w(leak_w_k, inside_c, 24.0));
    assert!(mean_w(&usual, 24.0) < 0.65 * 18.75);
    // Two of them, and one that is too weak to hold and runs without pause.
    assert_same(mean_w(&fridge(&[("/parts/one/quantity", json!(2))]), rated_c), 37.5);
    assert_same(mean_w(&fridge(&[("/parts/one/electrical/power_w", json!(15))]), rated_c), 15.0);
}

#[test]
fn the_mode_in_which_an_air_conditioner_is_fed_is_looked_at() {
    let chosen = |document: &Value| {
        let build = read(document);
        gains_at(&build, JULY, ROOM_C).mode.map(str::to_owned)
    };
    assert_eq!(chosen(&plain()), None);
    assert_eq!(chosen(&wired()).as_deref(), Some("away"));
    let cooled = part(json!({"circuit": "cooler", "power_w": 700, "kind": "room_air_conditioner"}));
    let cooled = with(wired(), "/parts/air_conditioner", cooled);
    assert_eq!(chosen(&cooled).as_deref(), Some("home"));
    // What nothing feeds in the mode gives no heat.
    let lamp = part(json!({"circuit": "charge", "power_w": 10}));
    assert_eq!(heat_w(&with(wired(), "/parts/lamp", lamp.clone()), "lamp"), None);
    assert_hours(heat_w(&with(cooled, "/parts/lamp", lamp), "lamp").unwrap(), [10.0; HOURS]);
}

/// 90 W through 0.9 are 10 W lost, and 15 W of its own.
#[test]
fn an_inverter_loses_and_takes_for_itself() {
    let noon: Vec<f64> = (0..24).map(|hour| if hour == 12 { 1.0 } else { 0.0 }).collect();
    let draw = json!({"circuit": "outlets", "power_w": 45, "on_fraction": noon});
    let radio = with(wired(), "/parts/radio", json!({"mass_lb": 1, "quantity": 2, "electrical": draw}));
    assert_hours(heat_w(&radio, "inverter").unwrap(), at_hours([12], 25.0, 15.0));
    // What it gives off it loses all the same where the load's own heat stays outside.
    let outside = with(radio.clone(), "/parts/radio/heat_w", json!(0));
    assert_eq!((heat_w(&outside, "radio"), heat_w(&outside, "inverter")), (None, heat_w(&radio, "inverter")));
    let sleeps = with(radio.clone(), "/electrical/sources/inverter/off_when_unused", json!(true));
    assert_hours(heat_w(&sleeps, "inverter").unwrap(), at_hours([12], 25.0, 0.0));
    // In a mode that it does not feed it is off.
    let home =
        with(radio, "/electrical/modes/away", json!({"feeds": {"outlets": "shore", "lights": "bank"}}));
    assert_eq!(heat_w(&home, "inverter"), None);
    // Without modes the first source feeds everything.
    let alone = json!({"sources": {"inverter": {"kind": "inverter", "voltage_v": 120, "efficiency": 0.5, "idle_w": 2}},
        "circuits": {"outlets": {}}});
    let alone = with(plain(), "/electrical", alone);
    let alone = with(alone, "/parts/radio", part(json!({"circuit": "outlets", "power_w": 10})));
    assert_hours(heat_w(&alone, "inverter").unwrap(), [12.0; HOURS]);
}

/// 43 W at the battery through 0.86 are 7 W lost.
#[test]
fn a_charger_that_carries_the_battery_loses() {
    let charger = json!({"circuit": "charge", "charger": {"output_a": 45, "efficiency": 0.86}});
    let build = with(wired(), "/electrical/modes/away", json!(null));
    let build =
        with(build, "/electrical/modes", json!({"home": {"feeds": {"charge": "shore", "lights": "bank"}}}));
    let build = with(build, "/parts/converter", part(charger));
    let build = with(build, "/parts/lamp", part(json!({"circuit": "lights", "power_w": 43})));
    assert_hours(heat_w(&build, "converter").unwrap(), [7.0; HOURS]);
    assert_hours(heat_w(&build, "lamp").unwrap(), [43.0; HOURS]);
    // One that states its heat, and one that nothing feeds.
    let stated = with(build.clone(), "/parts/converter/heat_w", json!(20));
    assert_hours(heat_w(&stated, "converter").unwrap(), [20.0; HOURS]);
    let away = with(build, "/electrical/modes/home/feeds/charge", json!("inverter"));
    assert_eq!(heat_w(&away, "converter"), None);
}
