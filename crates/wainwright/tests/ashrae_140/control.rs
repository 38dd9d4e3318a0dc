//! What is done with the air in the course of a day.

use wainwright::cooling_load::network::thermostat::Setpoints;

/// A way to run the box.
///
/// Source: ASHRAE Standard 140-2020, cases 600, 600FF, 640, 650 and 650FF; of the last three hours and capacity of the fan
/// `from memory`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Control {
    /// Held from 20 to 27 °C.
    Held,
    /// Left to itself.
    Free,
    /// Held, but heated to 10 °C from 23 h to 7 h, and to ever more until 8 h.
    SetBack,
    /// Cooled to 27 °C from 7 h to 18 h, and in the other hours a fan; never heated.
    NightFan,
    /// The fan alone.
    FreeNightFan,
}

impl Control {
    /// Setpoints and fan of a step.
    ///
    /// - `end_h`  time of day at its end [h], above 0, to 24
    pub fn at(self, end_h: f64) -> (Setpoints, bool) {
        let fan_hours = end_h <= 7.0 || end_h > 18.0;
        let held = Setpoints { heat_c: 20.0, cool_c: 27.0 };
        match self {
            Self::Held => (held, false),
            Self::Free => (Setpoints::NONE, false),
            Self::SetBack if end_h <= 7.0 || end_h > 23.0 => (Setpoints { heat_c: 10.0, ..held }, false),
            Self::SetBack => {
                (Setpoints { heat_c: f64::min(20.0, 10.0 + 10.0 * (end_h - 7.0)), ..held }, false)
            }
            Self::NightFan if fan_hours => (Setpoints::NONE, true),
            Self::NightFan => (Setpoints { cool_c: 27.0, ..Setpoints::NONE }, false),
            Self::FreeNightFan => (Setpoints::NONE, fan_hours),
        }
    }
}
