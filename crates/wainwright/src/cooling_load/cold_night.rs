//! The cold night: what heat it takes, and where it drips.

use crate::air::dew_point::dew_point_c;
use crate::air::humidity::vapor_pa;
use crate::air::properties::{specific_heat_j_kg_k, volume_m3_kg};
use crate::air::saturation::saturated_ratio;
use crate::build::Facing;
use crate::site_weather::ColdNight;
use crate::standards::still_air::inside_m2_k_w;

use super::body::{Body, Season, Sums, flow};
use super::envelope::surface_temperature::{factor, surface_by_factor_c};
use super::equipment::heating::night_load_w;
use super::exchange::Exchange;

/// How humid the cold air outside is taken to be: near saturation (chosen here).
const OUTDOOR_HUMIDITY: f64 = 0.9;
/// Humidity of the air inside is taken to be no more than this: beyond it water runs down the coldest places.
const MOST_HUMIDITY: f64 = 0.8;

/// The box on the cold night.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NightLoad {
    /// Air outside [°C].
    pub outdoor_c: f64,
    /// Air inside [°C].
    pub indoor_c: f64,
    /// Through roof, walls and floor [W].
    pub opaque_w: f64,
    /// Through windows [W].
    pub windows_w: f64,
    /// With the air that comes in [W].
    pub air_w: f64,
    /// Dry air that comes in [kg/s].
    pub air_kg_s: f64,
    /// What all of it comes to for each degree [W/K].
    pub w_k: f64,
}

impl NightLoad {
    /// The steady load, without sun and without anything else that heats: 0 where it is warm outside.
    ///
    /// `Q = (Σ U A + ṁ c)(T_i − T_o)`
    ///
    /// - `sums`         what surfaces and windows come to in winter's wind
    /// - `exchange`     how air gets in
    /// - `night`        the night
    /// - `wind_m_s`     its wind [m/s]
    /// - `indoor_c`     what the box is held at T_i [°C]
    /// - `pressure_pa`  pressure [Pa]
    ///
    /// Source: steady heat balance.
    pub fn of(
        sums: &Sums,
        exchange: &Exchange,
        night: &ColdNight,
        wind_m_s: f64,
        indoor_c: f64,
        pressure_pa: f64,
    ) -> Self {
        let outdoor_c = night.air_c;
        let ratio = OUTDOOR_HUMIDITY * saturated_ratio(outdoor_c, pressure_pa);
        let volume_m3_kg = volume_m3_kg(outdoor_c, ratio, pressure_pa);
        let air_kg_s = exchange.flow_m3_s(indoor_c - outdoor_c, wind_m_s) / volume_m3_kg;
        let through = |w_k: f64| night_load_w(w_k, 0.0, indoor_c, outdoor_c);
        let opaque_w_k: f64 = sums.opaque_w_k.iter().sum();
        let air_w_k = air_kg_s * specific_heat_j_kg_k(ratio);
        Self {
            outdoor_c,
            indoor_c,
            opaque_w: through(opaque_w_k),
            windows_w: through(sums.windows_w_k),
            air_w: night_load_w(0.0, air_w_k, indoor_c, outdoor_c),
            air_kg_s,
            w_k: opaque_w_k + sums.windows_w_k + air_w_k,
        }
    }

    /// All of it [W].
    pub fn sum_w(&self) -> f64 {
        self.opaque_w + self.windows_w + self.air_w
    }
}

/// The inside of a surface on the cold night.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsideFace<'b> {
    /// The surface or the window.
    pub id: &'b str,
    /// Is it a window?
    pub is_window: bool,
    /// Its inside [°C].
    pub inside_c: f64,
    /// The coldest place of it, over a post [°C], where its layers say.
    pub coldest_c: Option<f64>,
}

impl InsideFace<'_> {
    /// The coldest of it [°C].
    pub fn lowest_c(&self) -> f64 {
        self.coldest_c.map_or(self.inside_c, |coldest_c| coldest_c.min(self.inside_c))
    }
}

/// How damp the box is on the cold night, and how cold its insides are.
#[derive(Debug, Clone, PartialEq)]
pub struct Damp<'b> {
    /// Humidity ratio inside at rest [kg/kg].
    pub ratio: f64,
    /// Dew point inside [°C].
    pub dew_point_c: f64,
    /// Surfaces and windows.
    pub faces: Vec<InsideFace<'b>>,
}

/// How damp the box is at rest, and how cold its insides are.
///
/// `W_i = W_o + g / ṁ`
///
/// - `load`         the night
/// - `body`         the box in winter
/// - `film_w_m2_k`  film outside [W/(m²·K)]
/// - `water_kg_s`   water set free inside g [kg/s]
/// - `pressure_pa`  pressure [Pa]
///
/// Source: mass balance of the water at rest.
pub fn damp<'b>(
    load: &NightLoad,
    body: &Body<'b>,
    film_w_m2_k: f64,
    water_kg_s: f64,
    pressure_pa: f64,
) -> Damp<'b> {
    let outdoor_ratio = OUTDOOR_HUMIDITY * saturated_ratio(load.outdoor_c, pressure_pa);
    let most_ratio = MOST_HUMIDITY * saturated_ratio(load.indoor_c, pressure_pa);
    let added = if water_kg_s > 0.0 { water_kg_s / load.air_kg_s } else { 0.0 };
    let ratio = (outdoor_ratio + added).min(most_ratio.max(outdoor_ratio));
    let (indoor_c, outdoor_c) = (load.indoor_c, load.outdoor_c);
    let of_surfaces = body.opaque.iter().map(|one| {
        let u_w_m2_k = 1.0 / (one.inner_m2_k_w + 1.0 / film_w_m2_k);
        let inside = factor(u_w_m2_k, inside_m2_k_w(flow(one.facing, Season::Winter)));
        InsideFace {
            id: one.id,
            is_window: false,
            inside_c: surface_by_factor_c(indoor_c, outdoor_c, inside),
            coldest_c: one.coldest_share.map(|share| surface_by_factor_c(indoor_c, outdoor_c, share)),
        }
    });
    let of_windows = body.panes.iter().map(|pane| {
        let facing = if pane.facing == Facing::Roof { Facing::Roof } else { Facing::Left };
        let inside = factor(pane.u_w_m2_k, inside_m2_k_w(flow(facing, Season::Winter)));
        InsideFace {
            id: pane.id,
            is_window: true,
            inside_c: surface_by_factor_c(indoor_c, outdoor_c, inside.max(0.0)),
            coldest_c: None,
        }
    });
    Damp {
        ratio,
        dew_point_c: dew_point_c(vapor_pa(ratio, pressure_pa)),
        faces: of_surfaces.chain(of_windows).collect(),
    }
}
