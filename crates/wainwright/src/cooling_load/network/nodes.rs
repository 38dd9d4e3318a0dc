//! What the network is made of, what drives it, and where it stands.

use super::links::Links;

/// Heat capacities and conductances of the box.
///
/// ```text
/// C_a dT_a/dt = H_is (T_s − T_a) + H_ve (T_sup − T_a) + Φ_a
/// C_m dT_m/dt = H_ms (T_s − T_m) + H_em (T_eq − T_m) + Φ_m
/// C_f dT_f/dt = H_f (T_s − T_f) + Φ_f
/// T_s = (H_is T_a + H_ms T_m + H_f T_f + H_w T_o + Φ_s) / S,  S = H_is + H_ms + H_f + H_w
/// ```
///
/// Source: the hourly network of ISO 13790:2008, annex C, with a capacity of the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Network {
    /// Heat capacity of the air and of what follows it at once, such as curtains C_a [J/K], above 0.
    pub air_j_k: f64,
    /// Heat capacity of lining, floor and furniture C_m [J/K], above 0.
    pub mass_j_k: f64,
    /// Conductance from the surfaces to the air H_is [W/K], 0 or more.
    pub surface_to_air_w_k: f64,
    /// Conductance from the mass to the surfaces H_ms [W/K], 0 or more; 0 in one of this and the last, not in both.
    pub mass_to_surface_w_k: f64,
    /// Conductance from outside to the mass H_em [W/K], 0 or more, from [`outside_to_mass_w_k`].
    pub outside_to_mass_w_k: f64,
    /// Conductance of windows and all else without mass, from outdoor air to the surfaces H_w [W/K], 0 or more.
    pub windows_w_k: f64,
    /// Something heavy on the floor, such as a motorcycle or a water tank.
    pub floor_load: Option<FloorLoad>,
}

/// Something heavy on the floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FloorLoad {
    /// Its heat capacity C_f [J/K], above 0.
    pub heat_j_k: f64,
    /// Conductance from it to the surfaces H_f [W/K], 0 or more.
    pub to_surface_w_k: f64,
}

/// What drives the network through a step, all constant within it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Drive {
    /// Outdoor air, at the windows T_o [°C].
    pub outdoor_c: f64,
    /// Air that is let or blown in T_sup [°C].
    pub supply_c: f64,
    /// Sol-air temperature of the opaque envelope, by conductance over its faces T_eq [°C].
    pub equivalent_c: f64,
    /// Heat into the air Φ_a [W]; below 0 with a cooler.
    pub air_w: f64,
    /// Heat into the surfaces Φ_s [W].
    pub surface_w: f64,
    /// Heat into the mass Φ_m [W].
    pub mass_w: f64,
    /// Heat into the load on the floor Φ_f [W]; of no effect without one.
    pub floor_load_w: f64,
}

/// Temperatures of what holds heat.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct State {
    /// Air T_a [°C].
    pub air_c: f64,
    /// Mass T_m [°C].
    pub mass_c: f64,
    /// Load on the floor T_f [°C]; without one it goes with the mass.
    pub floor_load_c: f64,
}

impl State {
    /// The same temperature throughout.
    ///
    /// - `temperature_c`  the temperature [°C]
    pub fn even(temperature_c: f64) -> Self {
        Self { air_c: temperature_c, mass_c: temperature_c, floor_load_c: temperature_c }
    }

    pub(super) fn from_array([air_c, mass_c, floor_load_c]: [f64; 3]) -> Self {
        Self { air_c, mass_c, floor_load_c }
    }

    pub(super) fn to_array(self) -> [f64; 3] {
        [self.air_c, self.mass_c, self.floor_load_c]
    }
}

/// Conductance from outside to the mass, from that of the opaque envelope.
///
/// `H_em = 1 / (1/H_op − 1/H_ms)`
///
/// - `opaque_w_k`           conductance of the opaque envelope from outdoor air to indoor air H_op [W/K], 0 or more
/// - `mass_to_surface_w_k`  conductance from the mass to the surfaces H_ms [W/K], above 0
///
/// Returns H_em [W/K], 0 where nothing passes; none where H_op is not below H_ms: then the mass is joined too
/// loosely for the heat that passes through it, and more of the lining must be counted as mass.
///
/// Source: ISO 13790:2008, 12.2.2.
pub fn outside_to_mass_w_k(opaque_w_k: f64, mass_to_surface_w_k: f64) -> Option<f64> {
    (opaque_w_k >= 0.0 && opaque_w_k < mass_to_surface_w_k)
        .then(|| opaque_w_k * mass_to_surface_w_k / (mass_to_surface_w_k - opaque_w_k))
}

impl Network {
    pub(super) fn floor_load_w_k(&self) -> f64 {
        self.floor_load.map_or(0.0, |load| load.to_surface_w_k)
    }

    /// Temperature of the inner surfaces.
    ///
    /// `T_s = (H_is T_a + H_ms T_m + H_f T_f + H_w T_o + Φ_s) / S`, `S = H_is + H_ms + H_f + H_w`
    ///
    /// - `state`  air, mass and load on the floor, at an instant or as means over a step
    /// - `drive`  outdoor air and heat into the surfaces
    ///
    /// Returns T_s [°C].
    pub fn surface_c(&self, state: &State, drive: &Drive) -> f64 {
        let (air, mass) = (self.surface_to_air_w_k, self.mass_to_surface_w_k);
        let (load, windows) = (self.floor_load_w_k(), self.windows_w_k);
        let heat_w = air * state.air_c
            + mass * state.mass_c
            + load * state.floor_load_c
            + windows * drive.outdoor_c
            + drive.surface_w;
        heat_w / (air + mass + load + windows)
    }

    /// Where the network comes to rest while what drives it stays as it is.
    ///
    /// The node equations with nothing stored, the surfaces and the load on the floor eliminated.
    ///
    /// - `ventilation_w_k`  heat carried by air that is exchanged H_ve [W/K], 0 or more
    /// - `drive`            what drives it
    ///
    /// Returns none where nothing leads out of the air or the mass, so that it never rests.
    pub fn steady(&self, ventilation_w_k: f64, drive: &Drive) -> Option<State> {
        // At rest a load on the floor passes on what it is given.
        let floor_load_w = self.floor_load.map_or(0.0, |_| drive.floor_load_w);
        let passed_on = Drive { surface_w: drive.surface_w + floor_load_w, ..*drive };
        let bare = Network { floor_load: None, ..*self };
        let links = bare.links(ventilation_w_k);
        let Links { between: [between, ..], out: [air_out, mass_out, _], .. } = links;
        let [air_w, mass_w, _] = links.heat_w(&passed_on);
        let determinant = between * (air_out + mass_out) + air_out * mass_out;
        let air_c = ((between + mass_out) * air_w + between * mass_w) / determinant;
        let mass_c = ((between + air_out) * mass_w + between * air_w) / determinant;
        let mut rest = State { air_c, mass_c, floor_load_c: mass_c };
        if let Some(load) = self.floor_load {
            let rise_k = if floor_load_w == 0.0 { 0.0 } else { floor_load_w / load.to_surface_w_k };
            rest.floor_load_c = bare.surface_c(&rest, &passed_on) + rise_k;
        }
        rest.to_array().iter().all(|at_c| at_c.is_finite()).then_some(rest)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cooling_load::network::fixture::{AFTERNOON, BODY, MOTORCYCLE};

    #[test]
    fn mass_and_outside_are_in_series_with_the_surface() {
        let outside_w_k = outside_to_mass_w_k(45.0, 220.0).unwrap();
        assert!((1.0 / (1.0 / outside_w_k + 1.0 / 220.0) - 45.0).abs() < 1e-12);
        assert_eq!(outside_to_mass_w_k(0.0, 220.0), Some(0.0));
        assert_eq!(outside_to_mass_w_k(220.0, 220.0), None);
        assert_eq!(outside_to_mass_w_k(f64::NAN, 220.0), None);
    }

    #[test]
    fn at_rest_heat_in_is_heat_out_at_every_node() {
        for floor_load in [None, Some(MOTORCYCLE)] {
            let network = Network { floor_load, ..BODY };
            let rest = network.steady(8.0, &AFTERNOON).unwrap();
            let surface_c = network.surface_c(&rest, &AFTERNOON);
            let to_air_w = 150.0 * (surface_c - rest.air_c) + 8.0 * (36.0 - rest.air_c) - 1400.0;
            let to_mass_w = 220.0 * (surface_c - rest.mass_c) + 60.0 * (45.0 - rest.mass_c) + 300.0;
            assert!(to_air_w.abs() < 1e-9 && to_mass_w.abs() < 1e-9, "{to_air_w} {to_mass_w}");
            match floor_load {
                None => assert_eq!(rest.floor_load_c, rest.mass_c),
                Some(load) => {
                    let to_load_w = load.to_surface_w_k * (surface_c - rest.floor_load_c) + 10.0;
                    assert!(to_load_w.abs() < 1e-9, "{to_load_w}");
                }
            }
        }
    }

    #[test]
    fn a_box_that_nothing_leads_out_of_never_rests() {
        let closed = Network { outside_to_mass_w_k: 0.0, windows_w_k: 0.0, ..BODY };
        assert_eq!(closed.steady(0.0, &AFTERNOON), None);
        assert!(closed.steady(0.1, &AFTERNOON).is_some());
    }

    #[test]
    fn a_load_that_touches_nothing_rests_only_without_heat() {
        let apart = FloorLoad { to_surface_w_k: 0.0, ..MOTORCYCLE };
        let network = Network { floor_load: Some(apart), ..BODY };
        assert_eq!(network.steady(8.0, &AFTERNOON), None);
        assert!(network.steady(8.0, &Drive { floor_load_w: 0.0, ..AFTERNOON }).is_some());
    }
}
