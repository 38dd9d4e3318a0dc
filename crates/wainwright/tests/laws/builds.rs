//! Random builds, as documents.
//!
//! Figures stand on a coarse grid, so that shrunk builds read well and ties (a mass right over the axles, two
//! equal masses) come up.

use std::ops::RangeInclusive;

use proptest::prelude::*;
use proptest::sample::select;
use proptest::strategy::Union;
use proptest::test_runner::RngSeed;
use serde_json::{Map, Value, json};

use super::oracle::{Model, Sums, plus};
use super::reports::number;

/// Settings of a property with so many cases, the same ones every time; `PROPTEST_RNG_SEED` gives others.
pub fn cases(cases: u32) -> ProptestConfig {
    let usual = ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() };
    match usual.rng_seed {
        RngSeed::Random => ProptestConfig { rng_seed: RngSeed::Fixed(7_700), ..usual },
        RngSeed::Fixed(_) => usual,
    }
}

/// A whole number of halves.
fn halves(range: RangeInclusive<i32>) -> impl Strategy<Value = f64> {
    (2 * range.start()..=2 * range.end()).prop_map(|n| f64::from(n) / 2.0)
}

/// A member that may be left out.
fn maybe(value: impl Strategy<Value = f64>) -> impl Strategy<Value = Option<f64>> {
    prop::option::of(value)
}

/// An object of the members that are given.
fn object<const N: usize>(members: [(&str, Option<f64>); N]) -> Map<String, Value> {
    let given = members.into_iter().filter_map(|(name, value)| Some((name.to_owned(), json!(value?))));
    given.collect()
}

type Place = (Option<f64>, Option<f64>, Option<f64>);

fn place() -> impl Strategy<Value = Place> {
    (prop::option::weighted(0.95, halves(-20..=320)), maybe(halves(-45..=45)), maybe(halves(8..=100)))
}

fn placed(mut thing: Map<String, Value>, (x, y, z): Place) -> Value {
    thing.extend(object([("x_in", x), ("y_in", y), ("z_in", z)]));
    Value::Object(thing)
}

fn keyed(prefix: &str, things: Vec<Value>) -> Value {
    let named = things.into_iter().enumerate().map(|(i, thing)| (format!("{prefix}{i}"), thing));
    Value::Object(named.collect())
}

fn parts() -> impl Strategy<Value = Value> {
    let part = (halves(0..=300), prop::option::of(0..=3_i32), place(), maybe(halves(0..=20)));
    prop::collection::vec(part, 0..=20).prop_map(|parts| {
        let part = |(mass, quantity, place, tolerance): (f64, Option<i32>, Place, Option<f64>)| {
            let members = [
                ("mass_lb", Some(mass)),
                ("quantity", quantity.map(f64::from)),
                ("mass_tolerance_lb", tolerance),
            ];
            placed(object(members), place)
        };
        keyed("part", parts.into_iter().map(part).collect())
    })
}

const FLUIDS: [&str; 6] = ["fresh_water", "grey_water", "black_water", "propane", "gasoline", "diesel"];

fn tanks() -> impl Strategy<Value = Value> {
    let tank = (select(&FLUIDS[..]), halves(0..=60), maybe(halves(4..=10)), place());
    prop::collection::vec(tank, 0..=6).prop_map(|tanks| {
        let tank = |(fluid, capacity, density, place)| {
            let mut tank = object([("capacity_gal", Some(capacity)), ("density_lb_per_gal", density)]);
            tank.insert("fluid".to_owned(), json!(fluid));
            placed(tank, place)
        };
        keyed("tank", tanks.into_iter().map(tank).collect())
    })
}

fn toy() -> impl Strategy<Value = Value> {
    let sizes = (halves(40..=120), halves(25..=70), halves(30..=75));
    let members =
        (maybe(halves(30..=90)), maybe(halves(0..=12)), maybe(halves(3..=12)), maybe(halves(0..=400)));
    let straps = prop::option::of(prop::collection::vec((100..=2000_i32, any::<[bool; 2]>()), 0..=5));
    (sizes, members, straps).prop_map(|((length, width, height), (wheelbase, clearance, tire, rider), straps)| {
        let toy = object([
            ("length_in", Some(length)),
            ("width_in", Some(width)),
            ("height_in", Some(height)),
            ("wheelbase_in", wheelbase),
            ("clearance_in", clearance),
            ("tire_width_in", tire),
            ("rider_lb", rider),
        ]);
        let straps = straps.map(|straps| {
            let strap = |(wll, [forward, left]): (i32, [bool; 2])| {
                json!({"wll_lb": wll, "breaking_strength_lb": 3 * wll, "floor_angle_deg": 40, "axis_angle_deg": 35,
                    "pulls": if forward { "forward" } else { "rearward" }, "side": if left { "left" } else { "right" }})
            };
            keyed("strap", straps.into_iter().map(strap).collect())
        });
        let mut members = Map::new();
        members.insert("toy".to_owned(), Value::Object(toy));
        if let Some(straps) = straps {
            members.insert("tie_downs".to_owned(), straps);
        }
        Value::Object(members)
    })
}

fn cargo() -> impl Strategy<Value = Value> {
    let stand = prop::option::weighted(0.4, select(&["bay", "rack"][..]));
    let mass = Union::new_weighted(vec![(9, halves(1..=1500).boxed()), (1, Just(0.0).boxed())]);
    let cargo = (mass, place(), stand, prop::option::weighted(0.2, toy()), maybe(halves(0..=20)));
    prop::collection::vec(cargo, 0..=6).prop_map(|cargo| {
        let one =
            |(mass, place, stand, toy, tolerance): (f64, Place, Option<&str>, Option<Value>, Option<f64>)| {
                let mut one = object([("mass_lb", Some(mass)), ("x_tolerance_in", tolerance)]);
                if let Some(stand) = stand {
                    one.insert("stand".to_owned(), json!(stand));
                }
                if let Some(Value::Object(toy)) = toy {
                    one.extend(toy);
                }
                placed(one, place)
            };
        keyed("cargo", cargo.into_iter().map(one).collect())
    })
}

/// What a state takes from tanks and cargo: how full each tank is, what is aboard, whether it moves.
type StateDraw = (Vec<Option<i32>>, Vec<bool>, Option<bool>);

fn states() -> impl Strategy<Value = Vec<StateDraw>> {
    let fill = prop::collection::vec(prop::option::of(0..=4_i32), 6);
    let moving = prop::option::weighted(0.6, prop::bool::weighted(0.7));
    prop::collection::vec((fill, prop::collection::vec(any::<bool>(), 6), moving), 0..=4)
}

fn states_of(draws: &[StateDraw], tanks: &Value, cargo: &Value) -> Value {
    let state = |(fills, chosen, moving): &StateDraw| {
        let mut state = Map::new();
        let filled = tanks.as_object().unwrap().keys().zip(fills);
        let fill = filled.filter_map(|(id, fill)| Some((id.clone(), json!(f64::from((*fill)?) / 4.0))));
        state.insert("fill".to_owned(), Value::Object(fill.collect()));
        let mut aboard: Vec<&str> = Vec::new();
        let stand_of = |id: &str| cargo[id]["stand"].as_str();
        for (id, _) in cargo.as_object().unwrap().keys().zip(chosen).filter(|(_, chosen)| **chosen) {
            let taken = stand_of(id).is_some_and(|stand| aboard.iter().any(|o| stand_of(o) == Some(stand)));
            if !taken {
                aboard.push(id);
            }
        }
        state.insert("aboard".to_owned(), json!(aboard));
        if let Some(moving) = moving {
            state.insert("moving".to_owned(), json!(moving));
        }
        Value::Object(state)
    };
    keyed("state", draws.iter().map(state).collect())
}

fn tow_vehicle() -> impl Strategy<Value = Value> {
    let loads = (halves(1500..=4500), halves(1500..=4500), halves(90..=170), halves(0..=70));
    let bars = prop::option::of(Union::new([
        halves(0..=1).boxed(),
        (1..=13_i32).prop_map(|n| f64::from(n) / 10.0).boxed(),
    ]));
    let ratings = (maybe(halves(2000..=5000)), maybe(halves(2500..=6500)), maybe(halves(5000..=11000)));
    let more = (
        maybe(halves(8000..=22000)),
        maybe(halves(3000..=14000)),
        maybe(halves(200..=1500)),
        maybe(halves(0..=100)),
    );
    (loads, bars, ratings, more).prop_map(
        |(
            (front, rear, wheelbase, overhang),
            bars,
            (front_gawr, rear_gawr, gvwr),
            (gcwr, tow, receiver, hitch),
        )| {
            Value::Object(object([
                ("front_axle_lb", Some(front)),
                ("rear_axle_lb", Some(rear)),
                ("wheelbase_in", Some(wheelbase)),
                ("ball_overhang_in", Some(overhang)),
                ("front_load_restoration", bars),
                ("front_gawr_lb", front_gawr),
                ("rear_gawr_lb", rear_gawr),
                ("gvwr_lb", gvwr),
                ("gcwr_lb", gcwr),
                ("tow_rating_lb", tow),
                ("receiver_max_tongue_lb", receiver),
                ("hitch_lb", hitch),
            ]))
        },
    )
}

/// How the axles share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Springs {
    /// Balance beams.
    Equalized,
    /// Each on its own, free heights given: set once and for all.
    Set,
    /// Each on its own, free heights from the state in which they carry the same.
    Levelled,
}

#[derive(Debug, Clone)]
struct Gear {
    springs: Springs,
    axles: Vec<(f64, f64, f64, f64)>, // gap, track, rate, free height less the level's
    first_x: f64,
    unsprung_share: Option<f64>,
    arms: Option<(f64, f64)>,
    ball_in: f64,
    level_in: Option<f64>,
    ratings: (f64, Option<f64>, Option<f64>, Option<f64>),
}

fn gear(springs: Springs) -> impl Strategy<Value = Gear> {
    let axle = (halves(24..=50), halves(50..=90), halves(200..=2500), halves(-3..=3));
    // From level to so far off that axles lift.
    let ball = Union::new([halves(17..=21).boxed(), halves(8..=45).boxed()]);
    (
        prop::collection::vec(axle, 1..=3),
        halves(60..=260),
        maybe((0..=9_i32).prop_map(|n| f64::from(n) / 10.0)),
        prop::option::of((halves(3..=9), halves(3..=9))),
        ball,
        maybe(halves(15..=25)),
        (halves(1000..=7000), maybe(halves(500..=4000)), maybe(halves(500..=4000)), maybe(halves(20..=60))),
    )
        .prop_map(move |(axles, first_x, unsprung_share, arms, ball_in, level_in, ratings)| Gear {
            springs,
            axles,
            first_x,
            unsprung_share,
            arms,
            ball_in,
            level_in,
            ratings,
        })
}

impl Gear {
    fn trailer(&self, bare_lb: f64, bare_x: f64, gvwr_lb: f64, place: Place) -> Value {
        let count = self.axles.len();
        let mut x = self.first_x;
        let mut axles = Map::new();
        let (gawr, tires, rims, psi) = self.ratings;
        for (j, (gap, track, rate, free)) in self.axles.iter().enumerate() {
            let sprung = self.springs != Springs::Equalized;
            let height = 19.0 + 0.8 * bare_lb / count as f64 / rate + free;
            let members = [
                ("x_in", Some(x)),
                ("gawr_lb", Some(gawr)),
                ("track_in", Some(*track)),
                ("tire_max_load_lb", tires),
                ("rim_max_load_lb", rims),
                ("tire_max_load_psi", psi.map(|_| 60.0)),
                ("tire_psi", psi),
                ("unsprung_lb", self.unsprung_share.map(|share| share * bare_lb / 2.0 / count as f64)),
                ("rate_lb_per_in", sprung.then_some(*rate)),
                ("unloaded_height_in", (self.springs == Springs::Set).then_some(height.min(240.0))),
            ];
            axles.insert(format!("axle{j}"), Value::Object(object(members)));
            x += gap;
        }
        let bare = placed(object([("mass_lb", Some(bare_lb))]), (Some(bare_x), place.1, place.2));
        let mut trailer = json!({"gvwr_lb": gvwr_lb, "bare": bare, "axles": axles,
            "coupler": {"ball_height_in": self.ball_in}});
        match self.springs {
            Springs::Equalized => {
                if let (Some((front, rear)), 2) = (self.arms, count) {
                    trailer["equalizer"] = json!({"front_arm_in": front, "rear_arm_in": rear});
                }
            }
            Springs::Set => trailer["suspension"] = json!("independent"),
            Springs::Levelled => {
                trailer["suspension"] = json!("independent");
                if let Some(level) = self.level_in {
                    trailer["level"] = json!({"ball_height_in": level});
                }
            }
        }
        trailer
    }
}

/// A build whose axles are sprung so.
pub fn build_on(springs: Springs) -> impl Strategy<Value = Value> {
    let bare = (halves(800..=5000), -30..=20_i32, place());
    let ratings = (halves(2000..=14000), maybe(halves(2000..=14000)), maybe(halves(100..=1500)));
    let extent = (prop::option::of((halves(20..=60), halves(200..=330))), maybe(halves(0..=20)));
    let bay = prop::option::of((
        halves(60..=150),
        halves(160..=330),
        maybe(halves(50..=90)),
        maybe(halves(12..=30)),
    ));
    let contents = (parts(), tanks(), cargo(), states());
    (gear(springs), bare, ratings, extent, bay, contents, prop::option::of(tow_vehicle())).prop_map(
        |(gear, (bare_lb, ahead, bare_place), (gvwr, coupler, tongue), (floor, jack), bay, contents, tow)| {
            let (parts, tanks, cargo, states) = contents;
            // Somewhere about the axles, mostly ahead of them.
            let bare_x = gear.first_x + f64::from(ahead);
            let mut trailer = gear.trailer(bare_lb, bare_x, gvwr, bare_place);
            for (member, rating) in [("rating_lb", coupler), ("max_tongue_lb", tongue)] {
                if let Some(rating) = rating {
                    trailer["coupler"][member] = json!(rating);
                }
            }
            if let Some((front, rear)) = floor {
                trailer["floor"] = json!({"front_x_in": front, "rear_x_in": rear});
            }
            if let Some(x) = jack {
                trailer["jack"] = json!({"x_in": x, "rating_lb": 1500});
            }
            let mut states = states_of(&states, &tanks, &cargo);
            let mut build = json!({"trailer": trailer, "parts": parts, "tanks": tanks, "cargo": cargo});
            // Without states the usual ones come, and one of them is what levelled axles are set in: a state added
            // later must not take its place.
            if gear.springs == Springs::Levelled && states == json!({}) {
                states = json!({"empty": {}});
            }
            if states != json!({}) {
                build["states"] = states;
            }
            if let Some((front, rear, width, deck)) = bay {
                build["bay"] = Value::Object(object([
                    ("front_x_in", Some(front)),
                    ("rear_x_in", Some(rear)),
                    ("clear_width_in", width),
                    ("deck_height_in", deck),
                    ("ramp_length_in", Some(72.0)),
                    ("crossmember_spacing_in", width.map(|_| 16.0)),
                    ("panel_thickness_in", width.map(|_| 0.719)),
                ]));
            }
            if let Some(tow) = tow {
                build["tow_vehicle"] = tow;
            }
            build
        },
    )
}

/// Any build.
pub fn build() -> impl Strategy<Value = Value> {
    Union::new([
        build_on(Springs::Equalized).boxed(),
        build_on(Springs::Set).boxed(),
        build_on(Springs::Levelled).boxed(),
    ])
}

/// A build whose axles stay set as they are when masses move.
pub fn settled_build() -> impl Strategy<Value = Value> {
    Union::new([build_on(Springs::Equalized).boxed(), build_on(Springs::Set).boxed()])
}

/// A build that might be sold: loads near ten to fifteen in a hundred on the tongue, ratings near what they carry,
/// axles that stay set as they are.
pub fn sound_build() -> impl Strategy<Value = Value> {
    let margins = prop::array::uniform8((95..=160_i32).prop_map(|n| f64::from(n) / 100.0));
    (settled_build(), margins, -2..=2_i32).prop_map(|(document, margins, off)| sound(document, margins, off))
}

fn sound(mut document: Value, margins: [f64; 8], off: i32) -> Value {
    for (section, member) in [("cargo", "mass_lb"), ("tanks", "capacity_gal"), ("parts", "mass_lb")] {
        for (_, thing) in document[section].as_object_mut().unwrap() {
            thing[member] = json!((thing[member].as_f64().unwrap() * 0.25).ceil());
        }
    }
    // Half of everything that may be aboard, an eighth of it on the tongue.
    let model = Model::of(&document);
    let cargo = model.cargo.iter().map(|(_, sums, _)| sums);
    let contents: Vec<Sums> = model.tanks.iter().map(|(_, sums)| sums).chain(cargo).copied().collect();
    let sums = contents.iter().fold(model.fixed, |sum, full| plus(sum, *full, 0.5));
    let all_lb = contents.iter().fold(model.fixed, |sum, full| plus(sum, *full, 1.0))[0];
    let group: f64 = model.axles.iter().map(|axle| axle.share * axle.x).sum();
    let bare = &mut document["trailer"]["bare"];
    let (bare_lb, bare_x) = (bare["mass_lb"].as_f64().unwrap(), bare["x_in"].as_f64().unwrap());
    let others = sums[1] - bare_lb * bare_x;
    bare["x_in"] = json!((((0.875 * sums[0] * group - others) / bare_lb) * 2.0).round() / 2.0);
    let axles_lb = 0.9 * all_lb / model.axles.len() as f64;
    for (_, axle) in document["trailer"]["axles"].as_object_mut().unwrap() {
        axle["gawr_lb"] = json!((axles_lb * margins[0]).round());
        for (member, margin) in [("tire_max_load_lb", margins[1]), ("rim_max_load_lb", margins[2])] {
            if axle.get(member).is_some() {
                axle[member] = json!((axles_lb / 2.0 * margin).round());
            }
        }
        if let Some(rate) = number(axle, "/rate_lb_per_in") {
            axle["unloaded_height_in"] = json!(19.0 + 0.875 * sums[0] / model.axles.len() as f64 / rate);
        }
    }
    document["trailer"]["gvwr_lb"] = json!((all_lb * margins[3]).round());
    let coupler = &mut document["trailer"]["coupler"];
    coupler["ball_height_in"] = json!(19.0 + f64::from(off) / 2.0);
    for (member, rating) in
        [("rating_lb", all_lb * margins[4]), ("max_tongue_lb", 0.125 * all_lb * margins[5])]
    {
        if coupler.get(member).is_some() {
            coupler[member] = json!(rating.round());
        }
    }
    if let Some(tow) = document.get_mut("tow_vehicle") {
        let (front, rear) = (number(tow, "/front_axle_lb").unwrap(), number(tow, "/rear_axle_lb").unwrap());
        let tongue = 0.125 * all_lb;
        let ratings = [
            ("front_gawr_lb", front * margins[6]),
            ("rear_gawr_lb", rear + tongue * 1.3 * margins[7]),
            ("gvwr_lb", front + rear + tongue * margins[6]),
            ("gcwr_lb", front + rear + all_lb * margins[7]),
            ("tow_rating_lb", all_lb * margins[5]),
            ("receiver_max_tongue_lb", tongue * margins[4]),
        ];
        for (member, rating) in ratings {
            if tow.get(member).is_some() {
                tow[member] = json!(rating.round());
            }
        }
    }
    document
}
