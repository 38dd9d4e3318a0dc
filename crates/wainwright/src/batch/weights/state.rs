//! Figures of a loading state.

use crate::axle_load::independent::MAX_AXLES;
use crate::axle_load::rig::{Rig, Tow};
use crate::axle_load::wheels::Sides;
use crate::build::Build;
use crate::masses::Totals;
use crate::units::{inches, kg, lb};

/// A figure of a state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StateFigure {
    /// Liquids.
    Fluids,
    /// Cargo.
    Cargo,
    /// Everything aboard.
    Gross,
    /// What is left of the trailer's rating [kg].
    PayloadLeft { gvwr_kg: f64 },
    /// The share of the trailer's rating [kg] that is aboard.
    OfGvwr { gvwr_kg: f64 },
    /// Where the center of gravity is.
    CenterX,
    /// As [`StateFigure::CenterX`].
    CenterY,
    /// As [`StateFigure::CenterX`].
    CenterZ,
    /// The tongue load.
    Tongue,
    /// The share of everything aboard that the tongue carries.
    TongueFraction,
    /// The load of an axle.
    Axle(usize),
    /// The share of its rating [lb] that an axle carries.
    OfGawr { axle: usize, gawr_lb: f64 },
    /// The load of an axle's wheels on the left.
    Left(usize),
    /// The load of an axle's wheels on the right.
    Right(usize),
    /// The tow vehicle's front axle: its load uncoupled [kg], and what each kilogram of tongue load adds.
    TowFront { alone_kg: f64, of_tongue: f64 },
    /// As [`StateFigure::TowFront`], of the rear axle.
    TowRear { alone_kg: f64, of_tongue: f64 },
    /// Trailer and tow vehicle [kg].
    Combination { tow_kg: f64 },
}

impl StateFigure {
    /// The figure that keys lead to in a state's report; none of others than these.
    pub fn find(question: &str, keys: &[&str], build: &Build, tow: Option<&Tow>) -> Option<Self> {
        let gvwr_kg = kg(build.trailer.as_ref()?.gvwr_lb);
        let axle = |id: &str| build.axles().position(|(axle, _)| axle == id);
        Some(match (question, keys) {
            ("payload", ["fluids_lb"]) => Self::Fluids,
            ("payload", ["cargo_lb"]) => Self::Cargo,
            ("payload" | "axle_load", ["gross_mass_lb"]) => Self::Gross,
            ("payload", ["payload_left_lb"]) => Self::PayloadLeft { gvwr_kg },
            ("payload", ["gvwr_fraction"]) => Self::OfGvwr { gvwr_kg },
            ("axle_load", ["center", "x_in"]) => Self::CenterX,
            ("axle_load", ["center", "y_in"]) => Self::CenterY,
            ("axle_load", ["center", "z_in"]) => Self::CenterZ,
            ("axle_load", ["tongue_lb"]) => Self::Tongue,
            ("axle_load", ["tongue_fraction"]) => Self::TongueFraction,
            ("axle_load", ["axles", id, "load_lb"]) => Self::Axle(axle(id)?),
            ("axle_load", ["axles", id, "gawr_fraction"]) => {
                let axle = axle(id)?;
                Self::OfGawr { axle, gawr_lb: build.axles().nth(axle)?.1.gawr_lb }
            }
            ("axle_load", ["axles", id, "left_lb"]) => Self::Left(axle(id)?),
            ("axle_load", ["axles", id, "right_lb"]) => Self::Right(axle(id)?),
            ("axle_load", ["tow_vehicle", "front_axle_lb"]) => {
                let tow = tow?;
                Self::TowFront { alone_kg: tow.front_kg, of_tongue: tow.plain.front_kg }
            }
            ("axle_load", ["tow_vehicle", "rear_axle_lb"]) => {
                let tow = tow?;
                Self::TowRear { alone_kg: tow.rear_kg, of_tongue: tow.plain.rear_kg }
            }
            ("axle_load", ["tow_vehicle", "combination_lb"]) => Self::Combination { tow_kg: tow?.mass_kg() },
            _ => return None,
        })
    }

    /// Does it go by how the running gear carries?
    pub fn reads_loads(self) -> bool {
        match self {
            Self::Fluids
            | Self::Cargo
            | Self::Gross
            | Self::PayloadLeft { .. }
            | Self::OfGvwr { .. }
            | Self::CenterX
            | Self::CenterY
            | Self::CenterZ
            | Self::Combination { .. } => false,
            Self::Tongue
            | Self::TongueFraction
            | Self::Axle(_)
            | Self::OfGawr { .. }
            | Self::Left(_)
            | Self::Right(_)
            | Self::TowFront { .. }
            | Self::TowRear { .. } => true,
        }
    }

    /// Its value.
    #[inline]
    pub fn of(self, state: &Laden) -> f64 {
        let totals = &state.totals;
        match self {
            Self::Fluids => lb(state.fluids_kg),
            Self::Cargo => lb(state.cargo_kg),
            Self::Gross => lb(totals.mass_kg),
            Self::PayloadLeft { gvwr_kg } => lb(gvwr_kg - totals.mass_kg),
            Self::OfGvwr { gvwr_kg } => totals.mass_kg / gvwr_kg,
            Self::CenterX | Self::CenterY | Self::CenterZ => self.center_in(totals),
            Self::Tongue => lb(state.tongue_kg),
            Self::TongueFraction => state.tongue_kg / totals.mass_kg,
            Self::Axle(axle) => lb(state.axle_kg[axle]),
            Self::OfGawr { axle, gawr_lb } => lb(state.axle_kg[axle]) / gawr_lb,
            Self::Left(axle) => lb(state.sides(axle).left_kg),
            Self::Right(axle) => lb(state.sides(axle).right_kg),
            Self::TowFront { alone_kg, of_tongue } | Self::TowRear { alone_kg, of_tongue } => {
                lb(alone_kg + state.tongue_kg * of_tongue)
            }
            Self::Combination { tow_kg } => lb(tow_kg + totals.mass_kg),
        }
    }

    /// A function of its own: else its divisions are done for every state before it is known whether they are wanted.
    #[inline(never)]
    fn center_in(self, totals: &Totals) -> f64 {
        inches(match self {
            Self::CenterX => totals.center_x_m(),
            Self::CenterY => totals.center_y_m(),
            _ => totals.center_z_m(),
        })
    }
}

/// A state of a row.
#[derive(Debug)]
pub struct Laden<'r> {
    rig: Option<&'r Rig>,
    totals: Totals,
    fluids_kg: f64,
    cargo_kg: f64,
    tongue_kg: f64,
    axle_kg: [f64; MAX_AXLES],
}

impl<'r> Laden<'r> {
    /// A state with these masses aboard.
    ///
    /// - `rig`  the running gear; none where nothing of how it carries is wanted
    #[inline]
    pub fn of(fixed: Totals, fluids: Totals, cargo: Totals, rig: Option<&'r Rig>) -> Self {
        let totals = fixed + fluids + cargo;
        let axle_kg = rig.map_or([f64::NAN; MAX_AXLES], |rig| rig.axles_kg(&totals));
        Self {
            rig,
            totals,
            fluids_kg: fluids.mass_kg,
            cargo_kg: cargo.mass_kg,
            tongue_kg: Rig::tongue_kg(&totals, axle_kg),
            axle_kg,
        }
    }

    fn sides(&self, axle: usize) -> Sides {
        let none = Sides { left_kg: f64::NAN, right_kg: f64::NAN };
        self.rig.map_or(none, |rig| rig.sides(&self.totals, &self.axle_kg, axle))
    }
}
