//! A cooling unit at any state: what it takes from a room and what it draws for that.

use super::coil::{Inlet, contact_kg_s, latent_w, outlet};
use super::coil_rating::{greatest_sensible_fraction, least_sensible_fraction, rated_inlet, transfer_kg_s};
use super::curves::{Curves, TRUSTED_OUTDOOR_C};
use super::operating_point::{OperatingPoint, Running};
use crate::air::pressure::SEA_LEVEL_PA;
use crate::air::properties::volume_m3_kg;

/// What is known of a unit at its rating point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rating {
    /// Cooling [W], above 0.
    pub capacity_w: f64,
    /// Power drawn [W], above 0.
    pub power_w: f64,
    /// Share of the cooling that is sensible, above 0, to 1.
    pub sensible_fraction: f64,
    /// Air that the fan moves through the coil [m³/s], above 0.
    pub flow_m3_s: f64,
}

impl Rating {
    /// Dry air through the coil at the rating [kg/s].
    pub fn flow_kg_s(&self) -> f64 {
        let inlet = rated_inlet();
        self.flow_m3_s / volume_m3_kg(inlet.air_c, inlet.ratio, inlet.pressure_pa)
    }

    /// Shares of sensible heat that a coil can have with this capacity and this air: the least, and the greatest, which it
    /// must stay below; none where so little air would come out as mist or ice whatever the share.
    pub fn possible_fractions(&self) -> Option<(f64, f64)> {
        let inlet = rated_inlet();
        let greatest = greatest_sensible_fraction(&inlet, self.capacity_w, self.flow_kg_s())?;
        Some((least_sensible_fraction(&inlet), greatest))
    }
}

/// A cooling unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingUnit {
    /// Cooling at the rating point [W].
    pub capacity_w: f64,
    /// Power drawn there [W].
    pub power_w: f64,
    /// Dry air through the coil there [kg/s].
    pub flow_kg_s: f64,
    /// Transfer of the coil A0 [kg/s].
    pub transfer_kg_s: f64,
    /// How cooling and power change away from the rating point.
    pub curves: Curves,
}

/// What a unit does while it runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Performance {
    /// Heat it takes from the room [W].
    pub total_w: f64,
    /// Part of it that cools the air [W].
    pub sensible_w: f64,
    /// Part of it that is in the water it takes [W].
    pub latent_w: f64,
    /// Power it draws, fans included [W].
    pub power_w: f64,
    /// Wet bulb by which its curves were read [°C]: the room's, or with a dry coil that of the most humid room in which
    /// it would stay dry.
    pub wet_bulb_c: f64,
    /// Apparatus dew point [°C]; below 0 the coil ices up.
    pub apparatus_c: f64,
    /// Whether the curves were read beyond what they are trusted for, at the nearest point within.
    pub extrapolated: bool,
}

impl CoolingUnit {
    /// A unit by its rating.
    ///
    /// Returns none where no coil can have that rating, see [`transfer_kg_s`].
    pub fn rated(rating: &Rating, curves: Curves) -> Option<Self> {
        let &Rating { capacity_w, power_w, sensible_fraction, .. } = rating;
        let flow_kg_s = rating.flow_kg_s();
        let transfer_kg_s = transfer_kg_s(&rated_inlet(), capacity_w, sensible_fraction, flow_kg_s)?;
        Some(Self { capacity_w, power_w, flow_kg_s, transfer_kg_s, curves })
    }

    /// The same unit where it cools less or draws more than it is rated: thin air, a cramped cabinet.
    pub fn derated(self, capacity_factor: f64, power_factor: f64) -> Self {
        Self { capacity_w: self.capacity_w * capacity_factor, power_w: self.power_w * power_factor, ..self }
    }

    /// Dry air through the coil: the fan moves the same volume of thinner air.
    ///
    /// `ṁ = ṁ_r p / 101325`
    ///
    /// - `pressure_pa`  pressure p [Pa], 60 000 to 105 000
    ///
    /// Returns ṁ [kg/s]. That a warmer room's air is thinner too, 3 % over 10 K, is left out.
    ///
    /// Source: ideal gas.
    pub fn flow_at_kg_s(&self, pressure_pa: f64) -> f64 {
        self.flow_kg_s * pressure_pa / SEA_LEVEL_PA
    }

    /// What the unit does while it runs.
    ///
    /// The wet bulb gives total heat and power; the coil says how much of the heat is sensible. Where the room is too
    /// dry for the coil to take water, cooling is that at the border of dryness.
    ///
    /// - `room_c`       temperature of the room [°C], −20 to 70
    /// - `room_ratio`   its humidity ratio [kg/kg], 0 to that of saturated air
    /// - `outdoor_c`    temperature of the air that the condenser breathes [°C]
    /// - `pressure_pa`  pressure [Pa], 60 000 to 105 000
    /// - `guess`        performance at a state nearby, as of the step before: it saves most of the work and alters no digit that
    ///   counts (1e−8)
    ///
    /// Source: [`Curves::at`], [`Running::wet`], [`Running::border`].
    pub fn at(
        &self,
        room_c: f64,
        room_ratio: f64,
        outdoor_c: f64,
        pressure_pa: f64,
        guess: Option<&Performance>,
    ) -> Performance {
        let trusted_c = outdoor_c.clamp(TRUSTED_OUTDOOR_C.0, TRUSTED_OUTDOOR_C.1);
        let running = Running {
            room_c,
            pressure_pa,
            contact_kg_s: contact_kg_s(self.transfer_kg_s, self.flow_at_kg_s(pressure_pa)),
            capacity_w: self.capacity_w,
            curve: self.curves.capacity.along(trusted_c),
        };
        let near = guess.map_or((room_c, room_c), |guess| (guess.wet_bulb_c, guess.apparatus_c));
        let was_dry = guess.is_some_and(|guess| guess.latent_w == 0.0);
        if was_dry {
            let border = running.border(near);
            if border.apparatus_ratio >= room_ratio {
                return self.performance(&border, 0.0, outdoor_c);
            }
        }
        let wet = running.wet(room_ratio, near);
        if wet.apparatus_ratio < room_ratio {
            let inlet = Inlet { air_c: room_c, ratio: room_ratio, pressure_pa };
            let latent_w = latent_w(&inlet, running.contact_kg_s, wet.apparatus_ratio);
            self.performance(&wet, latent_w, outdoor_c)
        } else {
            let border = running.border((wet.wet_bulb_c, wet.apparatus_c));
            self.performance(&border, 0.0, outdoor_c)
        }
    }

    fn performance(&self, point: &OperatingPoint, latent_w: f64, outdoor_c: f64) -> Performance {
        let factors = self.curves.at(point.wet_bulb_c, outdoor_c);
        let total_w = self.capacity_w * factors.capacity;
        Performance {
            total_w,
            sensible_w: total_w - latent_w,
            latent_w,
            power_w: self.power_w * factors.power,
            wet_bulb_c: point.wet_bulb_c,
            apparatus_c: point.apparatus_c,
            extrapolated: factors.extrapolated,
        }
    }

    /// Air that the unit gives back to the room: temperature [°C] and humidity ratio [kg/kg], see [`outlet`].
    pub fn supply(
        &self,
        room_c: f64,
        room_ratio: f64,
        pressure_pa: f64,
        running: &Performance,
    ) -> (f64, f64) {
        let inlet = Inlet { air_c: room_c, ratio: room_ratio, pressure_pa };
        outlet(&inlet, running.sensible_w, running.latent_w, self.flow_at_kg_s(pressure_pa))
    }
}

#[cfg(test)]
mod tests {
    use super::super::curves::{ROOM_UNIT, SPLIT_UNIT};
    use super::super::rating::{
        FLOW_M3_S_PER_W, OUTDOOR_C, ROOM_C, ROOM_WET_BULB_C, SENSIBLE_FRACTION, power_w,
    };
    use super::*;
    use crate::air::wet_bulb::ratio_of_wet_bulb;
    use crate::units::w_from_btu_h;

    fn small_unit(curves: Curves) -> CoolingUnit {
        let capacity_w = w_from_btu_h(5000.0);
        let rating = Rating {
            capacity_w,
            power_w: power_w(capacity_w, 11.0),
            sensible_fraction: SENSIBLE_FRACTION,
            flow_m3_s: FLOW_M3_S_PER_W * capacity_w,
        };
        CoolingUnit::rated(&rating, curves).unwrap()
    }

    #[test]
    fn at_its_rating_point_it_does_what_it_is_rated_for() {
        for curves in [ROOM_UNIT, SPLIT_UNIT] {
            let unit = small_unit(curves);
            let ratio = ratio_of_wet_bulb(ROOM_C, ROOM_WET_BULB_C, SEA_LEVEL_PA);
            let running = unit.at(ROOM_C, ratio, OUTDOOR_C, SEA_LEVEL_PA, None);
            assert!((running.total_w / unit.capacity_w - 1.0).abs() < 1e-9);
            assert!((running.power_w / unit.power_w - 1.0).abs() < 1e-9);
            assert!((running.sensible_w / running.total_w - SENSIBLE_FRACTION).abs() < 1e-9);
            assert!(!running.extrapolated);
        }
    }

    #[test]
    fn what_no_coil_can_do_is_refused() {
        let rating =
            Rating { capacity_w: 1465.0, power_w: 450.0, sensible_fraction: 0.75, flow_m3_s: 0.0613 };
        assert_eq!(CoolingUnit::rated(&rating, ROOM_UNIT), None);
        assert!(CoolingUnit::rated(&Rating { flow_m3_s: 0.075, ..rating }, ROOM_UNIT).is_some());
    }

    #[test]
    fn a_dry_room_shows_the_coil_nothing_but_its_temperature() {
        let unit = small_unit(ROOM_UNIT);
        let in_room = |ratio| unit.at(30.0, ratio, 43.0, 95_000.0, None);
        let (driest, dry) = (in_room(0.0), in_room(0.006));
        assert_eq!((driest.latent_w, dry.latent_w), (0.0, 0.0));
        assert!((driest.sensible_w / dry.sensible_w - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_derated_unit_cools_less_and_draws_more() {
        let unit = small_unit(ROOM_UNIT);
        let derated = unit.derated(0.85, 1.1);
        let at = |unit: CoolingUnit| unit.at(27.0, 0.010, 38.0, SEA_LEVEL_PA, None);
        assert!((at(derated).total_w / at(unit).total_w - 0.85).abs() < 1e-12);
        assert!((at(derated).power_w / at(unit).power_w - 1.1).abs() < 1e-12);
    }

    #[test]
    fn nonsense_is_answered_without_harm() {
        let unit = small_unit(ROOM_UNIT);
        for (room_c, ratio, outdoor_c, pressure_pa) in [
            (f64::NAN, 0.01, 35.0, 1e5),
            (25.0, 0.5, 35.0, 1e5),
            (25.0, 0.01, f64::INFINITY, 1e5),
            (25.0, 0.01, 35.0, 0.0),
        ] {
            let running = unit.at(room_c, ratio, outdoor_c, pressure_pa, None);
            assert!(unit.at(room_c, ratio, outdoor_c, pressure_pa, Some(&running)).power_w.is_finite());
        }
    }
}
