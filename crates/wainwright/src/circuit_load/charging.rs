//! Chargers: what they give, what is asked of them, and those that are fed by what they charge.

use super::converter;
use super::drawn::Flow;
use super::energized::{charges_its_own_source, efficiency_from};
use super::numbers::ModeNumbers;
use super::wiring::{Index, Load, Switching, Wiring};
use crate::drawn_power::CHARGER_EFFICIENCY;

/// A charger that is fed by the battery it charges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnergyLoop {
    /// The charger.
    pub load: Index,
    /// The battery.
    pub battery: Index,
    /// What the battery gains by it: less than nothing [W].
    pub net_w: f64,
}

/// The chargers of a mode that are fed by the battery they charge.
pub fn loops(wiring: &Wiring, mode: &Switching, flow: &Flow) -> Vec<EnergyLoop> {
    let mut loops = Vec::new();
    for (index, load) in wiring.loads.iter().enumerate() {
        let Some(source) = mode.feeds[load.circuit].filter(|_| flow.powered[index]) else { continue };
        let Some(battery) = charges_its_own_source(wiring, mode, load, source) else { continue };
        let charger = load.draw.charger.as_ref();
        let efficiency = charger.and_then(|charger| charger.efficiency).unwrap_or(CHARGER_EFFICIENCY);
        let net_w = converter::loop_net_w(
            flow.loads[index].power_w,
            efficiency,
            efficiency_from(wiring, mode, source, battery),
        );
        loops.push(EnergyLoop { load: index, battery, net_w });
    }
    loops
}

/// Current of the low-voltage loads of a battery in a mode, without those that are switched for moments [A].
pub fn connected_a(wiring: &Wiring, mode: &Switching, numbers: &ModeNumbers, battery: Index) -> f64 {
    let counts = |load: usize| {
        numbers.flow.powered[load]
            && mode.feeds[wiring.loads[load].circuit] == Some(battery)
            && wiring.loads[load].draw.momentary != Some(true)
    };
    (0..wiring.loads.len()).filter(|&load| counts(load)).map(|load| numbers.flow.loads[load].current_a).sum()
}

/// What live chargers on alternating current give a battery in a mode [A].
pub fn charging_a(wiring: &Wiring, mode: &Switching, numbers: &ModeNumbers, battery: Index) -> f64 {
    let gives = |(index, load): (usize, &Load)| {
        let source = mode.feeds[load.circuit].filter(|_| numbers.flow.powered[index])?;
        let is_own = !wiring.sources[source].is_ac() || load.charges != Some(battery);
        let charger = load.draw.charger.as_ref().filter(|_| !is_own)?;
        Some(charger.output_a * load.quantity)
    };
    wiring.loads.iter().enumerate().filter_map(gives).sum()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::fixture::{sources, wired};
    use super::super::numbers::numbers;
    use super::*;

    #[test]
    fn chargers_count_for_the_battery_they_charge_and_only_from_another_source() {
        let circuits = json!({"outlets": {}, "cable": {}, "block": {}});
        let modes = json!({
            "plugged_in": {"feeds": {"outlets": "shore", "block": "battery"}},
            "unplugged": {"feeds": {"block": "battery"}},
        });
        let loads = json!({
            "converter": {"circuit": "outlets", "charger": {"output_a": 45}},
            "booster": {"circuit": "block", "charger": {"output_a": 20}},
            "horn": {"circuit": "block", "current_a": 5, "momentary": true},
            "pump": {"circuit": "block", "current_a": 7},
        });
        let build = wired(sources(), circuits, modes, loads);
        let wiring = Wiring::of(&build).unwrap();
        let numbers = numbers(&build, &wiring);
        let at = |m: usize| (&wiring.modes[m], &numbers.modes[m]);
        let (plugged_in, of_plugged_in) = at(0);
        assert_eq!(charging_a(&wiring, plugged_in, of_plugged_in, 2), 45.0);
        let booster_a = of_plugged_in.flow.loads[1].current_a;
        assert_eq!(connected_a(&wiring, plugged_in, of_plugged_in, 2), booster_a + 7.0);
        let (unplugged, of_unplugged) = at(1);
        assert_eq!(charging_a(&wiring, unplugged, of_unplugged, 2), 0.0);
    }
}
