//! The box of the standard as the network takes it, hour by hour.

use wainwright::cooling_load::envelope::films::{outside_w_m2_k, radiative_w_m2_k};
use wainwright::cooling_load::envelope::glazing::{Glass, sun_let_in_w_m2};
use wainwright::cooling_load::envelope::layers::resistance_m2_k_w;
use wainwright::cooling_load::envelope::sol_air::{sky_loss_w_m2, sol_air_c};
use wainwright::cooling_load::network::inside_exchange::{InsideExchange, RADIATIVE_W_M2_K, inside_exchange};
use wainwright::cooling_load::network::nodes::outside_to_mass_w_k;
use wainwright::cooling_load::network::{Drive, Network};

use crate::double_glazing;
use crate::left_to_the_program::{WALL_SKY_SHARE, beside_the_walls_m_s};
use crate::weather::{Hour, ROOF, SOUTH};

/// A layer: thickness [m], conductivity [W/(m K)], density [kg/m³], specific heat [J/(kg K)].
type Layer = (f64, f64, f64, f64);

/// What a face is made of.
#[derive(Debug, Clone, Copy)]
pub struct Construction {
    /// Layers from the outside in.
    layers: &'static [Layer],
}

impl Construction {
    /// Resistance from surface to surface [m²·K/W].
    fn m2_k_w(&self) -> f64 {
        self.layers.iter().map(|layer| resistance_m2_k_w(layer.0, layer.1)).sum()
    }

    /// Heat capacity of the layer inside the insulation [J/(m² K)].
    fn j_m2_k(&self) -> f64 {
        self.layers.last().map_or(0.0, |layer| layer.0 * layer.2 * layer.3)
    }
}

/// A box 8 m by 6 m by 2.7 m.
#[derive(Debug, Clone, Copy)]
pub struct Cell {
    pub wall: Construction,
    pub roof: Construction,
    pub floor: Construction,
    /// Windows to north, east, south and west [m²].
    pub windows_m2: [f64; 4],
}

const SIDING: Layer = (0.009, 0.14, 530.0, 900.0);
const ROOF_OF_ALL: Construction = Construction {
    layers: &[(0.019, 0.14, 530.0, 900.0), (0.1118, 0.04, 12.0, 840.0), (0.010, 0.16, 950.0, 840.0)],
};
const TO_SOUTH: [f64; 4] = [0.0, 0.0, 12.0, 0.0];

/// Of wood and plasterboard: case 600.
pub const LIGHT: Cell = Cell {
    wall: Construction { layers: &[SIDING, (0.066, 0.04, 12.0, 840.0), (0.012, 0.16, 950.0, 840.0)] },
    roof: ROOF_OF_ALL,
    floor: Construction { layers: &[(1.003, 0.04, 0.0, 0.0), (0.025, 0.14, 650.0, 1200.0)] },
    windows_m2: TO_SOUTH,
};
/// Of concrete: case 900.
pub const HEAVY: Cell = Cell {
    wall: Construction { layers: &[SIDING, (0.0615, 0.04, 10.0, 1400.0), (0.1, 0.51, 1400.0, 1000.0)] },
    roof: ROOF_OF_ALL,
    floor: Construction { layers: &[(1.007, 0.04, 0.0, 0.0), (0.08, 1.13, 1400.0, 1000.0)] },
    windows_m2: TO_SOUTH,
};
/// Case 600 with its windows to east and west: case 620.
pub const LIGHT_EAST_WEST: Cell = Cell { windows_m2: [0.0, 6.0, 0.0, 6.0], ..LIGHT };

/// Walls to north, east, south and west, windows counted in [m²].
pub const WALLS_M2: [f64; 4] = [21.6, 16.2, 21.6, 16.2];
pub const FLOOR_M2: f64 = 48.0;
pub const FACES_M2: f64 = 171.6;
const VOLUME_M3: f64 = 129.6;

/// Air that comes in, and that the fan brings, at the density of sea level [kg/s].
///
/// Source: ASHRAE Standard 140-2020: half the room an hour, and 1700 m³/h, less by the thinner air of 1650 m: 0.414 of the
/// room, and 1409 m³/h.
const LEAKS_KG_S: f64 = 0.414 * VOLUME_M3 * SEA_LEVEL_KG_M3 / 3600.0;
const FAN_KG_S: f64 = 1409.0 * SEA_LEVEL_KG_M3 / 3600.0;
const SEA_LEVEL_KG_M3: f64 = 1.204;
const AIR_KG_M3: f64 = SEA_LEVEL_KG_M3 * 0.414 / 0.5;
const AIR_J_KG_K: f64 = 1006.0;

/// Heat set free in the box [W], and the share of it that goes to the air.
const INTERNAL_W: f64 = 200.0;
const INTERNAL_TO_AIR: f64 = 0.4;
const ABSORPTANCE: f64 = 0.6;
const EMITTANCE: f64 = 0.9;

impl Cell {
    fn opaque_m2(&self, wall: usize) -> f64 {
        WALLS_M2[wall] - self.windows_m2[wall]
    }

    /// Heat capacity of the mass [J/K], and its effective area [m²].
    ///
    /// `C_m = Σ A κ`, `A_m = C_m² / Σ A κ²`
    ///
    /// Source: ISO 13790:2008, 12.2.2 and 12.3.1.
    fn mass(&self) -> (f64, f64) {
        let walls_m2: f64 = (0..4).map(|wall| self.opaque_m2(wall)).sum();
        let parts = [(walls_m2, self.wall), (FLOOR_M2, self.roof), (FLOOR_M2, self.floor)];
        let sum = |power: i32| {
            parts.iter().map(|(m2, construction)| m2 * construction.j_m2_k().powi(power)).sum::<f64>()
        };
        (sum(1), sum(1) * sum(1) / sum(2))
    }

    /// Heat carried by the air that is exchanged [W/K].
    pub fn ventilation_w_k(&self, fan: bool) -> f64 {
        AIR_J_KG_K * (LEAKS_KG_S + if fan { FAN_KG_S } else { 0.0 })
    }

    /// The box in an hour: its network and what drives it.
    ///
    /// - `convective_w_m2_k`  exchange of the inner faces with the air [W/(m² K)]
    pub fn in_hour(&self, hour: &Hour, convective_w_m2_k: f64) -> (Network, Drive) {
        let wind_m_s = beside_the_walls_m_s(hour.wind_m_s);
        let [opaque_film, glass_film] = [EMITTANCE, double_glazing::EMITTANCE]
            .map(|emittance| outside_w_m2_k(wind_m_s, radiative_w_m2_k(emittance, hour.air_c)));
        let InsideExchange { to_air_w_m2_k, to_face_w_m2_k } =
            inside_exchange(convective_w_m2_k, RADIATIVE_W_M2_K);
        let inside_m2_k_w = 1.0 / to_face_w_m2_k;

        // The opaque faces, and the temperature that all of them together have before them.
        let u_w_m2_k =
            |construction: &Construction| 1.0 / (inside_m2_k_w + construction.m2_k_w() + 1.0 / opaque_film);
        let before = |face: usize, sky_share: f64| {
            let lost_w_m2 = sky_loss_w_m2(sky_share, EMITTANCE, hour.air_c, hour.infrared_w_m2);
            let sun_w_m2 = hour.falling[face].total_w_m2();
            sol_air_c(hour.air_c, sun_w_m2, ABSORPTANCE, lost_w_m2, opaque_film)
        };
        let floor_w_k = u_w_m2_k(&self.floor) * FLOOR_M2;
        let roof_w_k = u_w_m2_k(&self.roof) * FLOOR_M2;
        let (mut opaque_w_k, mut by_temperature_w) =
            (floor_w_k + roof_w_k, floor_w_k * hour.air_c + roof_w_k * before(ROOF, 1.0));
        for wall in 0..4 {
            let wall_w_k = u_w_m2_k(&self.wall) * self.opaque_m2(wall);
            opaque_w_k += wall_w_k;
            by_temperature_w += wall_w_k * before(wall, WALL_SKY_SHARE);
        }

        // The windows: they let in sun, and lose to the sky what the air does not.
        let outside_m2_k_w = 1.0 / glass_film;
        let glass = Glass {
            panes: 2,
            shgc: double_glazing::shgc(inside_m2_k_w, outside_m2_k_w),
            share_past_cover: 1.0,
        };
        let windows_m2: f64 = self.windows_m2.iter().sum();
        let windows_w_k = windows_m2 / (inside_m2_k_w + double_glazing::glass_m2_k_w() + outside_m2_k_w);
        let lost_w_m2 =
            sky_loss_w_m2(WALL_SKY_SHARE, double_glazing::EMITTANCE, hour.air_c, hour.infrared_w_m2);
        let sun_w: f64 = (0..4)
            .filter(|wall| self.windows_m2[*wall] > 0.0)
            .map(|wall| self.windows_m2[wall] * sun_let_in_w_m2(glass, hour.falling[wall]))
            .sum();

        let (mass_j_k, mass_m2) = self.mass();
        let mass_to_surface_w_k = to_face_w_m2_k * mass_m2;
        let network = Network {
            air_j_k: AIR_KG_M3 * VOLUME_M3 * AIR_J_KG_K,
            mass_j_k,
            surface_to_air_w_k: to_air_w_m2_k * FACES_M2,
            mass_to_surface_w_k,
            outside_to_mass_w_k: outside_to_mass_w_k(opaque_w_k, mass_to_surface_w_k).unwrap(),
            windows_w_k,
            floor_load: None,
        };
        let radiant_w =
            (1.0 - INTERNAL_TO_AIR) * INTERNAL_W + sun_w - windows_w_k * lost_w_m2 * outside_m2_k_w;
        let mass_share = mass_m2 / FACES_M2;
        let lost_share = windows_w_k / (to_face_w_m2_k * FACES_M2);
        let drive = Drive {
            outdoor_c: hour.air_c,
            supply_c: hour.air_c,
            equivalent_c: by_temperature_w / opaque_w_k,
            air_w: INTERNAL_TO_AIR * INTERNAL_W,
            surface_w: (1.0 - mass_share - lost_share) * radiant_w,
            mass_w: mass_share * radiant_w,
            floor_load_w: 0.0,
        };
        (network, drive)
    }
}

/// Source: ASHRAE Standard 140-2020 names 12 m² of windows to the south; areas by the box's sides.
#[test]
fn the_faces_make_up_the_box() {
    assert!((WALLS_M2.iter().sum::<f64>() + 2.0 * FLOOR_M2 - FACES_M2).abs() < 1e-12);
    assert!((8.0 * 6.0 * 2.7 - VOLUME_M3).abs() < 1e-12);
    assert!((LIGHT.opaque_m2(SOUTH) - 9.6).abs() < 1e-12);
}
