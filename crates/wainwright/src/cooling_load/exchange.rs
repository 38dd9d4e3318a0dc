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
