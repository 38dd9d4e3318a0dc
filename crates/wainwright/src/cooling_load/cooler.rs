//! The air conditioner of a build, where it stands and as its ducts deliver it.

use crate::air::outdoor_air::AirLoad;
use crate::build::{Build, CoolerKind, Cooling, Draw, LoadKind};
use crate::document::Record;
use crate::drawn_power::{running_w, usual_ceer};
use crate::units::{m3_s, w_from_btu_h};

use super::equipment::curves::ROOM_UNIT;
use super::equipment::portable::{EXHAUST_M3_S, replacement};
use super::equipment::rating::{FLOW_M3_S_PER_W, ROOFTOP_EER, SENSIBLE_FRACTION, thin_air_fraction};
use super::equipment::recirculation::{CONDENSER_RISE_K, inlet_c};
use super::equipment::unit::{CoolingUnit, Performance, Rating};
use super::lap::Room;

/// Size of the unit by whose kind sizes are tried where a build has none [BTU/h].
const USUAL_BTU_H: f64 = 8000.0;
/// Voltage by which a current among the parts is turned into a power [V].
pub const LINE_V: f64 = 120.0;

/// An air conditioner where it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cooler {
    /// What it is at any state.
    pub unit: CoolingUnit,
    /// What it is rated for.
    pub rating: Rating,
    /// Share of its cooling that comes into the room.
    pub delivered: f64,
    /// Share of its own exhaust that its condenser breathes.
    pub recirculated: f64,
    /// Does its fan run on while it does not cool?
    pub fan_always_on: bool,
    /// Outdoor air that comes in in place of what it blows out [m³/s].
    pub drawn_in_m3_s: f64,
}

impl Cooler {
    /// The air conditioner of a build; none where no coil can have its rating.
    ///
    /// - `pressure_pa`  pressure of the air where it stands [Pa]: thin air costs it capacity
    pub fn of(cooling: &Cooling, pressure_pa: f64) -> Option<Self> {
        let rating = rating(cooling);
        let hose = cooling.kind == Some(CoolerKind::SingleHose);
        Some(Self {
            unit: CoolingUnit::rated(&rating, ROOM_UNIT)?.derated(thin_air_fraction(pressure_pa), 1.0),
            rating,
            delivered: cooling.duct_fraction.unwrap_or(1.0),
            recirculated: cooling.recirculated_fraction.unwrap_or(0.0),
            fan_always_on: cooling.fan_always_on.unwrap_or(false),
            drawn_in_m3_s: if hose { EXHAUST_M3_S } else { 0.0 },
        })
    }

    /// A usual window unit, for sizes where the build has none.
    ///
    /// - `pressure_pa`  pressure of the air where it stands [Pa]
    pub fn usual(pressure_pa: f64) -> Option<Self> {
        Self::of(&Cooling { capacity_btu_h: USUAL_BTU_H, ..Cooling::blank() }, pressure_pa)
    }

    /// The same of another size: as efficient, as dry, with as much air for each watt.
    ///
    /// - `capacity_w`  its rated cooling [W], above 0
    pub fn sized(&self, capacity_w: f64) -> Self {
        let times = capacity_w / self.rating.capacity_w;
        let Self { unit, rating, .. } = *self;
        Self {
            unit: CoolingUnit {
                capacity_w: unit.capacity_w * times,
                power_w: unit.power_w * times,
                flow_kg_s: unit.flow_kg_s * times,
                transfer_kg_s: unit.transfer_kg_s * times,
                ..unit
            },
            rating: Rating {
                capacity_w,
                power_w: rating.power_w * times,
                flow_m3_s: rating.flow_m3_s * times,
                ..rating
            },
            ..*self
        }
    }

    /// What the air brings that comes in in place of what it blows out while it runs.
    ///
    /// - `outdoor`  temperature [°C] and humidity ratio [kg/kg] outdoors
    pub fn drawn_in(&self, room: &Room, outdoor: (f64, f64), pressure_pa: f64) -> AirLoad {
        if self.drawn_in_m3_s == 0.0 {
            return AirLoad { flow_kg_s: 0.0, sensible_w: 0.0, latent_w: 0.0 };
        }
        replacement(self.drawn_in_m3_s, outdoor, (room.state.air_c, room.ratio), pressure_pa)
    }

    /// What it does while it runs, in a room and with outdoor air of a temperature.
    pub fn at(&self, room: &Room, outdoor_c: f64, pressure_pa: f64) -> Performance {
        let breathed_c = inlet_c(outdoor_c, self.recirculated, CONDENSER_RISE_K);
        self.unit.at(room.state.air_c, room.ratio, breathed_c, pressure_pa, room.guess.as_ref())
    }
}

/// The air conditioner among the parts of a build: the one that takes in most nearly what its rating says. It is described
/// once more there, for its mass and its circuit.
pub fn its_part<'b>(build: &'b Build, cooling: &Cooling) -> Option<(&'b str, &'b Draw)> {
    let away_w = |draw: &Draw| (running_w(draw, LINE_V, true) - power_w(cooling)).abs();
    let parts = build.draws().filter(|(_, draw)| draw.kind == Some(LoadKind::RoomAirConditioner));
    parts.min_by(|one, other| away_w(one.1).total_cmp(&away_w(other.1)))
}

/// What an air conditioner is rated for, whether a coil can have it or not.
pub fn rating(cooling: &Cooling) -> Rating {
    let capacity_w = w_from_btu_h(cooling.capacity_btu_h);
    Rating {
        capacity_w,
        power_w: power_w(cooling),
        sensible_fraction: cooling.sensible_fraction.unwrap_or(SENSIBLE_FRACTION),
        flow_m3_s: cooling.airflow_cfm.map_or(FLOW_M3_S_PER_W * capacity_w, m3_s),
    }
}

/// Power an air conditioner takes in at its rating [W]. The combined ratio counts a little standby as well: a hundredth.
pub fn power_w(cooling: &Cooling) -> f64 {
    let usual = || match cooling.kind {
        Some(CoolerKind::Rooftop) => ROOFTOP_EER,
        _ => usual_ceer(cooling.capacity_btu_h),
    };
    cooling.power_w.unwrap_or_else(|| cooling.capacity_btu_h / cooling.ceer.unwrap_or_else(usual))
}
