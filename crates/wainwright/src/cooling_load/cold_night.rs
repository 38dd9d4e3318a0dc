//! The cold night: what heat it takes, and where it drips.

use crate::air::dew_point::dew_point_c;
use crate::air::humidity::vapor_pa;
use crate::air::properties::{specific_heat_j_kg_k, volume_m3_kg};
use crate::air::saturation::saturated_ratio;
use crate::build::Facing;
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
}

impl NightLoad {
    /// The steady load, without sun and without anything else that heats: 0 where it is warm outside.
    ///
    /// `Q = (Σ U A + ṁ c)(T_i − T_o)`
    ///
    /// - `sums`         what surfaces and windows come to in winter's wind
    /// - `exchange`     how air gets in
    /// - `outdoor_c`    air outside T_o [°C]
    /// - `wind_m_s`     wind [m/s]
    /// - `indoor_c`     what the box is held at T_i [°C]
    /// - `pressure_pa`  pressure [Pa]
    ///
    /// Source: steady heat balance.
    pub fn of(
        sums: &Sums,
        exchange: &Exchange,
        outdoor_c: f64,
        wind_m_s: f64,
        indoor_c: f64,
        pressure_pa: f64,
    ) -> Self {
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
    /// Air inside [°C]: no colder than outdoors.
    pub indoor_c: f64,
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
    // Where it is warmer outside than the heater is set to, it is as warm inside.
    let (indoor_c, outdoor_c) = (load.indoor_c.max(load.outdoor_c), load.outdoor_c);
    let most_ratio = MOST_HUMIDITY * saturated_ratio(indoor_c, pressure_pa);
    let added = if water_kg_s > 0.0 { water_kg_s / load.air_kg_s } else { 0.0 };
    let ratio = (outdoor_ratio + added).min(most_ratio.max(outdoor_ratio));
    let of_surfaces = body.opaque.iter().map(|one| {
        let u_w_m2_k = 1.0 / (one.inner_m2_k_w + 1.0 / film_w_m2_k);
        let inside = factor(u_w_m2_k, inside_m2_k_w(flow(one.facing, Season::Winter)));
        InsideFace {
            id: one.id,
            is_window: false,
            // What holds back less than its film inside is as cold as outdoors.
            inside_c: surface_by_factor_c(indoor_c, outdoor_c, inside.max(0.0)),
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
        indoor_c,
        ratio,
        dew_point_c: dew_point_c(vapor_pa(ratio, pressure_pa)),
        faces: of_surfaces.chain(of_windows).collect(),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;
    use crate::cooling_load::exchange::Gaps;
    use crate::cooling_load::fixture::{assert_same, plain, read, with};

    const SEA_LEVEL_PA: f64 = 101_325.0;
    const FILM_W_M2_K: f64 = 25.0;
    const WIND_M_S: f64 = 6.7;
    const INDOOR_C: f64 = 18.0;
    const GAPS: Exchange = Exchange { gaps: Gaps::Steady(0.006), fan_m3_s: 0.0 };

    /// The night of a box, and how damp it is.
    fn of_box(
        document: &Value,
        air_c: f64,
        exchange: &Exchange,
        water_kg_s: f64,
        check: impl Fn(&NightLoad, &Damp),
    ) {
        let build = read(document);
        let body = Body::of(&build, Season::Winter).unwrap();
        let sums = body.sums(FILM_W_M2_K);
        let load = NightLoad::of(&sums, exchange, air_c, WIND_M_S, INDOOR_C, SEA_LEVEL_PA);
        check(&load, &damp(&load, &body, FILM_W_M2_K, water_kg_s, SEA_LEVEL_PA));
    }

    /// 469 ft² of R 5 are 93.8 BTU/(h·°F), at 25 W/m²K outside as at R_se 0.04; 6 L/s of air of −12 °C weigh 8.1 g.
    #[test]
    fn the_load_is_conductance_times_difference() {
        let windows = json!({"one": {"area_ft2": 10, "facing": "left", "u_value": 0.6}});
        of_box(&with(plain(), "/envelope/windows", windows), -12.0, &GAPS, 0.0, |load, _| {
            let w_k = |btu_h_f: f64| btu_h_f * 0.293_071_070_172 * 1.8;
            assert_same(load.opaque_w, w_k(459.0 / 5.0) * 30.0);
            assert_same(load.windows_w, w_k(6.0) * 30.0);
            let ratio = 0.9 * saturated_ratio(-12.0, SEA_LEVEL_PA);
            let air_kg_s = 0.006 / volume_m3_kg(-12.0, ratio, SEA_LEVEL_PA);
            assert_same(load.air_kg_s, air_kg_s);
            assert_same(load.air_w, air_kg_s * specific_heat_j_kg_k(ratio) * 30.0);
            assert_eq!(format!("{:.1} {:.0}", 1000.0 * load.air_kg_s, load.air_w), "8.1 245");
            assert_same(load.sum_w(), load.opaque_w + load.windows_w + load.air_w);
        });
    }

    #[test]
    fn on_a_warm_night_nothing_is_asked() {
        for air_c in [18.0, 25.0] {
            of_box(&plain(), air_c, &GAPS, 0.0, |load, _| {
                assert_eq!((load.sum_w(), load.opaque_w, load.air_w), (0.0, 0.0, 0.0));
            });
        }
    }

    #[test]
    fn cold_and_wind_drive_more_through_the_gaps() {
        let driven = Exchange {
            gaps: Gaps::Driven { leakage_m2: 0.005, shelter: crate::build::Shelter::Light },
            fan_m3_s: 0.0,
        };
        of_box(&plain(), -12.0, &driven, 0.0, |load, _| {
            let ratio = 0.9 * saturated_ratio(-12.0, SEA_LEVEL_PA);
            let flow_m3_s = load.air_kg_s * volume_m3_kg(-12.0, ratio, SEA_LEVEL_PA);
            assert_same(flow_m3_s, driven.flow_m3_s(30.0, WIND_M_S));
        });
    }

    /// Two sleepers give off 50 W of water, 20 mg/s; in 8.1 g/s of dry air that come in they are 2.5 g/kg.
    #[test]
    fn at_rest_the_air_holds_what_comes_in_and_what_is_given_off() {
        let outdoor = 0.9 * saturated_ratio(-12.0, SEA_LEVEL_PA);
        of_box(&plain(), -12.0, &GAPS, 2e-5, |load, damp| {
            assert_same(damp.ratio, outdoor + 2e-5 / load.air_kg_s);
            assert_same(damp.dew_point_c, dew_point_c(vapor_pa(damp.ratio, SEA_LEVEL_PA)));
            assert_eq!(format!("{:.1}", 1000.0 * (damp.ratio - outdoor)), "2.5");
        });
        of_box(&plain(), -12.0, &GAPS, 0.0, |_, damp| assert_same(damp.ratio, outdoor));
        // Beyond four fifths of saturation water runs down the walls; without air it comes to that, however little it is.
        let sealed = Exchange { gaps: Gaps::Steady(0.0), fan_m3_s: 0.0 };
        for (exchange, water_kg_s) in [(&GAPS, 1e-3), (&sealed, 1e-9)] {
            of_box(&plain(), -12.0, exchange, water_kg_s, |_, damp| {
                assert_same(damp.ratio, 0.8 * saturated_ratio(INDOOR_C, SEA_LEVEL_PA));
            });
        }
        of_box(&plain(), -12.0, &sealed, 0.0, |_, damp| assert_same(damp.ratio, outdoor));
        // Where it is warmer and damper outside than that, it is so inside.
        of_box(&plain(), 30.0, &GAPS, 1e-5, |_, damp| {
            assert_same(damp.ratio, 0.9 * saturated_ratio(30.0, SEA_LEVEL_PA));
        });
    }

    /// `T_si = T_i − U R_si (T_i − T_o)`, over a post by its factor.
    #[test]
    fn insides_are_as_cold_as_their_u_lets_them_be() {
        let framed = json!({"area_ft2": 91, "facing": "left",
            "layers": [{"material": "polyiso", "thickness_in": 1.5}, {"material": "plywood", "thickness_in": 0.126}],
            "posts": {"material": "steel", "depth_in": 1.5, "spacing_in": 16}});
        let document = with(plain(), "/envelope/surfaces/left", framed);
        let windows = json!({"side": {"area_ft2": 4, "facing": "left", "u_value": 0.6}, "hatch": {"area_ft2": 2, "facing": "roof", "u_value": 1.0}});
        of_box(&with(document, "/envelope/windows", windows), -12.0, &GAPS, 0.0, |_, damp| {
            let of = |id: &str| *damp.faces.iter().find(|face| face.id == id).unwrap();
            let u_w_m2_k = |btu: f64| btu * 5.678_263_337;
            assert_eq!(damp.faces.len(), 8);
            for (id, r_si) in [("roof", 0.10), ("floor", 0.17), ("right", 0.13)] {
                let expected_c = 18.0 - u_w_m2_k(0.2) * r_si * 30.0;
                assert!((of(id).inside_c - expected_c).abs() < 1e-6, "{id}");
                assert_eq!((of(id).coldest_c, of(id).is_window), (None, false));
            }
            for (id, u_value, r_si) in [("side", 0.6, 0.13), ("hatch", 1.0, 0.10)] {
                let expected_c = 18.0 - u_w_m2_k(u_value) * r_si * 30.0;
                assert!((of(id).inside_c - expected_c).abs() < 1e-6, "{id}");
                assert!(of(id).is_window);
            }
            let left = of("left");
            // Source: own two-dimensional solution, f_Rsi 0.2747 over the post.
            assert!((left.coldest_c.unwrap() - (-12.0 + 30.0 * 0.2747)).abs() < 0.01);
            assert_eq!(left.lowest_c(), left.coldest_c.unwrap());
            assert!(left.inside_c > left.lowest_c() && of("roof").lowest_c() == of("roof").inside_c);
        });
    }

    /// What is so bad that its film counts for more than all of it is as cold as the air outside, and no colder.
    #[test]
    fn no_inside_is_colder_than_outdoors() {
        let pane = json!({"one": {"area_ft2": 4, "facing": "left", "u_value": 2}});
        let document = with(plain(), "/envelope/surfaces/roof/r_value", json!(0.5));
        of_box(&with(document, "/envelope/windows", pane), -12.0, &GAPS, 0.0, |_, damp| {
            assert_eq!((damp.faces[0].inside_c, damp.faces.last().unwrap().inside_c), (-12.0, -12.0));
        });
    }

    #[test]
    fn on_a_warm_night_it_is_as_warm_inside_and_nothing_drips() {
        of_box(&plain(), 25.0, &GAPS, 1e-5, |_, damp| {
            assert_eq!(damp.indoor_c, 25.0);
            for face in &damp.faces {
                assert_same(face.inside_c, 25.0);
                assert!(damp.dew_point_c < face.lowest_c(), "{}", face.id);
            }
        });
    }
}
