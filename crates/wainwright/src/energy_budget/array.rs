//! A solar array through a series of weather: its light, the heat of its cells, its power.

use crate::sky::clock::Day;
use crate::sky::incidence::{
    ANGULAR_LOSS, MartinRuiz, martin_ruiz_ground_modifier, martin_ruiz_sky_modifier,
};
use crate::sky::plane::{Falling, Plane};
use crate::sky::sun::Direction;
use crate::sky::weather::Weather;

use super::cell_temperature::heat_loss_c;
use super::module_power::module_w;
use super::shade::{ModuleLight, bypassed_share};

/// Share of the light that a module takes in, for its heat.
const ABSORBED: f64 = 0.9;
/// Share of that which counts as turned to electricity, for its heat; it goes with the heat losses of the mounts.
const HEAT_EFFICIENCY: f64 = 0.1;

/// What a module gets to see less of than the open sky.
#[derive(Debug, Clone, PartialEq)]
pub struct Shade {
    /// Share of the beam kept out in each hour of the day.
    pub by_hour: Option<[f64; 24]>,
    /// Share of the beam kept out in each month.
    pub by_month: Option<[f64; 12]>,
    /// Share of the sky that it sees, 0 to 1.
    pub sky_view: f64,
    /// Groups of cells with a bypass diode each, where a shaded group is lost whole.
    pub bypass_groups: Option<f64>,
}

impl Shade {
    /// Nothing in the way.
    pub const NONE: Self = Self { by_hour: None, by_month: None, sky_view: 1.0, bypass_groups: None };

    /// Is no beam ever kept out?
    fn is_open(&self) -> bool {
        self.by_hour.is_none() && self.by_month.is_none()
    }

    /// Share of the beam kept out in a step: by the hour and by the month, one behind the other.
    fn of(&self, day: &Day, step: usize, step_min: u32) -> f64 {
        let minute = day.first_min as usize + (step - day.steps.start) * step_min as usize;
        let by_hour = self.by_hour.as_ref().map_or(0.0, |hours| hours[minute / 60 % 24]);
        let by_month = self.by_month.as_ref().map_or(0.0, |months| months[usize::from(day.month() - 1) % 12]);
        1.0 - (1.0 - by_hour) * (1.0 - by_month)
    }
}

/// An array: modules of one kind in one plane.
#[derive(Debug, Clone, PartialEq)]
pub struct Array {
    plane: Plane,
    beam_modifier: MartinRuiz,
    sky_modifier: f64,
    ground_modifier: f64,
    /// Rated power of all its modules [W].
    pub rated_w: f64,
    /// Change of power with temperature [1/°C], 0 or below.
    pub gamma_per_c: f64,
    /// Heat its modules lose [W/(m²·K)], by their mount.
    pub heat_loss_w_per_m2_k: f64,
    /// Share of the light that dirt keeps out, 0 to 1.
    pub soiling: f64,
    /// Share of the power lost to wiring, connections and unlike modules, 0 to 1.
    pub loss: f64,
    /// What stands in the way of its light.
    pub shade: Shade,
}

/// A step of an array that has light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LitStep {
    /// Which step.
    pub step: usize,
    /// What falls on the open plane [W/m²].
    pub plane_w_m2: f64,
    /// What reaches the cells [W/m²].
    pub effective_w_m2: f64,
    /// Temperature of the cells [°C].
    pub cell_c: f64,
    /// Share of the power that bypassed cells leave.
    pub bypassed: f64,
}

impl Array {
    /// An array behind plain glass, its reflections those of Martin and Ruiz.
    ///
    /// - `tilt_rad`, `azimuth_rad`, `albedo`  as for [`Plane::new`]
    /// - `rated_w`, `gamma_per_c`             as in [`module_w`]
    /// - `heat_loss_w_per_m2_k`               as in [`heat_loss_c`]
    pub fn new(
        (tilt_rad, azimuth_rad, albedo): (f64, f64, f64),
        rated_w: f64,
        gamma_per_c: f64,
        heat_loss_w_per_m2_k: f64,
    ) -> Self {
        Self {
            plane: Plane::new(tilt_rad, azimuth_rad, albedo),
            beam_modifier: MartinRuiz::of(ANGULAR_LOSS),
            sky_modifier: martin_ruiz_sky_modifier(tilt_rad, ANGULAR_LOSS),
            ground_modifier: martin_ruiz_ground_modifier(tilt_rad, ANGULAR_LOSS),
            rated_w,
            gamma_per_c,
            heat_loss_w_per_m2_k,
            soiling: 0.0,
            loss: 0.0,
            shade: Shade::NONE,
        }
    }

    /// Walks through the steps of a series that have light.
    ///
    /// - `weather`, `days`, `suns`  as for [`Plane::walk`]
    /// - `lit`                      called with each
    #[inline]
    pub fn walk(&self, weather: &Weather, days: &[Day], suns: &[Direction], mut lit: impl FnMut(LitStep)) {
        let air_c = &weather.air_c;
        if self.shade.is_open() {
            // Most arrays stand open, and nothing of shade is left in their steps.
            self.plane.walk(weather, days, suns, |_, step, falling| {
                lit(self.lit(step, falling, 0.0, air_c[step]));
            });
        } else {
            let step_min = weather.clock.step_min();
            self.plane.walk(weather, days, suns, |day, step, falling| {
                let shaded = self.shade.of(day, step, step_min);
                lit(self.lit(step, falling, shaded, air_c[step]));
            });
        }
    }

    #[inline(always)]
    fn lit(&self, step: usize, falling: Falling, shaded: f64, air_c: f64) -> LitStep {
        let kept = 1.0 - self.soiling;
        let light = ModuleLight {
            beam_w_m2: kept * falling.beam_w_m2 * self.beam_modifier.modifier(falling.cos_incidence),
            sky_w_m2: kept * falling.sky_w_m2 * self.sky_modifier,
            ground_w_m2: kept * falling.ground_w_m2 * self.ground_modifier,
        };
        let warming = ModuleLight {
            beam_w_m2: falling.beam_w_m2,
            sky_w_m2: falling.sky_w_m2,
            ground_w_m2: falling.ground_w_m2,
        };
        let sky_view = self.shade.sky_view;
        // The rise goes with the light: that in 1 W/m² is the same in all steps, and worked out once.
        let rise_k_m2_per_w = heat_loss_c(1.0, 0.0, self.heat_loss_w_per_m2_k, ABSORBED, HEAT_EFFICIENCY);
        let cell_c = air_c + rise_k_m2_per_w * warming.effective_w_m2(shaded, sky_view);
        // A shaded group of cells is lost whole: its light does not count as dimmed beside that.
        let (dimmed, bypassed) = match self.shade.bypass_groups {
            Some(groups) if shaded > 0.0 => (0.0, bypassed_share(shaded, groups, light.beam_share())),
            _ => (shaded, 1.0),
        };
        let effective_w_m2 = light.effective_w_m2(dimmed, sky_view);
        LitStep { step, plane_w_m2: falling.total_w_m2(), effective_w_m2, cell_c, bypassed }
    }

    /// Greatest power of a step after losses [W].
    ///
    /// `P = G P_module(1 W/m²) (1 − loss)`, [`module_w`] with what bypassed cells leave
    #[inline]
    pub fn power_w(&self, lit: &LitStep) -> f64 {
        // The power goes with the light: that of 1 W/m² leaves the step no division.
        let per_w_m2 = module_w(1.0, lit.cell_c, self.rated_w, self.gamma_per_c);
        lit.effective_w_m2 * (per_w_m2 * lit.bypassed * (1.0 - self.loss))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::energy_budget::cell_temperature::INSULATED_LOSS_W_PER_M2_K;
    use crate::sky::clock::Clock;

    fn noon(shade: Shade) -> LitStep {
        let mut array = Array::new((0.0, 0.0, 0.2), 400.0, -0.0035, INSULATED_LOSS_W_PER_M2_K);
        array.shade = shade;
        let falling = Falling { cos_incidence: 0.9, beam_w_m2: 600.0, sky_w_m2: 100.0, ground_w_m2: 0.0 };
        let shaded = array.shade.of(&Clock::typical_hours().days()[180], 180 * 24 + 12, 60);
        array.lit(0, falling, shaded, 20.0)
    }

    fn hours(at_noon: f64) -> Option<[f64; 24]> {
        let mut hours = [0.0; 24];
        hours[12] = at_noon;
        Some(hours)
    }

    #[test]
    fn shade_of_the_hour_and_of_the_month_stand_one_behind_the_other() {
        let open = noon(Shade::NONE);
        let mut months = [0.0; 12];
        months[5] = 0.5;
        let both = noon(Shade { by_hour: hours(0.5), by_month: Some(months), ..Shade::NONE });
        let beam_w_m2 = 600.0 * MartinRuiz::of(ANGULAR_LOSS).modifier(0.9);
        assert!((open.effective_w_m2 - both.effective_w_m2 - 0.75 * beam_w_m2).abs() < 1e-9);
        assert!(both.cell_c < open.cell_c);
    }

    #[test]
    fn one_shaded_cell_takes_its_whole_group() {
        let touched = noon(Shade { by_hour: hours(0.01), bypass_groups: Some(3.0), ..Shade::NONE });
        let dimmed = noon(Shade { by_hour: hours(0.01), ..Shade::NONE });
        assert_eq!(dimmed.bypassed, 1.0);
        assert!(touched.bypassed < 0.72 && touched.bypassed > 0.66, "{}", touched.bypassed);
    }

    #[test]
    fn dirt_and_a_narrow_sky_take_their_shares() {
        let narrow = noon(Shade { sky_view: 0.0, ..Shade::NONE });
        assert_eq!(narrow.plane_w_m2, 700.0);
        assert!((narrow.effective_w_m2 - 600.0 * MartinRuiz::of(ANGULAR_LOSS).modifier(0.9)).abs() < 1e-9);
    }

    #[test]
    fn a_table_that_keeps_nothing_out_changes_nothing() {
        let of = |value: f64| vec![value; 8760];
        let weather = Weather {
            clock: Clock::typical_hours(),
            ghi_w_m2: of(700.0),
            dni_w_m2: of(750.0),
            dhi_w_m2: of(100.0),
            air_c: of(20.0),
            dew_point_c: None,
            wind_m_s: of(0.0),
        };
        let suns = vec![Direction { east: 0.6, north: 0.0, up: 0.8 }; 8760];
        let walked = |shade: Shade| {
            let mut array = Array::new((0.3, 2.0, 0.2), 400.0, -0.0035, INSULATED_LOSS_W_PER_M2_K);
            array.shade = shade;
            let mut steps = Vec::new();
            array.walk(&weather, &weather.clock.days(), &suns, |lit| steps.push(lit));
            steps
        };
        let open = walked(Shade::NONE);
        assert_eq!(open.len(), 8760);
        assert_eq!(open, walked(Shade { by_hour: hours(0.0), bypass_groups: Some(3.0), ..Shade::NONE }));
        let shaded = walked(Shade { by_hour: hours(0.5), ..Shade::NONE });
        for (step, (open, shaded)) in open.iter().zip(&shaded).enumerate() {
            assert_eq!(shaded.effective_w_m2 < open.effective_w_m2, step % 24 == 12, "{step}");
        }
    }
}
