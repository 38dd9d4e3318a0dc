//! A box with a fan and no cooling unit: how warm it gets, and how hot it may be outdoors.

/// A box with a fan, in a steady state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ventilated {
    /// Conductance of the shell with its bridges ΣUA [W/K], 0 or more.
    pub shell_w_k: f64,
    /// By how much the shell's mean sol-air temperature is above the air outdoors Δ [K].
    pub sun_k: f64,
    /// Heat that arises inside or comes through windows Q [W].
    pub gain_w: f64,
}

impl Ventilated {
    /// Heat that comes in where the box is as warm as the air outdoors [W].
    fn burden_w(&self) -> f64 {
        self.shell_w_k * self.sun_k + self.gain_w
    }

    /// Temperature inside.
    ///
    /// `T_i = T_o + (ΣUA Δ + Q) / (ΣUA + ṁc)`
    ///
    /// - `outdoor_c`  temperature outdoors T_o [°C]
    /// - `air_w_k`    heat that the air moved by the fan takes for each degree ṁc [W/K], 0 or more; not 0 with ΣUA
    ///
    /// Returns T_i [°C].
    ///
    /// Source: steady heat balance, `ΣUA (T_o + Δ − T_i) + ṁc (T_o − T_i) + Q = 0`.
    pub fn inside_c(&self, outdoor_c: f64, air_w_k: f64) -> f64 {
        outdoor_c + self.burden_w() / (self.shell_w_k + air_w_k)
    }

    /// The highest temperature outdoors at which the box stays at or below a limit: [`Ventilated::inside_c`] the other
    /// way round.
    ///
    /// - `limit_c`  the warmest that it may be inside [°C]: 30, or the upper end of a band of comfort
    /// - `air_w_k`  heat that the air moved by the fan takes for each degree [W/K], 0 or more; not 0 with ΣUA
    ///
    /// Returns the temperature [°C].
    pub fn hottest_outdoor_c(&self, limit_c: f64, air_w_k: f64) -> f64 {
        limit_c - self.burden_w() / (self.shell_w_k + air_w_k)
    }

    /// The least air that keeps the box at or below a limit.
    ///
    /// `ṁc = (ΣUA Δ + Q) / (T_l − T_o) − ΣUA`, 0 or more
    ///
    /// - `limit_c`    the warmest that it may be inside T_l [°C]
    /// - `outdoor_c`  temperature outdoors T_o [°C]
    ///
    /// Returns ṁc [W/K]; none where no air is enough: it is as hot outdoors.
    ///
    /// Source: as for [`Ventilated::inside_c`].
    pub fn least_air_w_k(&self, limit_c: f64, outdoor_c: f64) -> Option<f64> {
        let margin_k = limit_c - outdoor_c;
        (margin_k > 0.0).then(|| (self.burden_w() / margin_k - self.shell_w_k).max(0.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_box_in_the_sun() {
        // 50 W/K by 10 K of sun and 300 W, carried off by 50 W/K of shell and 110 W/K of air: 5 K above outdoors.
        let body = Ventilated { shell_w_k: 50.0, sun_k: 10.0, gain_w: 300.0 };
        assert_eq!((body.inside_c(28.0, 110.0), body.hottest_outdoor_c(30.0, 110.0)), (33.0, 25.0));
        assert_eq!(body.least_air_w_k(30.0, 25.0), Some(110.0));
        assert_eq!((body.least_air_w_k(30.0, 30.0), body.least_air_w_k(30.0, -20.0)), (None, Some(0.0)));
    }

    proptest! {
        #[test]
        fn both_ways_agree_and_air_helps(
            shell_w_k in 10.0..200.0f64, sun_k in 0.0..25.0f64, gain_w in 0.0..1500.0f64, air_w_k in 1.0..400.0f64,
        ) {
            let body = Ventilated { shell_w_k, sun_k, gain_w };
            let hottest_c = body.hottest_outdoor_c(30.0, air_w_k);
            prop_assert!((body.inside_c(hottest_c, air_w_k) - 30.0).abs() < 1e-9);
            prop_assert!(body.inside_c(hottest_c, air_w_k + 10.0) <= 30.0 + 1e-9);
            // The balance of the heat that comes in and goes out.
            let inside_c = body.inside_c(25.0, air_w_k);
            let balance_w =
                shell_w_k * (25.0 + sun_k - inside_c) + air_w_k * (25.0 - inside_c) + gain_w;
            prop_assert!(balance_w.abs() < 1e-8);
        }
    }
}
