//! The rules of the cooling load.

use serde_json::{Value, json};
use wainwright::cooling_load::CoolingLoad;
use wainwright::report::Finding;

use super::boxes::{DAY, even_day, shaded, surface};
use super::twins::{
    Twins, assert_for_a_person, assert_meanings_are_sentences, assert_past_its_limit, check, findings,
    provoked, with,
};

const CAPACITY: &str = "/climate/cooling/capacity_btu_h";
const HEATER: &str = "/climate/heating/capacity_btu_h";
const NIGHT: &str = "/site/heating_design";

fn row(
    code: &'static str,
    base: Value,
    at: &'static str,
    breaks: impl Into<Value>,
    keeps: impl Into<Value>,
) -> Twins {
    Twins { code, base, at, breaks: breaks.into(), keeps: keeps.into() }
}

/// The box with an air conditioner set to 75 °F.
fn cooled(capacity_btu_h: f64) -> Value {
    with(shaded(), "/climate/cooling", json!({"capacity_btu_h": capacity_btu_h, "setpoint_f": 75}))
}

/// The box with an air conditioner of 727.3 W, which stands among the parts as well.
fn described_twice() -> Value {
    let draw = json!({"circuit": "cooler", "kind": "room_air_conditioner", "power_w": 727});
    let build = with(cooled(8000.0), "/climate/cooling/ceer", json!(11));
    with(build, "/parts/cooler", json!({"mass_lb": 66, "electrical": draw}))
}

/// The box with a heater set to 65 °F.
fn heated(capacity_btu_h: f64) -> Value {
    with(shaded(), "/climate/heating", json!({"capacity_btu_h": capacity_btu_h, "setpoint_f": 65}))
}

/// The box with one who sleeps in it.
fn slept_in() -> Value {
    with(shaded(), "/occupancy", json!({"people": 1}))
}

fn coolers() -> Vec<Twins> {
    let size =
        |code: &'static str, breaks: f64, keeps: f64| row(code, cooled(8000.0), CAPACITY, breaks, keeps);
    vec![
        // Held to 0.05 K the load is 1,382.8 BTU/h, of which 75.09 °F let it give 0.8089 of its rating.
        size("cooler_too_small", 1709.0, 1710.0),
        // At a part load of 0.9368 it runs 0.9368/(0.78 + 0.22 · 0.9368) = 0.95 of the time: 1,389.06/0.80801/0.9368.
        size("cooler_without_margin", 1835.0, 1835.3),
        // At 0.3421 it runs 0.4 of it.
        size("cooler_oversized", 5025.5, 5024.8),
        // 1,836.74/0.80801.
        size("cooler_below_steady_peak", 2273.1, 2273.3),
        // At 312 cfm a ton the air of a share below 0.715 would come out as mist.
        row("cooler_rating_impossible", cooled(8000.0), "/climate/cooling/sensible_fraction", 0.716, 0.714),
        // 46 °C.
        row("cooler_beyond_curves", cooled(5000.0), DAY, even_day(114.81), even_day(114.79)),
        row(
            "cooler_breathes_its_exhaust",
            cooled(8000.0),
            "/climate/cooling/recirculated_fraction",
            0.1001,
            0.1,
        ),
        // 8,000 BTU/h at 11 BTU/Wh, and a tenth more.
        row("cooler_power_differs", described_twice(), "/parts/cooler/electrical/power_w", 800.1, 799.9),
        row("single_hose", cooled(8000.0), "/climate/cooling/kind", "single_hose", "window"),
    ]
}

fn heaters() -> Vec<Twins> {
    vec![
        // 93.8 BTU/(h·°F) times 60 °F are 5,628 BTU/h, and a quarter more 7,035.
        row("heater_too_small", heated(6000.0), HEATER, 5627, 5629),
        row("heater_without_warm_up", heated(6000.0), HEATER, 7034, 7036),
        row("unvented_burner", heated(9000.0), "/climate/heating/kind", "propane_unvented", "propane_vented"),
    ]
}

fn air() -> Vec<Twins> {
    let window = json!({"one": {"area_ft2": 4, "facing": "left", "u_value": 0.3}});
    let glazed = with(with(slept_in(), "/envelope/windows", window), NIGHT, json!({"dry_bulb_f": 40}));
    let bank = json!({"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8});
    let battery = with(shaded(), "/battery", bank);
    let fan = with(shaded(), "/climate/fan", json!({"airflow_cfm": 900, "screen_fraction": 1}));
    vec![
        // In full shade the box is as warm as the air outside.
        row("deadly_without_cooling", shaded(), DAY, even_day(95.01), even_day(94.99)),
        row("battery_too_hot", battery, DAY, even_day(113.01), even_day(112.99)),
        row("faces_missing", shaded(), "/envelope/surfaces/floor/facing", "roof", "floor"),
        // Without air the water of a sleeper fills the room to 0.8 of saturation, a dew point of 58.80 °F; a pane of U is
        // 65 − 5.678 U · 0.13 · 25 °F inside.
        row("condensation", glazed, "/envelope/windows/one/u_value", 0.336, 0.335),
        // 4 mL/s of carbon dioxide in 2 L/s of air are 2,000 ppm: 4.2378 cfm.
        row("too_little_fresh_air", slept_in(), "/occupancy/fresh_air_cfm", 4.237, 4.239),
        // Half of 900 cfm at half of 0.12 in of water: 0.2124 m³/s through 0.65 of the opening at 4.99 m/s.
        row("inlet_too_small", fan, "/climate/fan/inlet_in2", 106.0, 107.0),
    ]
}

fn weather() -> Vec<Twins> {
    let swings =
        with(shaded(), DAY, json!({"day_of_year": 202, "max_f": 95, "min_f": 65, "dew_point_f": 50}));
    vec![
        // Its lining stands 109.7 BTU/(h·°F) from outdoors: a time constant of 5.88 days, by which the thirtieth day's step from
        // 95 °F toward the day's mean is 0.01 K.
        row("day_not_settled", swings, "/envelope/heat_capacity_btu_f", 15_472.5, 15_471.5),
        row("no_design_night", shaded(), NIGHT, Value::Null, json!({"dry_bulb_f": 5})),
        row("no_design_day", shaded(), DAY, Value::Null, even_day(95.0)),
    ]
}

fn all() -> Vec<Twins> {
    [coolers(), heaters(), air(), weather()].into_iter().flatten().collect()
}

#[test]
fn every_rule_of_the_cooling_load_is_broken_by_a_build_and_kept_by_its_twin() {
    check::<CoolingLoad>(&all());
}

#[test]
fn what_is_found_is_said_to_a_person_at_its_place_and_past_its_limit() {
    for (build, finding) in provoked::<CoolingLoad>(all()) {
        assert!(build.pointer(&finding.subject).is_some(), "{finding:?}\n{build}");
        assert_for_a_person(&finding.message, &build);
        assert_for_a_person(&finding.remedy, &build);
        assert_past_its_limit(&finding);
    }
    assert_meanings_are_sentences::<CoolingLoad>();
}

/// The findings of a rule in a build.
fn found(build: &Value, code: &str) -> Vec<Finding> {
    findings::<CoolingLoad>(build).into_iter().filter(|finding| finding.code == code).collect()
}

/// The only finding of a rule in a build.
#[track_caller]
fn the(build: &Value, code: &str) -> Finding {
    let mut all = found(build, code);
    assert_eq!(all.len(), 1, "{all:?}");
    all.remove(0)
}

#[test]
fn a_cooler_that_is_too_small_is_told_what_would_hold() {
    let small = cooled(1500.0);
    let finding = the(&small, "cooler_too_small");
    assert_eq!(
        finding.message,
        "On the hot day the air conditioner lets the box get 77.1 °F; it is set to 75 °F."
    );
    assert_eq!(
        finding.remedy,
        "5,000 BTU/h of the same kind would hold it; so would an inch of foam more on front and side walls."
    );
    assert!(found(&with(small.clone(), CAPACITY, json!(5000)), "cooler_too_small").is_empty());
    // An inch of R 5.5 over R 5 on the walls.
    let foamed = ["front", "left", "right"]
        .into_iter()
        .fold(small, |build, wall| with(build, &format!("/envelope/surfaces/{wall}/r_value"), json!(10.5)));
    assert!(found(&foamed, "cooler_too_small").is_empty());

    // A change that helps and is not enough is not promised: of a bare roof, half the load of the box.
    let bare = with(cooled(1500.0), "/envelope/surfaces/floor/r_value", json!(0.5));
    let bare = with(bare, "/envelope/surfaces/roof/r_value", json!(0.5));
    assert_eq!(the(&bare, "cooler_too_small").remedy, "5,000 BTU/h of the same kind would hold it.");
    // Where no size is enough, what helps most is named.
    let oven = with(bare, DAY, even_day(140.0));
    let oven = ["front", "rear", "left", "right"]
        .into_iter()
        .fold(oven, |build, wall| with(build, &format!("/envelope/surfaces/{wall}/r_value"), json!(0.5)));
    let remedy = the(&oven, "cooler_too_small").remedy;
    assert_eq!(remedy, "Most would help an inch of foam more on front and side walls.");
}

#[test]
fn a_cooler_a_hair_too_small_is_not_told_that_it_holds() {
    let finding = the(&cooled(1705.0), "cooler_too_small");
    assert_eq!(
        finding.message,
        "On the hot day the air conditioner lets the box get 75.1 °F; it is set to 75 °F."
    );
}

#[test]
fn of_size_margin_and_excess_one_is_said() {
    let sizes = ["cooler_too_small", "cooler_without_margin", "cooler_oversized"];
    let mut capacity_btu_h = 500.0;
    while capacity_btu_h < 30_000.0 {
        let build = cooled(capacity_btu_h);
        let said =
            findings::<CoolingLoad>(&build).iter().filter(|finding| sizes.contains(&finding.code)).count();
        assert!(said <= 1, "{capacity_btu_h}");
        capacity_btu_h *= 1.07;
    }
}

#[test]
fn of_several_among_the_parts_the_nearest_is_compared() {
    let draw =
        |power_w: f64| json!({"circuit": "cooler", "kind": "room_air_conditioner", "power_w": power_w});
    let second = json!({"mass_lb": 66, "electrical": draw(1500.0)});
    let two = with(described_twice(), "/parts/second", second);
    assert!(found(&two, "cooler_power_differs").is_empty());
    let finding = the(&with(two, "/parts/cooler/electrical", draw(900.0)), "cooler_power_differs");
    assert_eq!(finding.subject, "/parts/cooler/electrical");
    assert_eq!(
        finding.message,
        "In the climate section the air conditioner draws 727 W at its rating, the part cooler 900 W."
    );
    // Nothing else that draws power is taken for it.
    let fan = json!({"mass_lb": 5, "electrical": {"circuit": "fan", "power_w": 20}});
    assert!(found(&with(cooled(8000.0), "/parts/fan", fan), "cooler_power_differs").is_empty());
}

#[test]
fn an_oversized_cooler_is_told_the_size_that_would_do() {
    assert_eq!(
        the(&cooled(8000.0), "cooler_oversized").remedy,
        "5,000 BTU/h would do, draw less and dry the air better."
    );
    let cool = with(cooled(5000.0), DAY, even_day(80.0));
    assert_eq!(
        the(&cool, "cooler_oversized").remedy,
        "A smaller one is not common; let its fan stop with its compressor, so that it dries the air."
    );
}

#[test]
fn a_rating_that_cannot_be_points_to_what_was_given() {
    let little_air = with(cooled(8000.0), "/climate/cooling/airflow_cfm", json!(120));
    assert_eq!(the(&little_air, "cooler_rating_impossible").subject, "/climate/cooling/airflow_cfm");
    let both = with(little_air, "/climate/cooling/sensible_fraction", json!(0.7));
    assert_eq!(the(&both, "cooler_rating_impossible").subject, "/climate/cooling/sensible_fraction");
    // Nothing else is said of an air conditioner that cannot be.
    let said: Vec<_> = findings::<CoolingLoad>(&both)
        .iter()
        .map(|finding| finding.code)
        .filter(|code| code.starts_with("cooler"))
        .collect();
    assert_eq!(said, ["cooler_rating_impossible"]);
    let enough = with(both, "/climate/cooling/airflow_cfm", json!(240));
    assert!(found(&enough, "cooler_rating_impossible").is_empty());
}

#[test]
fn a_rating_that_cannot_be_is_told_which_way_it_could() {
    let share = |fraction: f64| with(cooled(8000.0), "/climate/cooling/sensible_fraction", json!(fraction));
    let finding = the(&share(0.5), "cooler_rating_impossible");
    assert_eq!(
        finding.message,
        "No coil has as little as 50 % of its cooling left to lower the temperature. The air conditioner was left out."
    );
    assert_eq!(finding.remedy, "Give a sensible_fraction of 0.59 to 0.71, or leave it out.");
    let finding = the(&share(0.75), "cooler_rating_impossible");
    assert_eq!(finding.remedy, "Give more air, or a sensible_fraction of 0.59 to 0.71.");
    let hardly_any = with(cooled(8000.0), "/climate/cooling/airflow_cfm", json!(60));
    let finding = the(&hardly_any, "cooler_rating_impossible");
    assert_eq!(finding.remedy, "Give more air; 208 cfm is usual for its size.");
    // What is advised holds.
    for kept in [0.59, 0.71] {
        assert!(found(&share(kept), "cooler_rating_impossible").is_empty());
    }
}

#[test]
fn a_heater_that_is_too_small_is_told_how_far_it_goes_and_what_would_do() {
    // 3,000 of 93.8 BTU/(h·°F): 32 °F below 65.
    let finding = the(&heated(3000.0), "heater_too_small");
    assert_eq!(
        finding.message,
        "On the cold night, 5 °F outside, the box takes 5,628 BTU/h to stay at 65 °F; the heater gives 3,000 and holds it \
         down to 33 °F."
    );
    assert_eq!(
        finding.remedy,
        "7,100 BTU/h would hold it and warm the box up; or insulate what lets most through."
    );
    let enough = findings::<CoolingLoad>(&heated(7100.0));
    assert!(enough.iter().all(|finding| !finding.code.starts_with("heater")), "{enough:?}");
}

/// Below 40 °F it stops; at 42 °F, 25/30 of the way from 17 to 47, it gives 0.6 + 0.4 · 25/30 of its rating.
#[test]
fn a_heat_pump_is_judged_by_what_it_gives_in_the_cold() {
    let pump = with(heated(30_000.0), "/climate/heating/kind", json!("heat_pump"));
    let finding = the(&pump, "heater_too_small");
    assert_eq!(
        (finding.value, finding.remedy.as_ref()),
        (Some(0.0), "In such cold a heat pump stops: have a heater of another kind with 7,100 BTU/h.")
    );
    // 93.8 · 23 °F are 2,157.4 BTU/h, and of a rating 14/15.
    let mild = |capacity_btu_h: f64| {
        let pump = with(pump.clone(), HEATER, json!(capacity_btu_h));
        with(pump, NIGHT, json!({"dry_bulb_f": 42, "wind_mph": 9.417}))
    };
    let finding = the(&mild(2000.0), "heater_too_small");
    assert!((finding.value.unwrap() - 2000.0 * 14.0 / 15.0).abs() < 1e-9);
    // 2,157.4 · 1.25 · 15/14 = 2,889.
    assert!(finding.remedy.starts_with("2,900 BTU/h would hold it"), "{}", finding.remedy);
    let enough = findings::<CoolingLoad>(&mild(2900.0));
    assert!(enough.iter().all(|finding| !finding.code.starts_with("heater")), "{enough:?}");
}

#[test]
fn on_a_night_that_is_warm_nothing_is_said_of_heater_and_damp() {
    let warm =
        with(with(heated(100.0), NIGHT, json!({"dry_bulb_f": 70})), "/occupancy", json!({"people": 1}));
    let mut said = findings::<CoolingLoad>(&with(warm, "/occupancy/fresh_air_cfm", json!(10)));
    said.retain(|finding| finding.code != "deadly_without_cooling");
    assert!(said.is_empty(), "{said:?}");
}

#[test]
fn what_drips_is_named_with_its_coldest_place() {
    let framed = json!({"area_ft2": 91, "facing": "left",
        "layers": [{"material": "polyiso", "thickness_in": 1.5}, {"material": "plywood", "thickness_in": 0.126}],
        "posts": {"material": "steel", "depth_in": 1.5, "spacing_in": 16}});
    let people = json!({"people": 1, "fresh_air_cfm": 8});
    let build = with(with(shaded(), "/envelope/surfaces/left", framed), "/occupancy", people);
    let wet = the(&build, "condensation");
    assert_eq!(wet.subject, "/envelope/surfaces/left");
    // f_Rsi of 0.2747: 5 + 0.2747 · 60 °F.
    assert!((wet.limit.unwrap() - 21.48).abs() < 0.01, "{wet:?}");
    assert!(
        wet.message.starts_with("On the cold night the inside of left over its posts is 21 °F;"),
        "{wet:?}"
    );
    assert!(wet.remedy.contains("run foam over the posts"), "{wet:?}");
    // Half an inch of foam over them, and it is dry.
    let layers = json!([{"material": "polyiso", "thickness_in": 1.5}, {"material": "polyiso", "thickness_in": 0.5},
        {"material": "plywood", "thickness_in": 0.126}]);
    let foamed = with(build, "/envelope/surfaces/left/layers", layers);
    let foamed = with(foamed, "/envelope/surfaces/left/posts/foam_in", json!(0.5));
    assert!(found(&foamed, "condensation").is_empty());

    // Without air every surface and every pane drips, each told what helps it.
    let window = json!({"pane": {"area_ft2": 4, "facing": "left"}});
    let sealed = with(slept_in(), "/envelope/windows", window);
    let wet = found(&sealed, "condensation");
    assert_eq!(wet.len(), 7);
    for finding in wet {
        let is_pane = finding.subject == "/envelope/windows/pane";
        assert_eq!(is_pane, finding.remedy.contains("second pane"), "{finding:?}");
        assert_eq!(!is_pane, finding.remedy == "Ventilate more, or insulate it better.", "{finding:?}");
    }
}

#[test]
fn sleepers_are_told_how_the_air_gets_bad() {
    let finding = the(&slept_in(), "too_little_fresh_air");
    assert_eq!(finding.message, "No air comes in while one sleeps; carbon dioxide keeps rising.");
    let two = with(slept_in(), "/occupancy/people", json!(2));
    let finding = the(&with(two.clone(), "/occupancy/fresh_air_cfm", json!(4.244)), "too_little_fresh_air");
    assert!(
        finding.message.starts_with(
            "On a calm, mild night 4.2 cfm come in while 2 sleep; carbon dioxide rises by 3,994 ppm"
        ),
        "{finding:?}"
    );
    assert!(finding.remedy.contains("15 cfm of fresh air"), "{finding:?}");
    assert!(found(&with(two, "/occupancy/fresh_air_cfm", json!(15)), "too_little_fresh_air").is_empty());
    // Nobody breathes in an empty box.
    assert!(found(&shaded(), "too_little_fresh_air").is_empty());
}

/// What a hose blows out by day does not air the box by night.
#[test]
fn the_hose_of_a_cooler_is_no_fresh_air_for_sleepers() {
    let build = with(slept_in(), "/climate/cooling", json!({"capacity_btu_h": 8000, "kind": "single_hose"}));
    assert_eq!(the(&build, "too_little_fresh_air").value, Some(0.0));
    assert_eq!(
        the(&with(build, "/climate/heating/capacity_btu_h", json!(5000)), "heater_too_small")
            .limit
            .map(f64::round),
        Some(5628.0)
    );
}

#[test]
fn an_inlet_is_judged_where_it_is_given() {
    let fan = |fan: Value| found(&with(shaded(), "/climate/fan", fan), "inlet_too_small");
    assert!(fan(json!({"airflow_cfm": 900, "screen_fraction": 0.3})).is_empty());
    assert!(fan(json!({"airflow_cfm": 0, "inlet_in2": 10})).is_empty());
    let choked = fan(json!({"airflow_cfm": 900, "inlet_in2": 40}));
    assert!(
        choked[0].message.starts_with("Through its inlet the fan moves 143 cfm of the 900 on its label.")
    );
}

/// Gravest first: a violation, then cautions, then notes.
#[test]
fn the_gravest_stands_first() {
    let hot = with(cooled(8000.0), DAY, even_day(110.0));
    let all = with(hot, "/climate/heating", json!({"capacity_btu_h": 6000, "kind": "propane_unvented"}));
    let all =
        with(with(all, "/occupancy", json!({"people": 2})), "/envelope/surfaces/door", surface(5.0, "rear"));
    let found = findings::<CoolingLoad>(&all);
    assert!(found.len() > 5 && found.is_sorted_by_key(|finding| finding.severity), "{found:?}");
    assert_eq!(found[0].code, "unvented_burner");
}
