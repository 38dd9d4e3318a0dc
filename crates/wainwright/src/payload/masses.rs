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
        unloaded_kg: fixed_kg + loading.propane_kg(),
        fresh_water_l: loading.fresh_water_l,
        states: states.collect(),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::Build;
    use crate::units::lb;

    /// Invented build "Dipper": 2180 lb bare, parts 318 lb, 22 gal of water, a 265-lb bike.
    #[test]
    fn masses_add_up() {
        let json = json!({
            "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}},
            "parts": {"bed": {"mass_lb": 142}, "rest": {"mass_lb": 88, "quantity": 2}},
            "tanks": {
                "fresh": {"fluid": "fresh_water", "capacity_gal": 22},
                "gas": {"fluid": "propane", "capacity_gal": 5},
            },
            "cargo": {"bike": {"mass_lb": 265}},
            "states": {"homebound": {"fill": {"fresh": 1}, "aboard": ["bike"]}, "over": {"fill": {"gas": 0.5}}},
        });
        let build = Build::from_json(json.to_string().as_bytes()).unwrap();
        let numbers = numbers(build.trailer.as_ref().unwrap(), &Loading::of(&build).unwrap());
        let shown = |kg: f64| format!("{:.2}", lb(kg));
        assert_eq!(shown(numbers.bare_kg), "2180.00");
        assert_eq!(shown(numbers.parts_kg), "318.00");
        // Propane counts in the unloaded mass at its full fill, whatever a state has in it.
        assert_eq!(shown(numbers.unloaded_kg), "2519.20");
        let [homebound, over] = numbers.states.as_slice() else { panic!("two states") };
        assert_eq!(shown(homebound.fluids_kg), "183.48");
        assert_eq!(shown(homebound.cargo_kg), "265.00");
        assert_eq!(shown(homebound.gross_kg), "2946.48");
        assert_eq!(shown(homebound.payload_left_kg), "4053.52");
        assert_eq!(format!("{:.4}", homebound.gvwr_fraction), "0.4209");
        assert_eq!(shown(over.fluids_kg), "10.60");
        assert_eq!(format!("{:.3}", numbers.fresh_water_l), "83.279");
    }
}
