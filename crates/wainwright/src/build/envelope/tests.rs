//! Mistakes in an envelope, each named at its place.

use serde_json::{Value, json};

use super::*;
use crate::FaultCode;
use crate::build::fixture::{assert_contradiction, fault_with, faults_with, lines_with};

const SURFACES: &str = "/envelope/surfaces";
const WINDOWS: &str = "/envelope/windows";
const ROOF: &str = "/envelope/surfaces/roof";
const WALL: &str = "/envelope/surfaces/right_wall";

/// The envelope of a document.
fn envelope(value: &Value) -> Envelope {
    let document = json!({"envelope": value}).to_string();
    Build::from_json(document.as_bytes()).unwrap().envelope.unwrap()
}

fn surface(area_ft2: f64, facing: &str) -> Value {
    json!({"area_ft2": area_ft2, "facing": facing, "r_value": 5})
}

#[test]
fn figures_beyond_their_bounds_are_named_with_the_bound() {
    for (at, value, detail) in [
        ("/envelope/surfaces/floor/r_value", json!(-5), "must be 0.5 or more; got -5"),
        ("/envelope/surfaces/floor/r_value", json!(101), "must be 100 or less; got 101"),
        ("/envelope/surfaces/floor/area_ft2", json!(0), "must be 0.01 or more; got 0"),
        ("/envelope/surfaces/floor/solar_absorptance", json!(30), "must be 1 or less; got 30"),
        ("/envelope/surfaces/floor/emittance", json!(-0.1), "must be 0 or more; got -0.1"),
        ("/envelope/surfaces/front_wall/shade_fraction", json!(1.5), "must be 1 or less; got 1.5"),
        ("/envelope/surfaces/roof/layers/0/thickness_in", json!(0), "must be 0.001 or more; got 0"),
        ("/envelope/surfaces/roof/layers/2/r_value", json!(-1), "must be 0 or more; got -1"),
        ("/envelope/surfaces/right_wall/posts/spacing_in", json!(1), "must be 4 or more; got 1"),
        ("/envelope/windows/left_window/u_value", json!(5.8), "must be 2 or less; got 5.8"),
        ("/envelope/windows/left_window/shgc", json!(65), "must be 1 or less; got 65"),
        ("/envelope/shade_fraction", json!(20), "must be 1 or less; got 20"),
        ("/envelope/leakage_in2", json!(-8), "must be 0 or more; got -8"),
        ("/envelope/floor_load/specific_heat_btu_lb_f", json!(4.2), "must be 1 or less; got 4.2"),
    ] {
        let fault = fault_with(&[(at, value)]);
        assert_eq!((fault.pointer.as_str(), fault.detail.as_str()), (at, detail));
    }
}

#[test]
fn a_surface_says_its_insulation_once() {
    assert_contradiction(
        &format!("{ROOF}/r_value"),
        json!(9),
        &format!("{ROOF}/layers"),
        "cannot stand beside r_value; both say what it holds back",
    );
    assert_contradiction(
        "/envelope/surfaces/floor",
        json!({"area_ft2": 98, "facing": "floor"}),
        "/envelope/surfaces/floor",
        "says nothing of its insulation; give r_value, or layers from the outside in",
    );
    assert_contradiction(
        &format!("{ROOF}/layers"),
        json!([]),
        &format!("{ROOF}/layers"),
        "is empty; give a layer, or r_value",
    );
    // Posts count in an R from air to air: beside one of layers they are counted on top.
    assert_eq!(
        lines_with(&[(&format!("{WALL}/r_value"), json!(5))]),
        [
            "/envelope/surfaces/right_wall/layers cannot stand beside r_value; both say what it holds back",
            "/envelope/surfaces/right_wall/posts cannot stand beside r_value, which counts them; give layers in its place",
        ]
    );
    let posts = json!({"material": "wood", "depth_in": 1.5, "spacing_in": 16});
    assert_contradiction(
        "/envelope/surfaces/ramp/posts",
        posts,
        "/envelope/surfaces/ramp/posts",
        "cannot stand beside r_value, which counts them; give layers in its place",
    );
    let misspelled =
        fault_with(&[("/envelope/surfaces/floor", json!({"area_ft2": 98, "facing": "floor", "rvalue": 5}))]);
    assert_eq!(
        (misspelled.code, misspelled.suggestion.as_deref()),
        (FaultCode::UnknownField, Some("r_value"))
    );
}

#[test]
fn a_surface_says_its_look_once() {
    for (member, value) in [("solar_absorptance", json!(0.3)), ("emittance", json!(0.9))] {
        assert_contradiction(
            &format!("{ROOF}/{member}"),
            value,
            &format!("{ROOF}/finish"),
            &format!("cannot stand beside {member}; both say how it takes in sun and sheds heat"),
        );
    }
    let both = [("solar_absorptance", 0.3), ("emittance", 0.9)]
        .map(|(name, value)| (format!("{ROOF}/{name}"), value));
    let changes: Vec<(&str, Value)> = both.iter().map(|(at, value)| (at.as_str(), json!(value))).collect();
    assert_eq!(
        lines_with(&changes),
        [
            "/envelope/surfaces/roof/finish cannot stand beside solar_absorptance; both say how it takes in sun and sheds heat"
        ]
    );
}

#[test]
fn a_layer_says_what_it_is() {
    let layer = |value: Value| {
        let line = lines_with(&[(&format!("{ROOF}/layers"), json!([{"r_value": 1}, value]))]);
        line.into_iter().map(|line| line.replace("/envelope/surfaces/roof/layers/1", "")).collect::<Vec<_>>()
    };
    for fine in [
        json!({"r_value": 0}),
        json!({"r_value": 5, "thickness_in": 1}),
        json!({"r_value": 5, "thickness_in": 1, "wood_fraction": 1}),
        json!({"r_value": 5, "wood_fraction": 0}),
        json!({"material": "xps", "thickness_in": 1, "wood_fraction": 0.1}),
    ] {
        assert_eq!(layer(fine), Vec::<String>::new());
    }
    for (value, expected) in [
        (json!({"material": "xps"}), "/thickness_in is missing; with a material give how thick it is"),
        (json!({}), " says nothing; give material and thickness_in, or r_value"),
        (json!({"thickness_in": 1}), " says nothing; give material and thickness_in, or r_value"),
        (json!({"wood_fraction": 0.1}), " says nothing; give material and thickness_in, or r_value"),
        (
            json!({"material": "xps", "thickness_in": 1, "r_value": 5}),
            "/r_value cannot stand beside material; both say what it holds back",
        ),
        (
            json!({"r_value": 5, "wood_fraction": 0.1}),
            "/wood_fraction needs thickness_in, how deep its wood is",
        ),
    ] {
        assert_eq!(layer(value), [expected]);
    }
    let misspelled = fault_with(&[(&format!("{ROOF}/layers"), json!([{"material": "xps", "thickness": 1}]))]);
    assert_eq!(misspelled.suggestion.as_deref(), Some("thickness_in"));
}

#[test]
fn a_window_is_in_a_surface_that_faces_as_it_does() {
    let window = |area_ft2: f64, facing: &str| json!({"one": {"area_ft2": area_ft2, "facing": facing}});
    assert_eq!(faults_with(&[(WINDOWS, window(45.5, "front"))]), []);
    assert_contradiction(
        "/envelope/windows/left_window/facing",
        json!("right"),
        "/envelope/windows/left_window/facing",
        "must be left, as its surface left_wall is; got right",
    );
    let bare = json!({"surfaces": {"roof": surface(50.0, "roof")}, "windows": window(1.0, "rear")});
    assert_contradiction(
        "/envelope",
        bare,
        "/envelope/windows/one/facing",
        "is rear, where the envelope has no surface; give the surface around it",
    );
    assert_contradiction(
        "/envelope",
        json!({"windows": window(1.0, "roof")}),
        "/envelope/windows/one/facing",
        "is roof, where the envelope has no surface; give the surface around it",
    );
    let named = fault_with(&[("/envelope/windows/left_window/surface", json!("left_walls"))]);
    assert_eq!(
        (named.code, named.pointer.as_str(), named.detail.as_str()),
        (
            FaultCode::UnknownId,
            "/envelope/windows/left_window/surface",
            "names \"left_walls\", which is not in /envelope/surfaces; did you mean left_wall?"
        )
    );
    assert_eq!(named.known.len(), 6);
}

#[test]
fn windows_are_no_larger_than_their_surface_together() {
    let windows = |areas: &[f64]| {
        let window = |(index, area_ft2): (usize, &f64)| {
            (format!("w{index}"), json!({"area_ft2": area_ft2, "facing": "front"}))
        };
        let all = areas.iter().enumerate().map(window).collect::<serde_json::Map<_, _>>();
        lines_with(&[(WINDOWS, Value::Object(all))])
    };
    assert_eq!(windows(&[45.5]), Vec::<String>::new());
    assert_eq!(windows(&[20.25, 20.25, 5.0]), Vec::<String>::new());
    // 45.5 less 40.1 is a hair below 5.4 in binary.
    assert_eq!(windows(&[40.1, 5.4]), Vec::<String>::new());
    assert_eq!(
        windows(&[45.6]),
        ["/envelope/windows/w0/area_ft2 must be 45.5 or less, the area of front_wall; got 45.6"]
    );
    assert_eq!(
        windows(&[20.25, 20.25, 5.01]),
        [
            "/envelope/windows/w2/area_ft2 must be 5 or less, the area of front_wall that its other windows leave; got 5.01"
        ]
    );
    // The first that is too large is named, and those after it are not measured against what is no longer there.
    assert_eq!(
        windows(&[40.0, 5.75, 7.0]),
        [
            "/envelope/windows/w1/area_ft2 must be 5.5 or less, the area of front_wall that its other windows leave; got 5.75"
        ]
    );
}

#[test]
fn a_window_that_names_no_surface_is_in_the_largest_that_faces_so() {
    let walls = json!({"small": surface(10.0, "left"), "large": surface(40.0, "left"), "other": surface(90.0, "right")});
    let window = json!({"one": {"area_ft2": 12, "facing": "left"}, "two": {"area_ft2": 9, "facing": "left", "surface": "small"}});
    let box_of = envelope(&json!({"surfaces": walls, "windows": window}));
    let around: Vec<_> = box_of.windows().map(|(_, window)| box_of.surface_of(window).unwrap().0).collect();
    assert_eq!(around, ["large", "small"]);
    assert_eq!((box_of.area_ft2(Facing::Left), box_of.area_ft2(Facing::Roof)), (50.0, 0.0));
}

#[test]
fn no_side_is_larger_than_the_body() {
    // 14 ft by 7 ft: 98 ft² of roof, 168 ft² of a side 12 ft high, and a tenth more for corners.
    let body = [("/trailer/bare/length_in", json!(168)), ("/trailer/bare/width_in", json!(84))];
    let with = |at: &'static str, area_ft2: f64| {
        let mut changes = body.to_vec();
        changes.extend([(at, json!(area_ft2)), ("/envelope/volume_ft3", json!(null))]);
        lines_with(&changes)
    };
    for (at, most_ft2) in [
        ("/envelope/surfaces/roof/area_ft2", 107.8),
        ("/envelope/surfaces/front_wall/area_ft2", 92.4),
        ("/envelope/surfaces/left_wall/area_ft2", 184.8),
    ] {
        assert_eq!(with(at, most_ft2 - 0.1), Vec::<String>::new());
        assert_eq!(with(at, most_ft2 + 0.1).len(), 1);
    }
    assert_eq!(
        with("/envelope/surfaces/floor/area_ft2", 150.0),
        [
            "/envelope/surfaces/floor/area_ft2 must leave all that faces floor at 107.8 or less, since the body is 168 in long \
             and 84 in wide; with 150 it is 150"
        ]
    );
    assert_eq!(
        with("/envelope/surfaces/ramp/area_ft2", 120.0),
        [
            "/envelope/surfaces/ramp/area_ft2 must leave all that faces rear at 92.4 or less, since the body is 84 in wide, and \
             none is 12 ft high; with 120 it is 120"
        ]
    );
    assert_eq!(
        with("/envelope/surfaces/right_wall/area_ft2", 200.0),
        [
            "/envelope/surfaces/right_wall/area_ft2 must leave all that faces right at 184.8 or less, since the body is 168 in \
             long, and none is 12 ft high; with 200 it is 200"
        ]
    );
    // Several surfaces of a side count together, and the one that is too much is named.
    let mut changes = body.to_vec();
    changes.push(("/envelope/surfaces/door", surface(95.0, "right")));
    assert_eq!(
        lines_with(&changes),
        [
            "/envelope/surfaces/door/area_ft2 must leave all that faces right at 184.8 or less, since the body is 168 in long, \
             and none is 12 ft high; with 95 it is 186"
        ]
    );
    // Where one measure of the body is not given or not read, nothing is said.
    assert_eq!(
        lines_with(&[
            ("/envelope/surfaces/ramp/area_ft2", json!(120)),
            body[1].clone(),
            ("/envelope/volume_ft3", json!(null))
        ]),
        Vec::<String>::new()
    );
    let unread = [
        ("/trailer/bare/length_in", json!("long")),
        body[1].clone(),
        ("/envelope/surfaces/left_wall/area_ft2", json!(300)),
        ("/envelope/volume_ft3", json!(null)),
    ];
    assert_eq!(fault_with(&unread).pointer, "/trailer/bare/length_in");
}

#[test]
fn the_room_is_about_that_of_a_box_with_these_surfaces() {
    // √(98 · 91 · 45.5) ft³; no less than 0.3 of it, no more than 1.25.
    for (volume_ft3, is_fine) in [(191.0, false), (191.2, true), (637.0, true), (796.2, true), (796.3, false)]
    {
        assert_eq!(
            faults_with(&[("/envelope/volume_ft3", json!(volume_ft3))]).is_empty(),
            is_fine,
            "{volume_ft3}"
        );
    }
    assert_contradiction(
        "/envelope/volume_ft3",
        json!(6370),
        "/envelope/volume_ft3",
        "must be near 637, that of a box with these surfaces; got 6370",
    );
    // Without two sides nothing is known of it.
    let open = json!({"surfaces": {"roof": surface(98.0, "roof"), "left": surface(91.0, "left")}, "volume_ft3": 6370});
    assert_eq!(faults_with(&[("/envelope", open)]), []);
}

#[test]
fn a_box_has_the_room_of_its_level_side_and_end_faces() {
    let with = |surfaces: Value| envelope(&json!({"surfaces": surfaces})).box_ft3();
    let whole = json!({"a": surface(98.0, "floor"), "b": surface(91.0, "left"), "c": surface(45.5, "rear")});
    assert!((with(whole.clone()).unwrap() - 637.0).abs() < 1e-9);
    // The larger of two faces that are opposite counts, whichever it is.
    let mut more = whole.clone();
    more["d"] = surface(40.0, "roof");
    more["e"] = surface(80.0, "right");
    assert_eq!(with(more), with(whole.clone()));
    for left_out in ["a", "b", "c"] {
        let mut less = whole.clone();
        less.as_object_mut().unwrap().remove(left_out);
        assert_eq!(with(less), None);
    }
}

#[test]
fn how_tight_it_is_is_said_once() {
    assert_contradiction(
        "/envelope/air_changes_per_h",
        json!(0.8),
        "/envelope/leakage_in2",
        "cannot stand beside air_changes_per_h; both say how much air comes in",
    );
    assert_contradiction(
        "/envelope/leakage_in2",
        json!(null),
        "/envelope/shelter",
        "says nothing without leakage_in2; give both",
    );
    let changes = [
        ("/envelope/leakage_in2", json!(null)),
        ("/envelope/shelter", json!(null)),
        ("/envelope/air_changes_per_h", json!(0.8)),
    ];
    assert_eq!(faults_with(&changes), []);
}

#[test]
fn several_mistakes_in_a_box_are_all_named() {
    assert_eq!(
        lines_with(&[
            ("/envelope/surfaces/floor/r_value", json!(-1)),
            ("/envelope/surfaces/ramp/facing", json!("back")),
            ("/envelope/surfaces/roof/solar_absorptance", json!(0.3)),
            ("/envelope/surfaces/right_wall/posts/depth_in", json!(12)),
            ("/envelope/windows/left_window/surface", json!("wall")),
            ("/envelope/air_changes_per_h", json!(1)),
        ]),
        [
            "/envelope/surfaces/roof/finish cannot stand beside solar_absorptance; both say how it takes in sun and sheds heat",
            "/envelope/surfaces/floor/r_value must be 0.5 or more; got -1",
            "/envelope/surfaces/ramp/facing must be one of roof, floor, front, rear, left, right; got \"back\"",
            "/envelope/surfaces/right_wall/posts/depth_in must be 6 or less; got 12",
            "/envelope/windows/left_window/surface names \"wall\", which is not in /envelope/surfaces",
            "/envelope/leakage_in2 cannot stand beside air_changes_per_h; both say how much air comes in",
        ]
    );
}

#[test]
fn what_could_not_be_read_is_at_fault_alone() {
    for (at, value) in [
        ("/envelope", json!([])),
        (SURFACES, json!([])),
        (WINDOWS, json!("two")),
        ("/envelope/surfaces/floor/r_value", json!("high")),
        ("/envelope/surfaces/floor/area_ft2", json!("large")),
        ("/envelope/surfaces/left_wall/area_ft2", json!(null)),
        ("/envelope/surfaces/left_wall/facing", json!(7)),
        ("/envelope/surfaces/roof/layers", json!("foam")),
        ("/envelope/surfaces/roof/layers", json!([{"material": "foam", "thickness_in": 1}])),
        ("/envelope/surfaces/roof/layers", json!([{"material": "xps", "thickness_in": "thick"}])),
        ("/envelope/surfaces/roof/layers", json!([{"r_value": "high"}])),
        ("/envelope/surfaces/roof/finish", json!("shiny")),
        ("/envelope/surfaces/right_wall/posts", json!(16)),
        ("/envelope/windows/left_window/area_ft2", json!("large")),
        ("/envelope/windows/left_window/facing", json!("port")),
        ("/envelope/windows/left_window/surface", json!(7)),
        ("/envelope/volume_ft3", json!("roomy")),
        ("/envelope/leakage_in2", json!("much")),
        ("/envelope/shelter", json!("trees")),
        ("/envelope/floor_load", json!(690)),
    ] {
        let fault = fault_with(&[(at, value)]);
        assert!(fault.pointer.starts_with(at), "{fault:?}");
    }
}
