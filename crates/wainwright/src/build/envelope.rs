//! Section `envelope`: the surfaces and windows of the box, and how tight it is.

use serde_json::Value;

use super::Build;
use super::facing::Facing;
use crate::bounds;
use crate::document::{Choice, Faults, Keyed, List, Map, Options, Place, Section, record};
use crate::standards::building_material::Material;
use crate::standards::finish::Finish;
use crate::standards::framing::Framing;
use crate::standards::glazing::{Cover, Glazing};

record! {
    /// The surfaces and windows of the box, and how tight it is.
    pub struct Envelope: "the envelope" {
        /// Roof, walls, floor and doors.
        optional surfaces: Keyed<Surface> = Map { of: Section::of(), most: bounds::MOST_SURFACES, example_id: "roof" };
        /// Windows, and hatches that let light through.
        optional windows: Keyed<Window> = Map { of: Section::of(), most: bounds::MOST_SURFACES, example_id: "roof_hatch" };
        /// The room inside. Left out, that of a box with these surfaces.
        optional volume_ft3: f64 = bounds::VOLUME_FT3, 760.0;
        /// How often the air inside is changed through gaps in an hour.
        optional air_changes_per_h: f64 = bounds::AIR_CHANGES_PER_H, 0.8;
        /// Area of all gaps together, as a pressure test at 4 Pa gives it; the air that comes in then follows wind and cold.
        optional leakage_in2: f64 = bounds::LEAKAGE_IN2, 8.0, aside;
        /// How far the place is sheltered from wind, for `leakage_in2`.
        optional shelter: Shelter = Choice::of(), "moderate", aside;
        /// Share of sun and sky that an awning, a tree or a carport keeps off the whole box.
        optional shade_fraction: f64 = bounds::FRACTION, 0.0;
        /// Heat that lining, furniture and what stays inside take up for each degree.
        optional heat_capacity_btu_f: f64 = bounds::HEAT_CAPACITY_BTU_F, 290.0;
        /// What stands on the floor while the box is lived in: the toy, full water tanks.
        optional floor_load: StandingLoad = Section::of(), Value::Null;
    }
}

record! {
    /// A surface of the box.
    pub struct Surface: "a surface" {
        /// Its whole area, with the windows in it.
        required area_ft2: f64 = bounds::AREA_FT2, 112.0;
        /// Which way it faces.
        required facing: Facing = Choice::of(), "roof";
        /// What it holds back of the heat from air to air, films and framing counted: the true value, not the label of its
        /// foam.
        optional r_value: f64 = bounds::R_VALUE, 7.5;
        /// What it is made of, from the outside in, in place of `r_value`.
        optional layers: Vec<Layer> = List { of: Section::of(), most: bounds::MOST_LAYERS }, Value::Null;
        /// Posts or bows of metal that bridge the insulation, beside `layers`.
        optional posts: Posts = Section::of(), Value::Null;
        /// Share of the sun that it takes in: 0.2 new white, 0.9 black.
        optional solar_absorptance: f64 = bounds::FRACTION, 0.3;
        /// Its look, in place of `solar_absorptance` and `emittance`.
        optional finish: Finish = Choice::of(), "white", aside;
        /// Share of its heat that it sheds as a black body would: 0.9 painted, below 0.1 bare metal.
        optional emittance: f64 = bounds::FRACTION, 0.9;
        /// Share of sun and sky kept off it, beside the shade on the whole box.
        optional shade_fraction: f64 = bounds::FRACTION, 0.0;
    }
}

record! {
    /// A layer of a surface.
    pub struct Layer: "a layer" {
        /// What it is made of.
        optional material: Material = Choice::of(), "polyiso";
        /// How thick it is.
        optional thickness_in: f64 = bounds::THICKNESS_IN, 1.5;
        /// What it holds back by itself, in place of material and thickness.
        optional r_value: f64 = bounds::LAYER_R_VALUE, 9.0, aside;
        /// Share of its area that is framing of wood.
        optional wood_fraction: f64 = bounds::FRACTION, 0.1;
    }
}

record! {
    /// Posts that bridge the insulation.
    pub struct Posts: "the posts" {
        /// What they are made of.
        required material: Framing = Choice::of(), "steel";
        /// Their depth, from skin to lining.
        required depth_in: f64 = bounds::POST_DEPTH_IN, 1.5;
        /// From the middle of one to the middle of the next.
        required spacing_in: f64 = bounds::SPACING_IN, 16.0;
        /// Foam between posts and lining that nothing bridges.
        optional foam_in: f64 = bounds::FOAM_IN, 0.5;
    }
}

record! {
    /// A window, or a hatch that lets light through.
    pub struct Window: "a window" {
        /// Its area with its frame.
        required area_ft2: f64 = bounds::AREA_FT2, 4.0;
        /// Which way it faces.
        required facing: Facing = Choice::of(), "roof";
        /// The surface it is in. Left out, the largest that faces so.
        optional surface: String = bounds::NAME, "left_wall", aside;
        /// What it is: says what `u_value` and `shgc` are where they are left out, and how its sun falls off aslant.
        optional glazing: Glazing = Choice::of(), "double_acrylic";
        /// What it lets through of the warmth, frame counted.
        optional u_value: f64 = bounds::U_VALUE, 0.6;
        /// Share of the sun's heat that it lets in where it falls straight on it.
        optional shgc: f64 = bounds::FRACTION, 0.65;
        /// What covers it by day.
        optional cover: Cover = Choice::of(), "none";
    }
}

record! {
    /// What stands on the floor.
    pub struct StandingLoad: "the load on the floor" {
        /// Its mass.
        required mass_lb: f64 = bounds::MASS_LB, 690.0;
        /// Its specific heat: 0.11 of steel, 1 of water.
        optional specific_heat_btu_lb_f: f64 = bounds::SPECIFIC_HEAT, 0.2;
        /// Its surface, through which it takes up heat.
        required area_ft2: f64 = bounds::AREA_FT2, 60.0;
    }
}

/// What stands around and breaks the wind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shelter {
    /// Nothing: open, flat country.
    None,
    /// Little: a lone house in the country.
    Light,
    /// Things about as high across the street or the lane of a campground.
    Moderate,
    /// Things about as high all around, further off than their height.
    Heavy,
    /// Things about as high or higher close by on every side.
    VeryHeavy,
}

impl Options for Shelter {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("none", Self::None),
        ("light", Self::Light),
        ("moderate", Self::Moderate),
        ("heavy", Self::Heavy),
        ("very_heavy", Self::VeryHeavy),
    ];
}

/// An envelope's area may be so many times that of the body's outline before it contradicts it: corners and noses.
const OUTLINE_MARGIN: f64 = 1.1;
/// The greatest height of a body [ft]: no law lets a trailer be higher than 14 ft on the road.
const TALLEST_FT: f64 = 12.0;
/// How far the volume may be from that of a box with the same surfaces, as ratios.
const VOLUME_RATIOS: (f64, f64) = (0.3, 1.25);

impl Envelope {
    /// The surfaces, in the order of the document.
    pub fn surfaces(&self) -> impl Iterator<Item = (&str, &Surface)> + Clone {
        self.surfaces.iter().flatten().map(|(id, surface)| (id.as_str(), surface))
    }

    /// The windows, in the order of the document.
    pub fn windows(&self) -> impl Iterator<Item = (&str, &Window)> + Clone {
        self.windows.iter().flatten().map(|(id, window)| (id.as_str(), window))
    }

    /// Area of all surfaces that face one way [ft²].
    pub fn area_ft2(&self, facing: Facing) -> f64 {
        self.surfaces()
            .filter(|(_, surface)| surface.facing == facing)
            .map(|(_, surface)| surface.area_ft2)
            .sum()
    }

    /// The surface that a window is in: the one it names, or the largest that faces as it does.
    pub fn surface_of(&self, window: &Window) -> Option<(&str, &Surface)> {
        if let Some(name) = &window.surface {
            let (id, surface) = self.surfaces.as_ref()?.get_key_value(name)?;
            return Some((id, surface));
        }
        let facing = self.surfaces().filter(|(_, surface)| surface.facing == window.facing);
        facing.reduce(|largest, other| if other.1.area_ft2 > largest.1.area_ft2 { other } else { largest })
    }

    /// Volume of a rectangular box with these surfaces [ft³]: the root of floor by side by end. None where one of the three
    /// is missing.
    pub fn box_ft3(&self) -> Option<f64> {
        let either = |one, other| {
            Some(self.area_ft2(one).max(self.area_ft2(other))).filter(|area_ft2| *area_ft2 > 0.0)
        };
        let level_ft2 = either(Facing::Floor, Facing::Roof)?;
        Some((level_ft2 * either(Facing::Left, Facing::Right)? * either(Facing::Front, Facing::Rear)?).sqrt())
    }

    pub(super) fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        let surfaces = at.key("surfaces");
        for (id, surface) in self.surfaces() {
            surface.check(&surfaces.key(id), faults);
        }
        // Where an area or a facing could not be read, no sum of them says anything.
        let is_read = !faults.spoil(&surfaces.pointer())
            && self.surfaces().all(|(id, _)| {
                let place = surfaces.key(id);
                let member = |name| !faults.spoil(&place.key(name).pointer());
                member("area_ft2") && member("facing")
            });
        self.check_windows(is_read, at, faults);
        if self.air_changes_per_h.is_some() && self.leakage_in2.is_some() {
            let detail = "cannot stand beside air_changes_per_h; both say how much air comes in".to_owned();
            faults.contradiction(&at.key("leakage_in2"), detail);
        }
        if self.shelter.is_some() && self.leakage_in2.is_none() {
            let detail = "says nothing without leakage_in2; give both".to_owned();
            faults.contradiction_without(&["leakage_in2"], at, &at.key("shelter"), detail);
        }
        if !is_read {
            return;
        }
        self.check_outline(build, at, faults);
        if let (Some(volume_ft3), Some(box_ft3)) = (self.volume_ft3, self.box_ft3()) {
            let ratio = volume_ft3 / box_ft3;
            if !(VOLUME_RATIOS.0..=VOLUME_RATIOS.1).contains(&ratio) {
                let detail = format!(
                    "must be near {}, that of a box with these surfaces; got {volume_ft3}",
                    shown((10.0 * box_ft3).round() / 10.0)
                );
                faults.contradiction(&at.key("volume_ft3"), detail);
            }
        }
    }

    /// No surface is larger than the body it is of.
    fn check_outline(&self, build: &Build, at: &Place, faults: &mut Faults) {
        let Some(bare) = build.trailer.as_ref().map(|trailer| &trailer.bare) else { return };
        let (Some(length_in), Some(width_in)) = (bare.length_in, bare.width_in) else { return };
        if ["length_in", "width_in"].iter().any(|name| faults.spoil(&format!("/trailer/bare/{name}"))) {
            return;
        }
        let (length_ft, width_ft) = (length_in / 12.0, width_in / 12.0);
        for facing in Facing::ALL {
            let (outline_ft2, words) = match facing {
                Facing::Roof | Facing::Floor => {
                    (length_ft * width_ft, format!("the body is {length_in} in long and {width_in} in wide"))
                }
                Facing::Left | Facing::Right => (
                    length_ft * TALLEST_FT,
                    format!("the body is {length_in} in long, and none is {TALLEST_FT} ft high"),
                ),
                Facing::Front | Facing::Rear => (
                    width_ft * TALLEST_FT,
                    format!("the body is {width_in} in wide, and none is {TALLEST_FT} ft high"),
                ),
            };
            let most_ft2 = OUTLINE_MARGIN * outline_ft2;
            let mut sum_ft2 = 0.0;
            for (id, surface) in self.surfaces().filter(|(_, surface)| surface.facing == facing) {
                sum_ft2 += surface.area_ft2;
                if sum_ft2 > most_ft2 {
                    let place = at.key("surfaces");
                    let place = place.key(id);
                    let detail = format!(
                        "must leave all that faces {} at {} or less, since {words}; with {} it is {}",
                        facing.word(),
                        shown(most_ft2),
                        surface.area_ft2,
                        shown(sum_ft2)
                    );
                    faults.contradiction(&place.key("area_ft2"), detail);
                    break;
                }
            }
        }
    }

    /// Every window has a surface around it.
    ///
    /// - `is_read`  could areas and facings of all surfaces be read?
    fn check_windows(&self, is_read: bool, at: &Place, faults: &mut Faults) {
        let windows = at.key("windows");
        let all = self.surfaces.as_ref();
        let mut taken_ft2: Vec<(&str, f64)> = Vec::new();
        for (id, window) in self.windows() {
            let place = windows.key(id);
            if let Some(name) = &window.surface {
                faults.check_reference(&place.key("surface"), name, "/envelope/surfaces", all);
            }
            if !is_read {
                continue;
            }
            let Some((surface_id, surface)) = self.surface_of(window) else {
                if window.surface.is_none() {
                    let word = window.facing.word();
                    let detail =
                        format!("is {word}, where the envelope has no surface; give the surface around it");
                    faults.contradiction(&place.key("facing"), detail);
                }
                continue;
            };
            if surface.facing != window.facing {
                let detail = format!(
                    "must be {}, as its surface {surface_id} is; got {}",
                    surface.facing.word(),
                    window.facing.word()
                );
                faults.contradiction(&place.key("facing"), detail);
            }
            let before_ft2 = match taken_ft2.iter_mut().find(|(other, _)| *other == surface_id) {
                Some((_, sum_ft2)) => {
                    let before_ft2 = *sum_ft2;
                    *sum_ft2 += window.area_ft2;
                    before_ft2
                }
                None => {
                    taken_ft2.push((surface_id, window.area_ft2));
                    0.0
                }
            };
            let left_ft2 = surface.area_ft2 - before_ft2;
            if window.area_ft2 > left_ft2 + ALIKE_FT2 && left_ft2 >= -ALIKE_FT2 {
                let others = if before_ft2 > 0.0 { " that its other windows leave" } else { "" };
                let detail = format!(
                    "must be {} or less, the area of {surface_id}{others}; got {}",
                    shown(left_ft2),
                    window.area_ft2
                );
                faults.contradiction(&place.key("area_ft2"), detail);
            }
        }
    }
}

/// Areas no further apart are the same: sums of decimals are off in their last bits [ft²].
const ALIKE_FT2: f64 = 1e-6;

/// A figure that was worked out, as one would write it: four decimals at most.
fn shown(value: f64) -> String {
    let rounded = format!("{:.4}", value.max(0.0));
    rounded.trim_end_matches('0').trim_end_matches('.').to_owned()
}

impl Surface {
    fn check(&self, at: &Place, faults: &mut Faults) {
        match (&self.r_value, &self.layers) {
            (Some(_), Some(_)) => {
                let detail = "cannot stand beside r_value; both say what it holds back".to_owned();
                faults.contradiction(&at.key("layers"), detail);
            }
            (None, None) => {
                let detail =
                    "says nothing of its insulation; give r_value, or layers from the outside in".to_owned();
                faults.contradiction_without(&["r_value", "layers"], at, at, detail);
            }
            (None, Some(layers)) => {
                let place = at.key("layers");
                if layers.is_empty() {
                    faults.contradiction(&place, "is empty; give a layer, or r_value".to_owned());
                }
                for (index, layer) in layers.iter().enumerate() {
                    layer.check(&place.index(index), faults);
                }
            }
            (Some(_), None) => {}
        }
        if self.posts.is_some() && self.r_value.is_some() {
            let detail =
                "cannot stand beside r_value, which counts them; give layers in its place".to_owned();
            faults.contradiction(&at.key("posts"), detail);
        }
        let beside = [("solar_absorptance", self.solar_absorptance), ("emittance", self.emittance)];
        if self.finish.is_some()
            && let Some((other, _)) = beside.into_iter().find(|(_, given)| given.is_some())
        {
            let detail = format!("cannot stand beside {other}; both say how it takes in sun and sheds heat");
            faults.contradiction(&at.key("finish"), detail);
        }
    }
}

impl Layer {
    fn check(&self, at: &Place, faults: &mut Faults) {
        match (self.material, self.thickness_in, self.r_value) {
            (Some(_), _, Some(_)) => {
                let detail = "cannot stand beside material; both say what it holds back".to_owned();
                faults.contradiction(&at.key("r_value"), detail);
            }
            (Some(_), None, None) => {
                let detail = "is missing; with a material give how thick it is".to_owned();
                faults.contradiction_without(&["thickness_in"], at, &at.key("thickness_in"), detail);
            }
            (None, _, None) => {
                let detail = "says nothing; give material and thickness_in, or r_value".to_owned();
                faults.contradiction_without(&["material", "thickness_in", "r_value"], at, at, detail);
            }
            _ => {}
        }
        if let Some(wood) = self.wood_fraction
            && wood > 0.0
            && self.thickness_in.is_none()
            && self.r_value.is_some()
        {
            let detail = "needs thickness_in, how deep its wood is".to_owned();
            faults.contradiction_without(&["thickness_in"], at, &at.key("wood_fraction"), detail);
        }
    }
}

#[cfg(test)]
mod tests {
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
        let misspelled = fault_with(&[(
            "/envelope/surfaces/floor",
            json!({"area_ft2": 98, "facing": "floor", "rvalue": 5}),
        )]);
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
        let changes: Vec<(&str, Value)> =
            both.iter().map(|(at, value)| (at.as_str(), json!(value))).collect();
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
            line.into_iter()
                .map(|line| line.replace("/envelope/surfaces/roof/layers/1", ""))
                .collect::<Vec<_>>()
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
        let misspelled =
            fault_with(&[(&format!("{ROOF}/layers"), json!([{"material": "xps", "thickness": 1}]))]);
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
        let around: Vec<_> =
            box_of.windows().map(|(_, window)| box_of.surface_of(window).unwrap().0).collect();
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
        for (volume_ft3, is_fine) in
            [(191.0, false), (191.2, true), (637.0, true), (796.2, true), (796.3, false)]
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
        let whole =
            json!({"a": surface(98.0, "floor"), "b": surface(91.0, "left"), "c": surface(45.5, "rear")});
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
}
