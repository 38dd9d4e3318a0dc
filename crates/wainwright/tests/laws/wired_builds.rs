//! Random electrical builds, as documents: sources, circuits, modes, a battery, and parts that draw.
//!
//! What cannot be wired is not drawn: a branch is on the leg of its feeder, and is fed where its feeder is.

use proptest::prelude::*;
use proptest::sample::{Index, select};
use serde_json::{Map, Value, json};
use wainwright::standards::size::Size;

/// An object of the members that are given.
fn object<const N: usize>(members: [(&str, Option<Value>); N]) -> Value {
    let given = members.into_iter().filter_map(|(name, value)| Some((name.to_owned(), value?)));
    Value::Object(given.collect())
}

/// A member that may be left out.
fn maybe<T: Into<Value> + Clone + std::fmt::Debug + 'static>(
    values: &'static [T],
) -> impl Strategy<Value = Option<Value>> {
    prop::option::of(select(values).prop_map(Into::into))
}

/// A flag that is rarely set.
fn rarely() -> impl Strategy<Value = Option<Value>> {
    prop::option::weighted(0.12, Just(json!(true)))
}

/// A size as a document names it.
pub fn named(size: Size) -> Value {
    json!(size.name())
}

fn wire() -> impl Strategy<Value = Value> {
    let size = || select(&Size::ALL[..]).prop_map(named);
    (
        (prop::option::weighted(0.7, size()), prop::option::weighted(0.1, size()), 0..=120_u32),
        maybe(&[60, 75, 80, 90, 105, 125, 200]),
        (maybe(&[32, 86, 104, 122, 150]), maybe(&[1, 2, 4, 9, 30]), maybe(&[60, 75, 90])),
        (rarely(), rarely()),
        (rarely(), rarely(), rarely(), rarely()),
    )
        .prop_map(
            |((awg, minimum, run), insulation, (ambient, bundled, terminal), (aluminum, marine), flags)| {
                let (cord, engine_space, sunlit_roof, chassis_return) = flags;
                object([
                    ("run_ft", Some(json!(f64::from(run) / 2.0))),
                    ("awg", awg),
                    ("minimum_awg", minimum),
                    ("insulation_c", insulation),
                    ("ambient_f", ambient),
                    ("bundled", bundled),
                    ("terminal_c", terminal),
                    ("material", aluminum.map(|_| json!("aluminum"))),
                    ("areas", marine.map(|_| json!("marine"))),
                    ("cord", cord),
                    ("engine_space", engine_space),
                    ("sunlit_roof", sunlit_roof),
                    ("chassis_return", chassis_return),
                ])
            },
        )
}

/// One of the things that have a property, or none where none has.
fn one_of(count: usize, which: Index, has: impl Fn(usize) -> bool) -> Option<usize> {
    let all: Vec<usize> = (0..count).filter(|&i| has(i)).collect();
    (!all.is_empty()).then(|| all[which.index(all.len())])
}

#[derive(Debug, Clone)]
struct Circuit {
    direct: bool,
    leg: Option<&'static str>,
    feeder: Option<Index>,
    rest: Value,
}

fn circuit() -> impl Strategy<Value = Circuit> {
    let device = (
        maybe(&[5.0, 10.0, 15.0, 20.0, 30.0, 60.0, 250.0]),
        prop::option::weighted(0.3, select(&["blade", "anl", "class_t"][..])),
    );
    let outlets = (prop::option::weighted(0.3, Just(json!(15))), maybe(&[1, 2]));
    let most_drop = prop::option::weighted(0.3, select(&[0.02, 0.03, 0.1][..]).prop_map(Value::from));
    (
        (
            any::<bool>(),
            prop::option::of(select(&["a", "b", "both"][..])),
            prop::option::weighted(0.4, any::<Index>()),
        ),
        device,
        outlets,
        (most_drop, prop::option::weighted(0.85, wire())),
    )
        .prop_map(|((direct, leg, feeder), (breaker, device), (outlet, outlets), (most_drop, wire))| {
            let rest = object([
                ("breaker_a", breaker),
                ("device", device.map(Value::from)),
                ("receptacles", outlets.filter(|_| outlet.is_some())),
                ("receptacle_a", outlet),
                ("max_drop_fraction", most_drop),
                ("wire", wire),
            ]);
            Circuit { direct, leg: leg.filter(|_| !direct), feeder, rest }
        })
}

/// The feeder of each circuit: one of its own kind that has none itself and stands before it.
fn feeders(circuits: &[Circuit]) -> Vec<Option<usize>> {
    let mut feeders: Vec<Option<usize>> = Vec::new();
    for circuit in circuits {
        let may_feed = |other: usize| feeders[other].is_none() && circuits[other].direct == circuit.direct;
        let feeder = circuit.feeder.and_then(|which| one_of(feeders.len(), which, may_feed));
        feeders.push(feeder);
    }
    feeders
}

#[derive(Debug, Clone)]
struct Source {
    direct: bool,
    circuit: Option<Index>,
    rest: Value,
}

type Sources = Vec<(&'static str, Source)>;

fn sources() -> impl Strategy<Value = Sources> {
    let legs = || {
        select(&[(1, false), (1, false), (2, false), (2, false), (2, true)][..]).prop_map(
            |(legs, in_phase)| [("legs", Some(json!(legs))), ("in_phase", in_phase.then_some(json!(true)))],
        )
    };
    let lead = || prop::option::weighted(0.4, wire());
    let cord = || prop::option::weighted(0.1, any::<Index>());
    let path = prop::option::weighted(0.5, select(&[15.0, 20.0, 30.0][..]).prop_map(|a| json!({"inlet": a})));
    let shore = (maybe(&[15.0, 30.0, 50.0]), path, maybe(&[0.8, 1.0]), legs(), lead(), cord());
    let shore = shore.prop_map(|(rating, path, fraction, [legs, in_phase], lead, circuit)| Source {
        direct: false,
        circuit,
        rest: object([
            ("kind", Some(json!("shore"))),
            ("voltage_v", Some(json!(120))),
            ("rating_a", rating),
            ("path_a", path),
            ("continuous_fraction", fraction),
            legs,
            in_phase,
            ("lead", lead),
        ]),
    });
    let powers = || (maybe(&[1000.0, 2000.0, 3500.0]), maybe(&[4000.0, 6000.0]));
    let generator = (maybe(&[20.0, 30.0]), powers(), legs(), lead());
    let generator = generator.prop_map(|(rating, (power, surge), [legs, in_phase], lead)| Source {
        direct: false,
        circuit: None,
        rest: object([
            ("kind", Some(json!("generator"))),
            ("voltage_v", Some(json!(120))),
            ("rating_a", rating),
            ("continuous_w", power),
            ("surge_w", surge),
            legs,
            in_phase,
            ("lead", lead),
        ]),
    });
    let losses = (maybe(&[10.0, 25.0]), maybe(&[0.85, 0.9]), maybe(&[10.5, 11.6]));
    let inverter = (powers(), losses, legs(), prop::option::weighted(0.8, any::<Index>()));
    let inverter =
        inverter.prop_map(|((power, surge), (idle, efficiency, cutoff), [legs, in_phase], circuit)| Source {
            direct: false,
            circuit,
            rest: object([
                ("kind", Some(json!("inverter"))),
                ("voltage_v", Some(json!(120))),
                ("continuous_w", power),
                ("surge_w", surge),
                ("idle_w", idle),
                ("efficiency", efficiency),
                ("cutoff_v", cutoff),
                legs,
                in_phase,
            ]),
        });
    let battery = (maybe(&[100.0, 200.0]), lead()).prop_map(|(rating, lead)| Source {
        direct: true,
        circuit: None,
        rest: object([
            ("kind", Some(json!("battery"))),
            ("voltage_v", Some(json!(12.8))),
            ("rating_a", rating),
            ("lead", lead),
        ]),
    });
    (
        shore,
        prop::option::of(generator),
        prop::option::weighted(0.6, inverter),
        prop::option::weighted(0.9, battery),
    )
        .prop_map(|(shore, generator, inverter, battery)| {
            let all = [
                ("shore", Some(shore)),
                ("generator", generator),
                ("inverter", inverter),
                ("house_battery", battery),
            ];
            all.into_iter().filter_map(|(id, source)| Some((id, source?))).collect()
        })
}

/// What a mode takes: the source of each circuit, whether a branch is named beside its feeder, what limits shore.
type ModeDraw = (Vec<(Option<Index>, bool)>, Option<f64>);

fn modes() -> impl Strategy<Value = Option<Vec<ModeDraw>>> {
    let fed = prop::collection::vec((prop::option::weighted(0.85, any::<Index>()), any::<bool>()), 12);
    let limit = prop::option::weighted(0.3, select(&[10.0, 15.0][..]));
    prop::option::weighted(0.95, prop::collection::vec((fed, limit), 1..=3))
}

fn modes_of(
    draws: &[ModeDraw],
    sources: &Sources,
    circuits: &[Circuit],
    feeders: &[Option<usize>],
) -> Map<String, Value> {
    let mode = |(fed, limit): &ModeDraw| {
        let source_of = |circuit: usize| {
            let may = |source: usize| sources[source].1.direct == circuits[circuit].direct;
            one_of(sources.len(), fed[circuit].0?, may).map(|source| sources[source].0)
        };
        let feeds = (0..circuits.len()).filter_map(|circuit| {
            let source = match feeders[circuit] {
                Some(feeder) => source_of(feeder).filter(|_| fed[circuit].1)?,
                None => source_of(circuit)?,
            };
            Some((format!("circuit{circuit}"), json!(source)))
        });
        object([
            ("feeds", Some(Value::Object(feeds.collect()))),
            ("limits_a", limit.map(|limit| json!({"shore": limit}))),
        ])
    };
    draws.iter().enumerate().map(|(i, draw)| (format!("mode{i}"), mode(draw))).collect()
}

#[derive(Debug, Clone)]
struct Drawing {
    circuit: Index,
    amount: (u8, u32),
    rest: Value,
}

fn drawing() -> impl Strategy<Value = Drawing> {
    const KINDS: [&str; 5] = ["electronic", "resistive", "motor", "room_air_conditioner", "lighting"];
    let hours = prop::collection::vec((0..=4_u8).prop_map(|n| f64::from(n) / 4.0), 24);
    (
        (any::<Index>(), (0..=3_u8, 1..=40_u32)),
        prop::option::of(select(&KINDS[..])),
        (maybe(&[0.5, 0.8, 1.0]), maybe(&[true, false]), maybe(&[1.0, 3.0, 6.0]), rarely()),
        (prop::option::weighted(0.2, hours), maybe(&[0.0, 2.0, 5.0])),
        (maybe(&[1, 2, 3]), rarely(), maybe(&[12.0, 24.0, 110.0, 120.0, 240.0])),
    )
        .prop_map(
            |((circuit, amount), kind, (factor, continuous, start, momentary), (hours, priority), rest)| {
                let (quantity, none, rated_v) = rest;
                let electrical = object([
                    ("kind", kind.map(Value::from)),
                    ("power_factor", factor),
                    ("continuous", continuous),
                    ("inrush_multiple", start),
                    ("momentary", momentary),
                    ("on_fraction", hours.map(Value::from)),
                    ("priority", priority),
                    ("rated_v", rated_v.filter(|_| kind == Some("resistive"))),
                ]);
                let quantity = if none.is_some() { Some(json!(0)) } else { quantity };
                Drawing {
                    circuit,
                    amount,
                    rest: object([
                        ("mass_lb", Some(json!(1))),
                        ("quantity", quantity),
                        ("electrical", Some(electrical)),
                    ]),
                }
            },
        )
}

fn part(drawing: Drawing, circuits: &[Circuit]) -> Value {
    let circuit = drawing.circuit.index(circuits.len());
    let (how, amount) = (drawing.amount.0, f64::from(drawing.amount.1));
    let small = circuits[circuit].direct;
    let by_kind = |direct: f64, alternating: f64| json!(amount * if small { direct } else { alternating });
    let (name, value) = match how {
        0 => ("current_a", by_kind(0.125, 0.25)),
        1 => ("horsepower", by_kind(0.001, 0.025).as_f64().unwrap().max(0.01).into()),
        2 => ("charger", json!({"output_a": by_kind(0.25, 1.0)})),
        _ => ("power_w", by_kind(2.0, 40.0)),
    };
    let mut part = drawing.rest;
    part["electrical"][name] = value;
    part["electrical"]["circuit"] = json!(format!("circuit{circuit}"));
    part
}

fn battery() -> impl Strategy<Value = Value> {
    let figures =
        (maybe(&[0.5, 2.0, 14.0]), maybe(&[12.7, 13.3]), maybe(&[1000.0, 4000.0]), maybe(&[100.0, 200.0]));
    (select(&["flooded", "agm", "lifepo4"][..]), select(&[50.0, 100.0, 280.0][..]), figures).prop_map(
        |(chemistry, capacity, (resistance, open_v, short_a, most_a))| {
            object([
                ("chemistry", Some(json!(chemistry))),
                ("capacity_ah", Some(json!(capacity))),
                ("nominal_v", Some(json!(12.8))),
                ("resistance_mohm", resistance),
                ("open_circuit_v", open_v),
                ("short_circuit_a", short_a),
                ("max_discharge_a", most_a),
            ])
        },
    )
}

/// A build with at most so many parts that draw.
pub fn wired_build(most_parts: usize) -> impl Strategy<Value = Value> {
    (
        sources(),
        prop::collection::vec(circuit(), 1..=12),
        modes(),
        prop::collection::vec(drawing(), 0..=most_parts),
        prop::option::weighted(0.8, battery()),
    )
        .prop_map(|(sources, mut circuits, modes, drawings, battery)| {
            let feeders = feeders(&circuits);
            for circuit in 0..circuits.len() {
                if let Some(leg) = feeders[circuit].map(|feeder| circuits[feeder].leg)
                    && leg != Some("both")
                {
                    // Left out it is on its feeder's leg.
                    circuits[circuit].leg = leg.filter(|_| circuits[circuit].leg.is_some());
                }
            }
            let id = |circuit: usize| json!(format!("circuit{circuit}"));
            let source = |(name, source): &(&str, Source)| {
                let mut whole = source.rest.clone();
                // A cord is plugged into an outlet, an inverter hangs on the battery.
                let of_kind = |circuit: usize| circuits[circuit].direct == (*name == "inverter");
                let circuit = source.circuit.and_then(|which| one_of(circuits.len(), which, of_kind));
                if let Some(circuit) = circuit {
                    whole["circuit"] = id(circuit);
                }
                ((*name).to_owned(), whole)
            };
            let circuit = |(i, circuit): (usize, &Circuit)| {
                let mut whole = circuit.rest.clone();
                if let Some(leg) = circuit.leg {
                    whole["leg"] = json!(leg);
                }
                if let Some(feeder) = feeders[i] {
                    whole["feeder"] = id(feeder);
                }
                (format!("circuit{i}"), whole)
            };
            let electrical = object([
                ("sources", Some(Value::Object(sources.iter().map(source).collect()))),
                ("circuits", Some(Value::Object(circuits.iter().enumerate().map(circuit).collect()))),
                ("modes", modes.map(|draws| Value::Object(modes_of(&draws, &sources, &circuits, &feeders)))),
            ]);
            let parts = drawings.into_iter().enumerate();
            let parts = parts.map(|(i, drawing)| (format!("part{i}"), part(drawing, &circuits)));
            object([
                ("parts", Some(Value::Object(parts.collect()))),
                ("electrical", Some(electrical)),
                ("battery", battery),
            ])
        })
}
