//! Section `envelope`: the surfaces and windows of the box, and how tight it is.

mod check;

use serde_json::Value;

use super::facing::Facing;
use crate::bounds;
use crate::document::{Choice, Keyed, List, Map, Options, Section, record};
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
        /// How much foam lies between posts and lining, bridged by nothing. It stands among the layers as well.
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
}
