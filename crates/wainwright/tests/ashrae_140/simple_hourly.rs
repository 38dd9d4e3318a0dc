//! The simple hourly method beside a published model by it, with the inputs of that model.

use wainwright::cooling_load::envelope::glazing::double_factor;
use wainwright::cooling_load::envelope::sol_air::{SKY_DROP_K, usual_sky_loss_w_m2};
use wainwright::cooling_load::network::hourly_13790::{Hour, HourlyBox, MASS_TO_SURFACE_W_M2_K};
use wainwright::cooling_load::network::nodes::outside_to_mass_w_k;
use wainwright::cooling_load::network::thermostat::Plant;

use crate::cell::{FACES_M2, FLOOR_M2, WALLS_M2};
use crate::control::Control;
use crate::published::published;
use crate::weather::{ROOF, denver};
use crate::year::Year;

/// How near a figure must come: a share of it, or kelvin.
const SHARE: f64 = 0.035;
const K: f64 = 0.7;
const OUTSIDE_M2_K_W: f64 = 0.04;

/// Inputs of the published model.
#[derive(Debug, Clone, Copy)]
struct Inputs {
    wall_w_m2_k: f64,
    roof_w_m2_k: f64,
    floor_w_m2_k: f64,
    window_w_m2_k: f64,
    shgc: f64,
    mass_j_m2_k: f64,
    mass_share: f64,
    windows_m2: [f64; 4],
}

const HELD: Inputs = Inputs {
    wall_w_m2_k: 0.53,
    roof_w_m2_k: 0.33,
    floor_w_m2_k: 0.038,
    window_w_m2_k: 3.1,
    shgc: 0.769,
    mass_j_m2_k: 42_167.0,
    mass_share: 2.95,
    windows_m2: [0.0, 0.0, 12.0, 0.0],
};
const FREE: Inputs =
    Inputs { wall_w_m2_k: 0.534, roof_w_m2_k: 0.327, floor_w_m2_k: 0.0377, shgc: 0.789, ..HELD };

impl Inputs {
    fn heavy(self) -> Self {
        Self { mass_j_m2_k: 307_750.0, mass_share: 2.43, ..self }
    }

    /// The year under a control without fan.
    fn year(&self, control: Control) -> Year {
        let walls_m2: [f64; 4] = std::array::from_fn(|wall| WALLS_M2[wall] - self.windows_m2[wall]);
        let (opaque_m2, windows_m2) = (walls_m2.iter().sum::<f64>(), self.windows_m2.iter().sum::<f64>());
        let opaque_w_k = self.wall_w_m2_k * opaque_m2 + (self.roof_w_m2_k + self.floor_w_m2_k) * FLOOR_M2;
        let mass_m2 = self.mass_share * FLOOR_M2;
        let hourly = HourlyBox {
            faces_m2: FACES_M2,
            mass_m2,
            mass_j_k: self.mass_j_m2_k * FLOOR_M2,
            surface_to_air_w_k: 2.1 * FACES_M2,
            outside_to_mass_w_k: outside_to_mass_w_k(opaque_w_k, MASS_TO_SURFACE_W_M2_K * mass_m2).unwrap(),
            windows_w_k: self.window_w_m2_k * windows_m2,
            ventilation_w_k: 0.414 * 129.6 / 3600.0 * 1.2 * 1005.0,
        };
        let [wall_sky_w_m2, roof_sky_w_m2] =
            [0.5, 1.0].map(|share| usual_sky_loss_w_m2(share, 0.9, SKY_DROP_K));
        let to_sky_w = OUTSIDE_M2_K_W
            * (wall_sky_w_m2 * (self.wall_w_m2_k * opaque_m2 + self.window_w_m2_k * windows_m2)
                + roof_sky_w_m2 * self.roof_w_m2_k * FLOOR_M2);
        let mut mass_c = 20.0;
        Year::of(|of_year| {
            let weather = &denver()[of_year];
            let mut solar_w = -to_sky_w;
            for (wall, falling) in weather.falling[..ROOF].iter().enumerate() {
                let let_in = falling.beam_w_m2 * double_factor(falling.cos_incidence)
                    + falling.sky_w_m2
                    + falling.ground_w_m2;
                solar_w += self.windows_m2[wall] * self.shgc * let_in
                    + 0.6 * OUTSIDE_M2_K_W * self.wall_w_m2_k * walls_m2[wall] * falling.total_w_m2();
            }
            solar_w +=
                0.6 * OUTSIDE_M2_K_W * self.roof_w_m2_k * FLOOR_M2 * weather.falling[ROOF].total_w_m2();
            let hour = Hour { outdoor_c: weather.air_c, supply_c: weather.air_c, internal_w: 200.0, solar_w };
            // In an hour through which the setpoint rises its mean counts.
            let setpoints = control.at((of_year % 24) as f64 + 0.5).0;
            let (power_w, end) = hourly.hold(mass_c, &hour, setpoints, Plant::UNLIMITED, 3600.0);
            mass_c = end.mass_c;
            (power_w, end.air_c)
        })
    }
}

/// Asserts that every figure of the published model is met, and counts them.
fn meets(case: &str, year: &Year) -> usize {
    let figures = published(case).into_iter().filter_map(|one| Some((one.quantity, one.simple_hourly?)));
    figures
        .map(|(quantity, figure)| {
            let value = year.quantity(quantity);
            let tolerance = if quantity.ends_with("_c") { K } else { SHARE * figure };
            assert!((value - figure).abs() <= tolerance, "{case}: {quantity} is {value}, not {figure}");
        })
        .count()
}

#[test]
fn every_figure_of_the_published_model_is_met() {
    let east_west = Inputs { windows_m2: [0.0, 6.0, 0.0, 6.0], ..HELD };
    let count = meets("600", &HELD.year(Control::Held))
        + meets("600FF", &FREE.year(Control::Free))
        + meets("900", &HELD.heavy().year(Control::Held))
        + meets("900FF", &FREE.heavy().year(Control::Free))
        + meets("620", &east_west.year(Control::Held))
        + meets("640", &HELD.year(Control::SetBack));
    assert_eq!(count, 20);
}
