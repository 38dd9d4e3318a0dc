//! The numeric core: sums of masses.

use crate::build::Trailer;
use crate::loading::Loading;
use crate::units::kg;

/// The masses of a build.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbers {
    /// Bare trailer [kg].
    pub bare_kg: f64,
    /// All parts [kg].
    pub parts_kg: f64,
    /// Unloaded: bare trailer, parts, and propane at its full fill [kg].
    pub unloaded_kg: f64,
    /// All fresh-water tanks, full [L].
    pub fresh_water_l: f64,
    /// Each state.
    pub states: Vec<StateNumbers>,
}

/// The masses of one loading state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StateNumbers {
    /// Liquids [kg].
    pub fluids_kg: f64,
    /// Cargo [kg].
    pub cargo_kg: f64,
    /// Everything [kg].
    pub gross_kg: f64,
    /// What is left of the GVWR [kg]; below 0 the trailer is overweight.
    pub payload_left_kg: f64,
    /// Gross mass over GVWR.
    pub gvwr_fraction: f64,
}

/// The masses of a build: sums, and their distance from the rating.
pub fn numbers(trailer: &Trailer, loading: &Loading) -> Numbers {
    let bare_kg = loading.bare.mass_kg;
    let parts_kg = loading.parts.iter().map(|part| part.mass_kg).fold(0.0, |sum, part| sum + part);
    let propane = loading.tanks.iter().zip(&loading.fluids).filter(|(_, fluid)| fluid.counts_as_unloaded());
    let gvwr_kg = kg(trailer.gvwr_lb);
    let fixed_kg = loading.fixed().mass_kg;
    let states = loading.states.iter().map(|state| {
        let fluids_kg = loading.fluids_in(state).mass_kg;
        let cargo_kg = loading.cargo_in(state).mass_kg;
        let gross_kg = fixed_kg + fluids_kg + cargo_kg;
        StateNumbers {
            fluids_kg,
            cargo_kg,
            gross_kg,
            payload_left_kg: gvwr_kg - gross_kg,
            gvwr_fraction: gross_kg / gvwr_kg,
        }
    });
    Numbers {
        bare_kg,
        parts_kg,
        unloaded_kg: fixed_kg + propane.fold(0.0, |sum, (tank, _)| sum + tank.mass_kg),
        fresh_water_l: loading.fresh_water_l,
        states: states.collect(),
    }
}
