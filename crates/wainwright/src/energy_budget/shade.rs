//! Light that reaches a module partly in shade, and what its bypass diodes make of it.

/// Light on a module, past its glass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModuleLight {
    /// Beam, after its modifier [W/m²], 0 or more.
    pub beam_w_m2: f64,
    /// Light of the sky, after its modifier [W/m²], 0 or more.
    pub sky_w_m2: f64,
    /// Light of the ground, after its modifier [W/m²], 0 or more.
    pub ground_w_m2: f64,
}

impl ModuleLight {
    /// Irradiance that reaches the cells.
    ///
    /// `G = (1 − s) G_b + v G_s + G_g`
    ///
    /// - `shaded`    share of the module in the shade of something s, 0 to 1
    /// - `sky_view`  share of the sky it sees that nothing covers v, 0 to 1
    ///
    /// Returns G [W/m²]. A shade that is not worked out, dirt and snow are a factor on it.
    ///
    /// Source: sum of what is not covered.
    pub fn effective_w_m2(self, shaded: f64, sky_view: f64) -> f64 {
        (1.0 - shaded) * self.beam_w_m2 + sky_view * self.sky_w_m2 + self.ground_w_m2
    }

    /// Share of the light that is beam, without shade.
    ///
    /// `f = G_b / (G_b + G_s + G_g)`
    ///
    /// Returns f, 0 to 1; 0 in the dark.
    ///
    /// Source: meaning of the share.
    pub fn beam_share(self) -> f64 {
        let whole_w_m2 = self.beam_w_m2 + self.sky_w_m2 + self.ground_w_m2;
        if whole_w_m2 > 0.0 { self.beam_w_m2 / whole_w_m2 } else { 0.0 }
    }
}

/// Share of its power that a module keeps when bypass diodes cut out each part touched by shade.
///
/// `k = 1 − ⌈n s⌉/n f`
///
/// - `shaded`      share of the module in shade s, 0 to 1; the shade lies across as few parts as it can
/// - `diodes`      bypass diodes n, 1 or more; 3 is usual
/// - `beam_share`  f, 0 to 1, from [`ModuleLight::beam_share`]
///
/// Returns k, 0 to 1, of the power without any shade: it stands in place of the shaded beam in
/// [`ModuleLight::effective_w_m2`], not beside it. With a part cut out the voltage falls by its share, and a PWM
/// controller may get nothing.
///
/// Source: `common practice`.
pub fn bypassed_share(shaded: f64, diodes: f64, beam_share: f64) -> f64 {
    1.0 - (diodes * shaded).ceil() / diodes * beam_share
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const CLEAR: ModuleLight = ModuleLight { beam_w_m2: 600.0, sky_w_m2: 150.0, ground_w_m2: 50.0 };

    #[test]
    fn shade_takes_beam_and_a_cover_takes_sky() {
        assert_eq!(CLEAR.effective_w_m2(0.0, 1.0), 800.0);
        assert_eq!(CLEAR.effective_w_m2(0.5, 1.0), 500.0);
        assert_eq!(CLEAR.effective_w_m2(1.0, 0.6), 140.0);
        assert_eq!(CLEAR.beam_share(), 0.75);
        assert_eq!(ModuleLight { beam_w_m2: 0.0, sky_w_m2: 0.0, ground_w_m2: 0.0 }.beam_share(), 0.0);
    }

    #[test]
    fn power_falls_in_steps() {
        let kept = [0.0, 0.01, 1.0 / 3.0, 0.34, 2.0 / 3.0, 0.7, 1.0].map(|s| bypassed_share(s, 3.0, 0.75));
        assert_eq!(kept, [1.0, 0.75, 0.75, 0.5, 0.5, 0.25, 0.25]);
        assert_eq!(bypassed_share(1.0, 3.0, 0.0), 1.0);
    }

    proptest! {
        #[test]
        fn a_step_never_keeps_more_than_the_light_does(
            shaded in 0.0..=1.0f64, beam_w_m2 in 0.0..1000.0f64, sky_w_m2 in 1.0..500.0f64, diodes in 1..6u8,
        ) {
            let light = ModuleLight { beam_w_m2, sky_w_m2, ground_w_m2: 0.0 };
            let of_light = light.effective_w_m2(shaded, 1.0) / light.effective_w_m2(0.0, 1.0);
            let kept = bypassed_share(shaded, f64::from(diodes), light.beam_share());
            prop_assert!(kept <= of_light + 1e-12);
            prop_assert!((-1e-12..=1.0).contains(&kept));
        }
    }
}
