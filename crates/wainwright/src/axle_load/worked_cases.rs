//! Whole cases worked independently of this program, from the document to the printed figures.
//!
//! The trailer is that of [`super::fixture`]. What may vary is a scenario of our own; its worst cases were found by
//! looking at every one of its 256 corners.

use serde_json::{Value, json};

use super::fixture::{AXLE_X_IN, BALL_HEIGHT_IN, ITEMS_LB_IN, TRACK_IN, assert_printed};
use super::limits::LimitName;
use super::line::Line;
use super::normal_use::normal_use;
use super::numbers::{Numbers, numbers, road_conditions};
use super::placement::{Greatest, Interval};
use super::rig::state_totals;
use super::worst::{Choices, Extreme, Range, Source};
use crate::build::Build;
use crate::loading::Loading;
use crate::units::{inches, kg, lb, m};

/// Whether the axles' own masses bear on their own axle.
#[derive(Clone, Copy, PartialEq)]
enum Unsprung {
    Shared,
    Apart,
}

fn part([mass, x, y, z]: [f64; 4]) -> Value {
    json!({"mass_lb": mass, "x_in": x, "y_in": y, "z_in": z})
}

/// The trailer as a document, in one state with nothing aboard.
fn trailer(unsprung: Unsprung) -> Value {
    let [shell, front, rear, rest @ ..] = ITEMS_LB_IN;
    let items: &[[f64; 4]] = if unsprung == Unsprung::Apart { &[shell, front, rear] } else { &[shell] };
    let mass = items.iter().map(|item| item[0]).sum::<f64>();
    let mean = |axis: usize| items.iter().map(|item| item[0] * item[axis]).sum::<f64>() / mass;
    let axle = |x: f64| {
        let mut axle = json!({"x_in": x, "gawr_lb": 3500, "track_in": TRACK_IN});
        if unsprung == Unsprung::Apart {
            axle["unsprung_lb"] = json!(front[0]);
        }
        axle
    };
    let mut parts = serde_json::Map::new();
    if unsprung == Unsprung::Shared {
        parts.extend([("front_axle".to_owned(), part(front)), ("rear_axle".to_owned(), part(rear))]);
    }
    parts.extend(rest.into_iter().enumerate().map(|(i, item)| (format!("item{i}"), part(item))));
    json!({
        "trailer": {
            "gvwr_lb": 7000,
            "bare": part([mass, mean(1), mean(2), mean(3)]),
            "axles": {"front": axle(AXLE_X_IN[0]), "rear": axle(AXLE_X_IN[1])},
            "coupler": {"ball_height_in": BALL_HEIGHT_IN, "max_tongue_lb": 750}
        },
        "parts": parts,
        "states": {"empty": {}}
    })
}

/// Its tanks: 250.2, 208.5, 100.08 and 50.04 lb of water and 40 lb of propane.
fn with_tanks() -> Value {
    let tank = |fluid: &str, gal: f64, x: f64, y: f64, z: f64| json!({"fluid": fluid, "capacity_gal": gal, "x_in": x, "y_in": y, "z_in": z});
    let mut build = trailer(Unsprung::Shared);
    build["tanks"] = json!({
        "fresh": tank("fresh_water", 30.0, 150.0, 0.0, 18.0),
        "grey": tank("grey_water", 25.0, 228.0, 10.0, 15.0),
        "black": tank("black_water", 12.0, 236.0, -14.0, 15.0),
        "heater": tank("fresh_water", 6.0, 130.0, -30.0, 24.0),
        "propane": tank("propane", 10.0, 18.0, 0.0, 34.0)
    });
    build["tanks"]["propane"]["density_lb_per_gal"] = json!(4);
    build
}

/// Tanks and cargo: everything that may vary.
fn with_everything() -> Value {
    let mut build = with_tanks();
    build["cargo"] = json!({
        "atv": part([790.0, 205.0, 0.0, 46.0]),
        "bike": part([245.0, 246.0, 12.0, 44.0]),
        "gear": part([180.0, 110.0, 20.0, 40.0])
    });
    build
}

fn solve(document: &Value) -> Numbers {
    let build = read(document);
    numbers(&build, &Loading::of(&build).unwrap(), &road_conditions(&build)).unwrap()
}

fn read(document: &Value) -> Build {
    Build::from_json(document.to_string().as_bytes()).unwrap()
}

#[track_caller]
fn assert_range(range: Range<Extreme>, unit: impl Fn(f64) -> f64, least: &str, most: &str) {
    assert_printed(unit(range.min.value), least);
    assert_printed(unit(range.max.value), most);
}

#[track_caller]
fn assert_loads(document: &Value, axles: [&str; 2], tongue: &str) {
    let loads = solve(document).states[0].loads;
    assert_printed(lb(loads.axle_kg[0]), axles[0]);
    assert_printed(lb(loads.axle_kg[1]), axles[1]);
    assert_printed(lb(loads.tongue_kg), tongue);
}

#[test]
fn equal_arms_share_alike_wherever_the_unsprung_masses_bear() {
    for unsprung in [Unsprung::Shared, Unsprung::Apart] {
        assert_loads(&trailer(unsprung), ["1844.0", "1844.0"], "548.01053");
    }
}

#[test]
fn unequal_arms_load_the_axle_on_the_shorter_one() {
    let mut build = trailer(Unsprung::Shared);
    build["trailer"]["equalizer"] = json!({"front_arm_in": 5.5, "rear_arm_in": 6.5});
    assert_loads(&build, ["2012.668", "1703.027"], "520.3058");
}

#[test]
fn independent_axles_share_by_the_height_of_the_ball() {
    let mut build = trailer(Unsprung::Shared);
    build["trailer"]["suspension"] = json!("independent");
    for axle in ["front", "rear"] {
        build["trailer"]["axles"][axle]["rate_lb_per_in"] = json!(900);
        build["trailer"]["axles"][axle]["unloaded_height_in"] = json!(21.048_883_04);
    }
    for (height_in, axles, tongue) in [
        (17.0, ["2018.064", "1698.517"], "519.4195"),
        (18.0, ["1931.029", "1771.256"], "533.7150"),
        (19.0, ["1843.995", "1843.995"], "548.0105"),
        (20.0, ["1756.960", "1916.734"], "562.3061"),
        (22.0, ["1582.891", "2062.212"], "590.8971"),
        (41.0, ["0.000", "3385.111"], "850.8889"),
    ] {
        build["trailer"]["coupler"]["ball_height_in"] = json!(height_in);
        assert_loads(&build, axles, tongue);
    }
}

#[test]
fn worst_cases_are_those_of_all_256_corners() {
    let numbers = solve(&with_everything());
    let worst = &numbers.worst;
    assert_range(worst.gross, lb, "4236.000", "6099.820");
    for j in 0..2 {
        assert_range(worst.axle[j], lb, "1843.995", "2785.921");
        assert_range(worst.right[j], lb, "896.0710", "1403.443");
        assert_range(worst.left[j], lb, "947.2734", "1383.128");
    }
    assert_range(worst.tongue, lb, "347.5017", "728.4863");
    assert_range(worst.tongue_fraction, |f| f, "0.06228098", "0.1531643");
    let center = numbers.choices.quotient(Line::MOMENT, Line::GROSS);
    assert_range(center, inches, "160.89878", "178.16661");
    assert_printed(center.max.value / center.min.value, "1.107321");
    // A stop at 0.35 g that the trailer brakes by itself adds a Σ w z/L to the tongue.
    let braked = numbers.rig.tongue + Line { z: 0.35 / numbers.rig.group_x_m, ..Line::default() };
    assert_range(numbers.choices.line(braked), lb, "748.7543", "1069.837");
}

#[test]
fn worst_fractions_name_what_is_full_and_aboard() {
    let build = with_everything();
    let numbers = solve(&build);
    let named = |extreme: Extreme| {
        let (mut fill, mut aboard) = ([0.0; 5], [false; 3]);
        numbers.choices.state(&extreme.witness, &mut fill, &mut aboard);
        (fill, aboard)
    };
    let fraction = numbers.worst.tongue_fraction;
    assert_eq!(named(fraction.min), ([0.0, 1.0, 1.0, 0.0, 0.0], [true, true, false]));
    assert_eq!(named(fraction.max), ([1.0, 0.0, 0.0, 1.0, 1.0], [false, false, true]));
}

#[test]
fn water_that_only_goes_round_lightens_the_tongue_by_less() {
    let mut build = with_tanks();
    for other in ["heater", "propane"] {
        build["tanks"].as_object_mut().unwrap().remove(other);
    }
    let numbers = solve(&build);
    let build = read(&build);
    let used = normal_use(&Loading::of(&build).unwrap(), &numbers.choices, &numbers.rig).unwrap();
    let empty_kg = numbers.states[0].loads.tongue_kg;
    assert_printed(lb(used.water_kg), "250.2");
    assert_printed(lb(used.tongue_min_kg - empty_kg), "-54.2539");
    assert_printed(lb(numbers.worst.tongue.min.value - empty_kg), "-65.9299");
}

/// The trailer with its tanks and the machine alone, which stands at a place.
fn with_machine(x_in: f64, max_tongue_lb: f64) -> Value {
    let mut build = with_tanks();
    build["cargo"] = json!({"atv": part([790.0, x_in, 0.0, 46.0])});
    build["trailer"]["coupler"]["max_tongue_lb"] = json!(max_tongue_lb);
    build
}

/// Everything but the machine.
fn rest_of(numbers: &Numbers) -> Choices {
    numbers.choices.without(Source::Cargo(0))
}

#[test]
fn machine_may_stand_where_no_fill_breaks_a_limit() {
    let numbers = solve(&with_machine(170.0, 750.0));
    let rest = rest_of(&numbers);
    assert_range(rest.line(numbers.rig.tongue), lb, "482.0806", "652.6968");
    let place = numbers.cargo[0].any;
    assert_printed(inches(place.min_x_m), "166.598");
    assert_eq!(place.min_by, Some(LimitName::CouplerTongue));
    assert_printed(inches(place.max_x_m), "177.6434");
    assert_eq!(place.max_by, Some(LimitName::TongueFractionMin));
    for (name, ahead, behind) in [
        (LimitName::TongueFractionMax, Some("153.3855"), None),
        (LimitName::TongueFractionMin, None, Some("177.6434")),
        (LimitName::Gawr(0), None, Some("649.8")),
    ] {
        let limit = numbers.limits.iter().find(|limit| limit.name == name).unwrap();
        // The machine counted at the ball.
        let rest_kg = rest.greatest(&limit.over) + limit.over.mass * kg(790.0);
        let place = Interval::ANYWHERE.keeping(limit, kg(790.0), rest_kg);
        if let Some(ahead) = ahead {
            assert_printed(inches(place.min_x_m), ahead);
        }
        if let Some(behind) = behind {
            assert_printed(inches(place.max_x_m), behind);
        }
    }
    let least = |over: Line| lb(rest.greatest(&over));
    assert_printed(-least(Line::GROSS.times(0.10) - numbers.rig.tongue), "27.62263");
    assert_printed(least(numbers.rig.tongue - Line::GROSS.times(0.15)), "-33.73916");
}

#[test]
fn machine_at_either_end_just_keeps_its_limit() {
    for (x_in, least, most) in [(177.6434, "0.100000", "0.131204"), (153.3855, "0.118907", "0.150000")] {
        let mut build = with_machine(x_in, 750.0);
        let atv = build["cargo"].as_object_mut().unwrap().remove("atv").unwrap();
        build["parts"]["atv"] = atv;
        assert_range(solve(&build).worst.tongue_fraction, |f| f, least, most);
    }
}

#[test]
fn with_a_lighter_coupler_the_machine_has_no_place() {
    let place = solve(&with_machine(170.0, 700.0)).cargo[0].any;
    assert_printed(inches(place.min_x_m), "178.623");
    assert_printed(inches(place.max_x_m), "177.643");
    let conflict = Some([LimitName::CouplerTongue, LimitName::TongueFractionMin]);
    assert_eq!(Numbers::conflict(&place), conflict);
}

#[test]
fn machine_may_weigh_what_no_fill_breaks_a_limit_with() {
    for (x_in, bounds, by) in [
        (
            205.0,
            [
                (LimitName::Gvwr, "2115.18"),
                (LimitName::Gawr(0), "2504.24"),
                (LimitName::TongueFractionMin, "154.362"),
            ],
            LimitName::TongueFractionMin,
        ),
        (
            160.0,
            [
                (LimitName::Gvwr, "2115.18"),
                (LimitName::Gawr(0), "3208.56"),
                (LimitName::CouplerTongue, "616.253"),
            ],
            LimitName::CouplerTongue,
        ),
    ] {
        let build = with_machine(x_in, 750.0);
        let numbers = solve(&build);
        let one = Loading::of(&read(&build)).unwrap().cargo_kilogram[0];
        let rest = rest_of(&numbers);
        let alone = |name: LimitName| {
            let limit = numbers.limits.iter().find(|limit| limit.name == name).unwrap();
            lb(Greatest::ANY.keeping(limit, &one, rest.greatest(&limit.over)).mass_kg)
        };
        for (name, mass) in bounds {
            assert_printed(alone(name), mass);
        }
        assert_eq!(numbers.largest[0].any.by, Some(by));
        assert_printed(lb(numbers.largest[0].any.mass_kg), bounds[2].1);
        if x_in == 160.0 {
            assert_printed(alone(LimitName::TongueFractionMax), "4273.63");
        }
    }
}

/// Cargo that weighs nothing yet is asked how heavy it may become at its place.
#[test]
fn cargo_without_mass_is_bounded_at_its_place() {
    let mut build = with_machine(205.0, 750.0);
    build["cargo"]["atv"]["mass_lb"] = json!(0);
    assert_printed(lb(solve(&build).largest[0].any.mass_kg), "154.362");
}

#[test]
fn best_axle_station_counts_axles_that_move_with_it() {
    let best = |unsprung| inches(solve(&trailer(unsprung)).station.best_m);
    assert_printed(best(Unsprung::Shared), "189.0511");
    assert_printed(best(Unsprung::Apart), "188.8456");
}

#[test]
fn no_axle_station_keeps_ten_to_fifteen_percent_in_every_state() {
    let mut build = with_everything();
    build["states"] = json!({
        "foremost": {"fill": {"fresh": 1, "heater": 1, "propane": 1}, "aboard": ["gear"]},
        "rearmost": {"fill": {"grey": 1, "black": 1}, "aboard": ["atv", "bike"]}
    });
    let numbers = solve(&build);
    let center = |state: usize| {
        let build = read(&build);
        inches(state_totals(&Loading::of(&build).unwrap(), state).center_x_m())
    };
    assert_printed(center(0), "160.89878");
    assert_printed(center(1), "178.16661");
    let station = numbers.station;
    assert!(station.min_m > station.max_m && station.any_min_m > station.any_max_m);
    assert!((inches(station.any_min_m) - 178.166_61 / 0.90).abs() < 1e-5);
    assert!((inches(station.any_max_m) - 160.898_78 / 0.85).abs() < 1e-5);
    assert_printed(inches(station.best_m), "193.7517");
    let moved_in = 193.7517 - inches(station.now_m);
    for (axle, x_in) in ["front", "rear"].into_iter().zip(AXLE_X_IN) {
        build["trailer"]["axles"][axle]["x_in"] = json!(x_in + moved_in);
    }
    let worst = solve(&build).worst.tongue_fraction;
    assert_range(worst, |f| f, "0.080438", "0.169562");
    assert!((m(193.7517) - solve(&build).rig.group_x_m).abs() < 1e-12);
}
