//! Air that comes into the box: through gaps, by a fan for fresh air, and in place of what a hose blows out.

use crate::air::properties::volume_m3_kg;
use crate::build::{Build, Envelope, Shelter};
use crate::units::{m2_from_in2, m3_s};

use super::air_exchange::fan::together_m3_s;
use super::air_exchange::infiltration::{ORDINARY_PER_H, changed_m3_s, leakage_m3_s};

/// Shelter of a place that does not say.
pub const USUAL_SHELTER: Shelter = Shelter::Moderate;

/// How air gets in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exchange {
    /// Through gaps.
    pub gaps: Gaps,
    /// By a fan, all the time [m³/s].
    pub fan_m3_s: f64,
}

/// How air gets in through gaps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Gaps {
    /// A steady stream [m³/s].
    Steady(f64),
    /// As cold and wind drive it.
    Driven {
        /// Area of all leaks at 4 Pa [m²].
        leakage_m2: f64,
        /// How far the place is sheltered.
        shelter: Shelter,
    },
}

impl Exchange {
    /// How air gets into a build's box.
    ///
    /// - `volume_m3`  the room inside [m³]
    pub fn of(build: &Build, envelope: &Envelope, volume_m3: f64) -> Self {
        let gaps = match envelope.leakage_in2 {
            Some(leakage_in2) => Gaps::Driven {
                leakage_m2: m2_from_in2(leakage_in2),
                shelter: envelope.shelter.unwrap_or(USUAL_SHELTER),
            },
            None => {
                let changes_per_h = envelope.air_changes_per_h.unwrap_or(ORDINARY_PER_H);
                Gaps::Steady(changed_m3_s(changes_per_h, volume_m3))
            }
        };
        let fresh_cfm = build.occupancy.as_ref().and_then(|occupancy| occupancy.fresh_air_cfm);
        Self { gaps, fan_m3_s: m3_s(fresh_cfm.unwrap_or(0.0)) }
    }

    /// Half the gaps, the fan as it is.
    #[must_use]
    pub fn half(self) -> Self {
        let gaps = match self.gaps {
            Gaps::Steady(flow_m3_s) => Gaps::Steady(flow_m3_s / 2.0),
            Gaps::Driven { leakage_m2, shelter } => Gaps::Driven { leakage_m2: leakage_m2 / 2.0, shelter },
        };
        Self { gaps, ..self }
    }

    /// The stream that comes in [m³/s].
    ///
    /// - `difference_k`  how much warmer or colder it is outdoors [K]
    /// - `wind_m_s`      wind [m/s], 0 or more
    pub fn flow_m3_s(&self, difference_k: f64, wind_m_s: f64) -> f64 {
        let gaps_m3_s = match self.gaps {
            Gaps::Steady(flow_m3_s) => flow_m3_s,
            Gaps::Driven { leakage_m2, shelter } => leakage_m3_s(leakage_m2, difference_k, wind_m_s, shelter),
        };
        together_m3_s(0.0, self.fan_m3_s, gaps_m3_s)
    }

    /// Dry air that comes in through each step of a series [kg/s]: a steady stream at the mean density of the outdoor air,
    /// a driven one as each step drives it.
    ///
    /// - `outdoors`     temperature [°C] and humidity ratio [kg/kg] of each step
    /// - `wind_m_s`     wind of a step [m/s]
    /// - `indoor_c`     the room [°C]
    /// - `pressure_pa`  pressure [Pa]
    pub fn air_kg_s(
        &self,
        outdoors: (&[f64], &[f64]),
        wind_m_s: impl Fn(usize) -> f64,
        indoor_c: f64,
        pressure_pa: f64,
    ) -> Vec<f64> {
        let (air_c, ratio) = outdoors;
        let volume = |step: usize| volume_m3_kg(air_c[step], ratio[step], pressure_pa);
        let count = air_c.len();
        match self.gaps {
            Gaps::Steady(_) => {
                let mean_m3_kg = (0..count).map(volume).sum::<f64>() / count.max(1) as f64;
                vec![self.flow_m3_s(0.0, 0.0) / mean_m3_kg; count]
            }
            Gaps::Driven { .. } => (0..count)
                .map(|step| self.flow_m3_s(indoor_c - air_c[step], wind_m_s(step)) / volume(step))
                .collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;
    use crate::cooling_load::fixture::{assert_same, plain, read, with};

    const SEA_LEVEL_PA: f64 = 101_325.0;

    fn exchange(changes: &[(&str, Value)]) -> Exchange {
        let document =
            changes.iter().fold(plain(), |document, (at, value)| with(document, at, value.clone()));
        let build = read(&document);
        Exchange::of(&build, build.envelope.as_ref().unwrap(), 18.0)
    }

    #[test]
    fn gaps_are_changes_an_hour_or_an_area() {
        assert_eq!(exchange(&[]), Exchange { gaps: Gaps::Steady(18.0 / 3600.0), fan_m3_s: 0.0 });
        let tight = exchange(&[("/envelope/air_changes_per_h", json!(0.5))]);
        assert_eq!(tight.gaps, Gaps::Steady(9.0 / 3600.0));
        let leakage_m2 = 8.0 * 0.000_645_16;
        let by_area = exchange(&[("/envelope/leakage_in2", json!(8))]);
        assert_eq!(by_area.gaps, Gaps::Driven { leakage_m2, shelter: USUAL_SHELTER });
        let open = exchange(&[("/envelope/leakage_in2", json!(8)), ("/envelope/shelter", json!("none"))]);
        assert_eq!(open.gaps, Gaps::Driven { leakage_m2, shelter: Shelter::None });
        assert_same(
            exchange(&[("/occupancy", json!({"people": 1, "fresh_air_cfm": 15}))]).fan_m3_s,
            m3_s(15.0),
        );
    }

    /// A fan that blows one way takes the place of a part of what comes through the gaps: 3 and 4 are 5.
    #[test]
    fn fan_and_gaps_come_together_in_quadrature() {
        let both = Exchange { gaps: Gaps::Steady(0.004), fan_m3_s: 0.003 };
        assert_same(both.flow_m3_s(0.0, 0.0), 0.005);
        assert_same(both.flow_m3_s(30.0, 10.0), 0.005);
        let half = both.half();
        assert_eq!((half.gaps, half.fan_m3_s), (Gaps::Steady(0.002), 0.003));
    }

    /// 50 cm² in a place with little shelter, 15 K and 4 m/s: 3.909 L/s (`infiltration`).
    #[test]
    fn cold_and_wind_drive_air_through_an_area() {
        let gaps = Gaps::Driven { leakage_m2: 0.005, shelter: Shelter::Light };
        let driven = Exchange { gaps, fan_m3_s: 0.0 };
        assert_eq!(format!("{:.6}", driven.flow_m3_s(15.0, 4.0)), "0.003909");
        assert_eq!(driven.flow_m3_s(-15.0, 4.0), driven.flow_m3_s(15.0, 4.0));
        assert_eq!(driven.flow_m3_s(0.0, 0.0), 0.0);
        assert_same(driven.half().flow_m3_s(15.0, 4.0), driven.flow_m3_s(15.0, 4.0) / 2.0);
    }

    #[test]
    fn a_steady_stream_keeps_its_mean_density_and_a_driven_one_each_steps_own() {
        let (air_c, ratio) = ([0.0, 20.0, 40.0], [0.003, 0.008, 0.012]);
        let volume_m3_kg: Vec<f64> =
            air_c.iter().zip(ratio).map(|(air_c, ratio)| volume_m3_kg(*air_c, ratio, SEA_LEVEL_PA)).collect();
        let steady = Exchange { gaps: Gaps::Steady(0.006), fan_m3_s: 0.0 };
        let air_kg_s = steady.air_kg_s((&air_c, &ratio), |_| 4.0, 24.0, SEA_LEVEL_PA);
        let expected_kg_s = 3.0 * 0.006 / volume_m3_kg.iter().sum::<f64>();
        assert_eq!(air_kg_s.len(), 3);
        air_kg_s.iter().for_each(|kg_s| assert_same(*kg_s, expected_kg_s));

        let driven =
            Exchange { gaps: Gaps::Driven { leakage_m2: 0.005, shelter: Shelter::None }, fan_m3_s: 0.0 };
        let winds_m_s = [0.0, 2.0, 8.0];
        let air_kg_s = driven.air_kg_s((&air_c, &ratio), |step| winds_m_s[step], 24.0, SEA_LEVEL_PA);
        for step in 0..3 {
            let flow_m3_s = driven.flow_m3_s(24.0 - air_c[step], winds_m_s[step]);
            assert_same(air_kg_s[step], flow_m3_s / volume_m3_kg[step]);
        }
        assert!(steady.air_kg_s((&[], &[]), |_| 0.0, 24.0, SEA_LEVEL_PA).is_empty());
    }
}
