//! The simple hourly method of ISO 13790:2008, annex C: five conductances and one capacity.
//!
//! It is here to be compared with; the box itself is reckoned by [`Response`](super::Response), whose air and mass
//! both hold heat and whose step is exact. This one goes by Crank and Nicolson's rule: it is of second order, but beyond
//! [`HourlyBox::longest_step_s`] the mass swings about where it should come to rest.

use super::thermostat::{Plant, Setpoints, required_w};

/// Conductance from the mass to the surfaces h_ms [W/(m² K)].
///
/// Source: ISO 13790:2008, 12.2.2.
pub const MASS_TO_SURFACE_W_M2_K: f64 = 9.1;
/// Conductance from the surfaces to the air h_is [W/(m² K)].
///
/// Source: ISO 13790:2008, 7.2.2.2.
pub const SURFACE_TO_AIR_W_M2_K: f64 = 3.45;

/// A box of the simple hourly method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourlyBox {
    /// Area of all inner faces A_t [m²], above 0.
    pub faces_m2: f64,
    /// Effective area of the mass A_m [m²], above 0, no more than A_t.
    pub mass_m2: f64,
    /// Heat capacity of the mass C_m [J/K], above 0.
    pub mass_j_k: f64,
    /// Conductance from the surfaces to the air H_is [W/K], above 0: [`SURFACE_TO_AIR_W_M2_K`] by A_t.
    pub surface_to_air_w_k: f64,
    /// Conductance from outside to the mass H_em [W/K], 0 or more, by
    /// [`outside_to_mass_w_k`](super::nodes::outside_to_mass_w_k) with [`HourlyBox::mass_to_surface_w_k`].
    pub outside_to_mass_w_k: f64,
    /// Conductance of windows and all else without mass H_w [W/K], 0 or more.
    pub windows_w_k: f64,
    /// Heat carried by air that is exchanged H_ve [W/K], 0 or more.
    pub ventilation_w_k: f64,
}

/// What drives the box through a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hour {
    /// Outdoor air θ_e [°C].
    pub outdoor_c: f64,
    /// Air that is let or blown in θ_sup [°C].
    pub supply_c: f64,
    /// Heat of people and equipment Φ_int [W].
    pub internal_w: f64,
    /// Heat of the sun, through windows and opaque faces, less what is lost to the sky Φ_sol [W].
    pub solar_w: f64,
}

/// Where the box stands after a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourEnd {
    /// Mass at the end of the step θ_m,t [°C].
    pub mass_c: f64,
    /// Surfaces, with the mass on its mean θ_s [°C].
    pub surface_c: f64,
    /// Air, likewise θ_air [°C].
    pub air_c: f64,
}

/// The box as the mass sees it.
struct Seen {
    /// Share of heat into the air that goes to the surfaces, H_is / (H_is + H_ve).
    air_share: f64,
    /// H_tr,1: from the surfaces to supply air.
    supply_w_k: f64,
    /// H_tr,2: from the surfaces to everything outside.
    surface_out_w_k: f64,
    /// H_tr,3: from the mass through the surfaces.
    mass_out_w_k: f64,
    /// Share of heat into the surfaces that goes to the mass, while it does not move.
    surface_share: f64,
}

impl HourlyBox {
    /// Conductance from the mass to the surfaces.
    ///
    /// `H_ms = 9.1 A_m`
    ///
    /// Returns H_ms [W/K].
    pub fn mass_to_surface_w_k(&self) -> f64 {
        MASS_TO_SURFACE_W_M2_K * self.mass_m2
    }

    fn seen(&self) -> Seen {
        let air_share = self.surface_to_air_w_k / (self.surface_to_air_w_k + self.ventilation_w_k);
        let supply_w_k = air_share * self.ventilation_w_k;
        let surface_out_w_k = supply_w_k + self.windows_w_k;
        let surface_share = self.mass_to_surface_w_k() / (self.mass_to_surface_w_k() + surface_out_w_k);
        let mass_out_w_k = surface_share * surface_out_w_k;
        Seen { air_share, supply_w_k, surface_out_w_k, mass_out_w_k, surface_share }
    }

    /// Longest step in which the mass does not swing beyond where it comes to rest.
    ///
    /// `Δ = 2 C_m / (H_tr,3 + H_em)`
    ///
    /// Returns Δ [s]; without bound where nothing leads out of the mass.
    ///
    /// Source: Crank and Nicolson's rule leaves `(C_m/Δ − ½H) / (C_m/Δ + ½H)` of a difference, less than nothing beyond.
    pub fn longest_step_s(&self) -> f64 {
        2.0 * self.mass_j_k / (self.seen().mass_out_w_k + self.outside_to_mass_w_k)
    }

    /// A step with the plant at a power.
    ///
    /// ```text
    /// Φ_ia = ½Φ_int    Φ_m = A_m/A_t (½Φ_int + Φ_sol)    Φ_st = (1 − A_m/A_t − H_w/(9.1 A_t)) (½Φ_int + Φ_sol)
    /// r = H_is/(H_is + H_ve)   H_1 = r H_ve   H_2 = H_1 + H_w   w = H_ms/(H_ms + H_2)   H_3 = w H_2
    /// X = Φ_st + H_w θ_e + H_1 θ_sup + r (Φ_ia + Φ_HC)
    /// θ_m,t = [θ_m,t−1 (C_m/Δ − ½(H_3 + H_em)) + Φ_m + H_em θ_e + w X] / [C_m/Δ + ½(H_3 + H_em)]
    /// θ_s = (H_ms θ_m + X) / (H_ms + H_2)    θ_air = (H_is θ_s + H_ve θ_sup + Φ_ia + Φ_HC) / (H_is + H_ve)
    /// ```
    ///
    /// with θ_m the mean of θ_m,t−1 and θ_m,t. As the standard has it, but that it divides by H_ve and H_2, which here
    /// may both be 0.
    ///
    /// - `mass_c`    mass at the beginning of the step θ_m,t−1 [°C]
    /// - `hour`      what drives the box
    /// - `plant_w`   heat into the air from heater or cooler Φ_HC [W]; below 0 with a cooler
    /// - `step_s`    length of the step Δ [s], above 0, for the standard 3600
    ///
    /// Source: ISO 13790:2008, C.2 and C.3.
    pub fn step(&self, mass_c: f64, hour: &Hour, plant_w: f64, step_s: f64) -> HourEnd {
        let Seen { air_share, supply_w_k, surface_out_w_k, mass_out_w_k, surface_share } = self.seen();
        let half_internal_w = 0.5 * hour.internal_w;
        let radiant_w = half_internal_w + hour.solar_w;
        let mass_share = self.mass_m2 / self.faces_m2;
        let window_share = self.windows_w_k / (MASS_TO_SURFACE_W_M2_K * self.faces_m2);
        let into_air_w = half_internal_w + plant_w;
        let into_surface_w = (1.0 - mass_share - window_share) * radiant_w
            + self.windows_w_k * hour.outdoor_c
            + supply_w_k * hour.supply_c
            + air_share * into_air_w;
        let into_mass_w = mass_share * radiant_w
            + self.outside_to_mass_w_k * hour.outdoor_c
            + surface_share * into_surface_w;

        let half_out_w_k = 0.5 * (mass_out_w_k + self.outside_to_mass_w_k);
        let held_w_k = self.mass_j_k / step_s;
        let mass_end_c = (mass_c * (held_w_k - half_out_w_k) + into_mass_w) / (held_w_k + half_out_w_k);
        let mass_mean_c = 0.5 * (mass_c + mass_end_c);
        let mass_to_surface_w_k = self.mass_to_surface_w_k();
        let surface_c =
            (mass_to_surface_w_k * mass_mean_c + into_surface_w) / (mass_to_surface_w_k + surface_out_w_k);
        let air_c = (self.surface_to_air_w_k * surface_c + self.ventilation_w_k * hour.supply_c + into_air_w)
            / (self.surface_to_air_w_k + self.ventilation_w_k);
        HourEnd { mass_c: mass_end_c, surface_c, air_c }
    }

    /// A step under a thermostat.
    ///
    /// The air is linear in the plant's power; the standard, too, finds the line from two powers.
    ///
    /// - `mass_c`     mass at the beginning of the step [°C]
    /// - `hour`       what drives the box
    /// - `setpoints`  between which the air may float
    /// - `plant`      what it gives at most
    /// - `step_s`     length of the step [s], above 0
    ///
    /// Returns heat into the air from the plant [W], above 0 heating, below 0 cooling, and where the box stands.
    ///
    /// Source: ISO 13790:2008, C.4.2.
    pub fn hold(
        &self,
        mass_c: f64,
        hour: &Hour,
        setpoints: Setpoints,
        plant: Plant,
        step_s: f64,
    ) -> (f64, HourEnd) {
        /// Any power would do; this is ten watts to each of a hundred square meters.
        const TRIAL_W: f64 = 1000.0;
        let free = self.step(mass_c, hour, 0.0, step_s);
        let air_k_per_w = (self.step(mass_c, hour, TRIAL_W, step_s).air_c - free.air_c) / TRIAL_W;
        let power_w = required_w(free.air_c, air_k_per_w, setpoints, plant);
        if power_w == 0.0 { (power_w, free) } else { (power_w, self.step(mass_c, hour, power_w, step_s)) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cooling_load::network::{Drive, Network};

    const BOX: HourlyBox = HourlyBox {
        faces_m2: 45.0,
        mass_m2: 25.0,
        mass_j_k: 8e5,
        surface_to_air_w_k: SURFACE_TO_AIR_W_M2_K * 45.0,
        outside_to_mass_w_k: 56.0,
        windows_w_k: 9.0,
        ventilation_w_k: 6.0,
    };
    const HOUR: Hour = Hour { outdoor_c: 35.0, supply_c: 33.0, internal_w: 250.0, solar_w: 600.0 };

    #[test]
    fn at_rest_it_is_the_network() {
        let rest_c = (0..1000).fold(20.0, |mass_c, _| BOX.step(mass_c, &HOUR, -300.0, 3600.0).mass_c);
        let end = BOX.step(rest_c, &HOUR, -300.0, 3600.0);
        let network = Network {
            air_j_k: 1e5,
            mass_j_k: BOX.mass_j_k,
            surface_to_air_w_k: BOX.surface_to_air_w_k,
            mass_to_surface_w_k: BOX.mass_to_surface_w_k(),
            outside_to_mass_w_k: BOX.outside_to_mass_w_k,
            windows_w_k: BOX.windows_w_k,
            floor_load: None,
        };
        let mass_share = 25.0 / 45.0;
        let drive = Drive {
            outdoor_c: HOUR.outdoor_c,
            supply_c: HOUR.supply_c,
            equivalent_c: HOUR.outdoor_c,
            air_w: 125.0 - 300.0,
            surface_w: (1.0 - mass_share - 9.0 / (9.1 * 45.0)) * 725.0,
            mass_w: mass_share * 725.0,
            floor_load_w: 0.0,
        };
        let state = network.steady(BOX.ventilation_w_k, &drive).unwrap();
        assert!((end.mass_c - state.mass_c).abs() < 1e-11 && (end.air_c - state.air_c).abs() < 1e-11);
        assert!((end.surface_c - network.surface_c(&state, &drive)).abs() < 1e-11);
    }

    #[test]
    fn without_windows_and_ventilation_only_the_opaque_faces_let_heat_through() {
        let closed = HourlyBox { windows_w_k: 0.0, ventilation_w_k: 0.0, ..BOX };
        let dark = Hour { internal_w: 0.0, solar_w: 0.0, ..HOUR };
        let end = closed.step(35.0, &dark, 0.0, 3600.0);
        assert!([end.mass_c, end.surface_c, end.air_c].iter().all(|at_c| (at_c - 35.0).abs() < 1e-12));
        assert_eq!(HourlyBox { outside_to_mass_w_k: 0.0, ..closed }.longest_step_s(), f64::INFINITY);
    }

    #[test]
    fn beyond_its_longest_step_the_mass_swings() {
        let dark = Hour { supply_c: 35.0, internal_w: 0.0, solar_w: 0.0, ..HOUR };
        let most_s = BOX.longest_step_s();
        assert!((BOX.step(20.0, &dark, 0.0, most_s).mass_c - 35.0).abs() < 1e-12);
        assert!(BOX.step(20.0, &dark, 0.0, 0.9 * most_s).mass_c < 35.0);
        assert!(BOX.step(20.0, &dark, 0.0, 1.1 * most_s).mass_c > 35.0);
    }

    #[test]
    fn the_air_is_held_as_long_as_the_plant_can() {
        let setpoints = Setpoints { heat_c: 18.0, cool_c: 25.0 };
        let (power_w, end) = BOX.hold(28.0, &HOUR, setpoints, Plant::UNLIMITED, 3600.0);
        assert!(power_w < -500.0 && (end.air_c - 25.0).abs() < 1e-12);
        let small = Plant { heat_w: 0.0, cool_w: 500.0 };
        let (power_w, end) = BOX.hold(28.0, &HOUR, setpoints, small, 3600.0);
        assert!(power_w == -500.0 && end.air_c > 25.0);
        let (power_w, _) = BOX.hold(22.0, &HOUR, Setpoints::NONE, Plant::UNLIMITED, 3600.0);
        assert_eq!(power_w, 0.0);
    }
}
