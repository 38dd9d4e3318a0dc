//! What the battery's temperature leaves of it, step by step.

use super::battery_temperature::{
    following_c, lead_acid_multiplier, lithium_iron_phosphate_acceptance, lithium_iron_phosphate_capacity,
};

/// A heater comes on below this temperature of the battery [°C], where a charge of lithium iron phosphate would be held
/// to half.
///
/// Source: `common practice`.
pub const HEATER_C: f64 = 5.0;

/// How a battery stands to temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Temper {
    /// Is it lead-acid? Otherwise it is lithium iron phosphate.
    pub is_lead: bool,
    /// Share of its rated energy that is drawn at most, warm.
    pub usable: f64,
    /// Time constant with which it follows the air [h]; 0 where it is as warm as the air.
    pub lag_h: f64,
    /// Power of its heater [W], where it has one.
    pub heater_w: Option<f64>,
}

/// What temperature leaves of a battery through a series.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Through {
    /// Its temperature at the end of each step [°C].
    pub battery_c: Vec<f64>,
    /// Share of the rated energy that may be drawn.
    pub usable: Vec<f64>,
    /// Share of the greatest charging power that may go in.
    pub acceptance: Vec<f64>,
    /// Steps in which the heater is on, where there is one.
    pub heated: Vec<bool>,
}

impl Temper {
    /// Share of its rated energy that may be drawn at a temperature.
    ///
    /// `u = usable × capacity`, that of 25 °C (lead-acid 80 °F) at most
    ///
    /// - `battery_c`  its temperature [°C]
    pub fn usable_at(&self, battery_c: f64) -> f64 {
        let capacity = if self.is_lead {
            1.0 / lead_acid_multiplier(battery_c)
        } else {
            lithium_iron_phosphate_capacity(battery_c)
        };
        self.usable * capacity
    }

    /// Share of the greatest charging power that may go in at a temperature.
    ///
    /// - `battery_c`  its temperature [°C]
    pub fn acceptance_at(&self, battery_c: f64) -> f64 {
        if self.is_lead { 1.0 } else { lithium_iron_phosphate_acceptance(battery_c) }
    }

    /// Follows the air through a series.
    ///
    /// - `air_c`   temperature of the air around it, one a step [°C]; the battery starts as warm as the first
    /// - `step_h`  length of a step [h]
    /// - `lit`     is there light on the arrays, one a step? A heater comes on only then
    pub fn through(&self, air_c: &[f64], step_h: f64, lit: impl Fn(usize) -> bool) -> Through {
        let mut through = Through {
            battery_c: Vec::with_capacity(air_c.len()),
            usable: Vec::with_capacity(air_c.len()),
            acceptance: Vec::with_capacity(air_c.len()),
            heated: Vec::new(),
        };
        let kept = if self.lag_h > 0.0 { following_c(1.0, 0.0, self.lag_h, step_h) } else { 0.0 };
        let mut battery_c = air_c.first().copied().unwrap_or(0.0);
        for (step, &air_c) in air_c.iter().enumerate() {
            battery_c = air_c + (battery_c - air_c) * kept;
            let heated = self.heater_w.is_some() && battery_c < HEATER_C && lit(step);
            if self.heater_w.is_some() {
                through.heated.push(heated);
            }
            through.battery_c.push(battery_c);
            through.usable.push(self.usable_at(battery_c));
            through.acceptance.push(if heated { 1.0 } else { self.acceptance_at(battery_c) });
        }
        through
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LITHIUM: Temper = Temper { is_lead: false, usable: 0.9, lag_h: 6.0, heater_w: None };

    #[test]
    fn a_cold_battery_gives_less_and_takes_nothing() {
        let through = LITHIUM.through(&[25.0, -10.0, -10.0], 1000.0, |_| true);
        assert_eq!(through.usable[0], 0.9);
        assert!((through.usable[2] - 0.9 * 0.775).abs() < 1e-12);
        assert_eq!((through.acceptance[0], through.acceptance[2]), (1.0, 0.0));
    }

    #[test]
    fn a_heater_opens_the_way_for_a_charge_while_there_is_light() {
        let heated = Temper { heater_w: Some(40.0), ..LITHIUM };
        let through = heated.through(&[-10.0; 2], 1.0, |step| step == 1);
        assert_eq!((through.heated, through.acceptance), (vec![false, true], vec![0.0, 1.0]));
    }

    #[test]
    fn lead_acid_is_charged_in_the_cold_too() {
        let lead = Temper { is_lead: true, usable: 0.5, lag_h: 0.0, heater_w: None };
        let through = lead.through(&[0.0, 40.0], 1.0, |_| false);
        assert_eq!(through.acceptance, [1.0, 1.0]);
        assert!(through.usable[0] < 0.37 && through.usable[1] == 0.5, "{:?}", through.usable);
    }

    #[test]
    fn it_follows_the_air_and_never_passes_it() {
        let through = LITHIUM.through(&[20.0, 0.0, 0.0, 0.0], 1.0, |_| false);
        assert!(through.battery_c.windows(2).all(|pair| pair[1] <= pair[0] && pair[1] > 0.0));
        assert!((through.battery_c[3] - 20.0 * (-0.5_f64).exp()).abs() < 1e-12);
    }
}
