//! Section `tanks`: everything that holds a liquid.

use crate::bounds;
use crate::document::{Choice, Options, record};

record! {
    /// Something that holds a liquid. The shell's own mass is a part.
    pub struct Tank: "a tank" {
        /// What is in it.
        required fluid: Fluid = Choice::of(), "fresh_water";
        /// What it holds when full. For propane the liquid at its legal fill, about 80 % of the vessel.
        required capacity_gal: f64 = bounds::CAPACITY_GAL, 18.0;
        /// Density of the liquid, where it is not the usual one.
        optional density_lb_per_gal: f64 = bounds::DENSITY_LB_PER_GAL, 8.34;
        /// Its center of gravity behind the ball.
        optional x_in: f64 = bounds::STATION_IN, 150.0;
        /// Its center of gravity right (+) or left (-) of the centerline.
        optional y_in: f64 = bounds::OFFSET_IN, 0.0;
        /// Height of its center of gravity above the ground, full.
        optional z_in: f64 = bounds::HEIGHT_IN, 18.0;
    }
}

/// What a tank holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fluid {
    /// Drinking and washing water.
    FreshWater,
    /// Water from sink and shower.
    GreyWater,
    /// Water from the toilet.
    BlackWater,
    /// Propane, liquid.
    Propane,
    /// Gasoline.
    Gasoline,
    /// Diesel fuel.
    Diesel,
}

impl Options for Fluid {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("fresh_water", Self::FreshWater),
        ("grey_water", Self::GreyWater),
        ("black_water", Self::BlackWater),
        ("propane", Self::Propane),
        ("gasoline", Self::Gasoline),
        ("diesel", Self::Diesel),
    ];
}

impl Fluid {
    /// Density that loads are worked out with [lb/gal], and where the figure is from.
    ///
    /// Water: 62.37 lb/ft³ at 60 °F (steam tables, from memory) over 7.4805 gal/ft³. Propane: liquid at 60 °F,
    /// specific gravity 0.504 to 0.510 gives 4.20 to 4.25. Fuels: from memory.
    pub fn density_lb_per_gal(self) -> (f64, &'static str) {
        match self {
            Self::FreshWater | Self::GreyWater | Self::BlackWater => {
                (8.34, "handbook density of water at 60 °F")
            }
            Self::Propane => (4.24, "handbook density of liquid propane at 60 °F"),
            Self::Gasoline => (6.1, "usual density of gasoline (from memory)"),
            Self::Diesel => (7.1, "usual density of diesel fuel (from memory)"),
        }
    }

    /// Is it water, fresh or used?
    pub fn is_water(self) -> bool {
        matches!(self, Self::FreshWater | Self::GreyWater | Self::BlackWater)
    }

    /// Is it water that came out of the fresh tank?
    pub fn is_waste(self) -> bool {
        matches!(self, Self::GreyWater | Self::BlackWater)
    }

    /// Does a full tank of it count in the unloaded mass? Propane does, water and spare fuel are cargo
    /// (49 CFR 571.110 S9.3.2, at second hand).
    pub fn counts_as_unloaded(self) -> bool {
        self == Self::Propane
    }

    /// Its name for people.
    pub fn words(self) -> &'static str {
        match self {
            Self::FreshWater => "fresh water",
            Self::GreyWater => "grey water",
            Self::BlackWater => "black water",
            Self::Propane => "propane",
            Self::Gasoline => "gasoline",
            Self::Diesel => "diesel",
        }
    }
}
