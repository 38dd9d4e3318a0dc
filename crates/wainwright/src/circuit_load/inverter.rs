//! What an inverter takes from the battery.

/// What an inverter takes for what it gives: `P_dc = c₀ + c₁ P + c₂ P²`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Losses {
    /// Power with nothing plugged in c₀ [W], 0 or more; 10 to 40 W for each 2 kW of rating (`common practice`).
    pub idle_w: f64,
    /// Input for each watt put out, before idle and heating, c₁, 1 or more.
    pub linear: f64,
    /// Heating by the current's square c₂ [1/W], 0 or more.
    pub quadratic_per_w: f64,
}

impl Losses {
    /// Losses of an inverter of which one efficiency is known: `c₁ = 1/η`.
    ///
    /// - `idle_w`      power with nothing plugged in [W], 0 or more
    /// - `efficiency`  η, above 0 to 1
    ///
    /// Source: definition of the efficiency; where η already counts the idle power, that counts twice, on the safe
    /// side.
    pub fn from_efficiency(idle_w: f64, efficiency: f64) -> Self {
        Self { idle_w, linear: 1.0 / efficiency, quadratic_per_w: 0.0 }
    }
}

/// Heating current over mean current on the battery side of a single-phase inverter that filters nothing: √1.5.
/// Cable and fuse warm by it.
///
/// Source: the root mean square of `1 − cos 2ωt`, whose mean is 1.
pub const RIPPLE_UNFILTERED: f64 = 1.224_744_871_391_589;
/// The least of that factor with the usual input capacitors (`common practice`).
pub const RIPPLE_FILTERED_LOW: f64 = 1.05;
/// The most of that factor with the usual input capacitors (`common practice`).
pub const RIPPLE_FILTERED_HIGH: f64 = 1.15;

/// Power an inverter takes from the battery.
///
/// `P_dc = c₀ + c₁ P + c₂ P²`
///
/// - `losses`    c₀, c₁, c₂
/// - `output_w`  real power put out P [W], 0 or more
///
/// Returns the power at its DC terminals [W]; the idle power with nothing plugged in.
///
/// Source: the usual second-order model of a converter's losses, `common practice`.
pub fn input_w(losses: &Losses, output_w: f64) -> f64 {
    losses.idle_w + (losses.linear + losses.quadratic_per_w * output_w) * output_w
}

/// Current an inverter takes from the battery, ripple left out.
///
/// `I = P_dc / V`
///
/// - `losses`    see [`input_w`]
/// - `output_w`  real power put out [W], 0 or more
/// - `dc_v`      voltage at its DC terminals V [V], > 0; the low-voltage cut-off for what cable and fuse must bear
///
/// Returns the mean current [A].
///
/// Source: power over voltage. That the lowest voltage governs: NFPA 70, 690.8(A), `from memory`.
pub fn input_a(losses: &Losses, output_w: f64, dc_v: f64) -> f64 {
    input_w(losses, output_w) / dc_v
}

/// Efficiency of an inverter at a load, its idle power counted.
///
/// `P / P_dc`
///
/// - `losses`    see [`input_w`]
/// - `output_w`  real power put out P [W], > 0
///
/// Returns the fraction; it is poor at a small load, and falls again where the current's heating grows.
///
/// Source: definition.
pub fn efficiency(losses: &Losses, output_w: f64) -> f64 {
    output_w / input_w(losses, output_w)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lower_battery_gives_more_current() {
        let losses = Losses::from_efficiency(20.0, 0.88);
        assert_eq!(format!("{:.2}", input_w(&losses, 1200.0)), "1383.64");
        assert_eq!(format!("{:.3}", input_a(&losses, 1200.0, 12.0)), "115.303");
        assert_eq!(format!("{:.3}", input_a(&losses, 1200.0, 10.5)), "131.775");
    }

    #[test]
    fn efficiency_is_best_between_idle_and_full_load() {
        let losses = Losses { idle_w: 12.0, linear: 1.03, quadratic_per_w: 2.5e-5 };
        let printed = [100.0, 1000.0, 2000.0].map(|w| format!("{:.3}", efficiency(&losses, w)));
        assert_eq!(printed, ["0.868", "0.937", "0.921"]);
    }

    #[test]
    fn idle_power_is_taken_with_nothing_plugged_in() {
        assert_eq!(input_w(&Losses::from_efficiency(20.0, 0.9), 0.0), 20.0);
        assert_eq!(input_w(&Losses::from_efficiency(0.0, 1.0), 750.0), 750.0);
    }

    #[test]
    fn ripple_heats_by_the_root_mean_square() {
        const STEPS: u32 = 1000;
        let angle = |k: u32| f64::from(k) / f64::from(STEPS) * std::f64::consts::TAU;
        let squares: f64 = (0..STEPS).map(|k| (1.0 - angle(k).cos()).powi(2)).sum();
        assert!(((squares / f64::from(STEPS)).sqrt() / RIPPLE_UNFILTERED - 1.0).abs() < 1e-12);
        assert_eq!(format!("{RIPPLE_UNFILTERED:.3}"), "1.225");
    }
}
