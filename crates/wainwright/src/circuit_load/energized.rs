//! Which sources are live in a mode, what they feed on, and whether energy goes round in a circle.

use super::wiring::{Index, Load, Switching, Wiring};

/// The source that another takes its power from in this mode; `None` where it brings its own, and where its
/// circuit is off.
pub fn upstream(wiring: &Wiring, mode: &Switching, source: Index) -> Option<Index> {
    let supply = &wiring.sources[source];
    match supply.circuit {
        Some(circuit) => mode.feeds[circuit],
        None => supply.battery,
    }
}

/// A source, what it feeds on, and so on up to one that brings its own power. It ends after as many steps as there
/// are sources, so that a circle of sources ends too.
pub fn chain(wiring: &Wiring, mode: &Switching, source: Index) -> impl Iterator<Item = Index> {
    std::iter::successors(Some(source), move |&source| upstream(wiring, mode, source))
        .take(wiring.sources.len())
}

/// Can a source give power in this mode? It can where its chain ends at a source that brings its own.
pub fn is_live(wiring: &Wiring, mode: &Switching, source: Index) -> bool {
    let brings_its_own = |source: Index| {
        let supply = &wiring.sources[source];
        supply.circuit.is_none() && supply.battery.is_none()
    };
    chain(wiring, mode, source).any(brings_its_own)
}

/// How many sources a source has above it: a source's own current is known once all below it are.
pub fn depth(wiring: &Wiring, mode: &Switching, source: Index) -> usize {
    chain(wiring, mode, source).count()
}

/// Does a charger, fed by `source`, charge what `source` feeds on? Then the battery pays for its own charge.
pub fn charges_its_own_source(
    wiring: &Wiring,
    mode: &Switching,
    charger: &Load,
    source: Index,
) -> Option<Index> {
    let battery = charger.charges?;
    chain(wiring, mode, source).any(|above| above == battery).then_some(battery)
}

/// The source of a chain that feeds directly on `above`.
pub fn entry(wiring: &Wiring, mode: &Switching, source: Index, above: Index) -> Option<Index> {
    chain(wiring, mode, source).find(|&entry| upstream(wiring, mode, entry) == Some(above))
}

/// Share of the power from a battery that arrives at `source`, which feeds on it through inverters.
pub fn efficiency_from(wiring: &Wiring, mode: &Switching, source: Index, battery: Index) -> f64 {
    let between = chain(wiring, mode, source).take_while(|&above| above != battery);
    between.map(|above| super::defaults::inverter_losses(wiring.sources[above].source).1).product()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::fixture::{sources, wired};
    use super::super::numbers::numbers;
    use super::*;

    #[test]
    fn a_circle_of_sources_is_dead_and_ends() {
        let sources = json!({
            "one": {"kind": "inverter", "voltage_v": 120, "continuous_w": 500, "circuit": "a"},
            "other": {"kind": "inverter", "voltage_v": 120, "continuous_w": 500, "circuit": "b"},
        });
        let modes = json!({"round": {"feeds": {"a": "other", "b": "one", "outlets": "one"}}});
        let circuits = json!({"a": {}, "b": {}, "outlets": {}});
        let build = wired(sources, circuits, modes, json!({"lamp": {"circuit": "outlets", "power_w": 60}}));
        let wiring = Wiring::of(&build).unwrap();
        assert!(!is_live(&wiring, &wiring.modes[0], 0));
        assert!(!numbers(&build, &wiring).modes[0].flow.powered[0]);
    }

    #[test]
    fn an_inverter_whose_circuit_is_not_named_lives_on_the_only_battery() {
        let mut sources = sources();
        sources["inverter"].as_object_mut().unwrap().remove("circuit");
        let modes = json!({"off_grid": {"feeds": {"outlets": "inverter"}}});
        let loads = json!({"lamp": {"circuit": "outlets", "power_w": 60}});
        let build = wired(sources, json!({"outlets": {}}), modes, loads);
        let wiring = Wiring::of(&build).unwrap();
        assert_eq!(upstream(&wiring, &wiring.modes[0], 1), Some(2));
        assert!(is_live(&wiring, &wiring.modes[0], 1));
        assert_eq!(depth(&wiring, &wiring.modes[0], 1), 2);
    }

    #[test]
    fn a_charger_behind_the_inverter_of_its_own_battery_goes_round() {
        let circuits = json!({"outlets": {}, "cable": {}});
        let charger = json!({"charger": {"circuit": "outlets", "power_w": 600, "power_factor": 1, "charger":
            {"output_a": 40, "efficiency": 0.9}}});
        let modes = json!({
            "plugged_in": {"feeds": {"outlets": "shore"}},
            "off_grid": {"feeds": {"outlets": "inverter", "cable": "battery"}},
        });
        let mut sources = sources();
        sources["inverter"]["efficiency"] = json!(0.88);
        let build = wired(sources, circuits, modes, charger);
        let wiring = Wiring::of(&build).unwrap();
        let numbers = numbers(&build, &wiring);
        assert_eq!(numbers.modes[0].loops, []);
        let [round] = numbers.modes[1].loops[..] else { panic!("{:?}", numbers.modes[1].loops) };
        assert_eq!((round.load, round.battery), (0, 2));
        assert_eq!(format!("{:.2}", round.net_w), "-141.82");
    }

    #[test]
    fn a_dc_charger_on_the_circuit_of_the_battery_it_charges_goes_round() {
        let circuits = json!({"block": {}, "cable": {}});
        let charger =
            json!({"charger": {"circuit": "block", "charger": {"output_a": 20, "efficiency": 0.9}}});
        let build = wired(sources(), circuits, json!({"on": {"feeds": {"block": "battery"}}}), charger);
        let wiring = Wiring::of(&build).unwrap();
        let loops = numbers(&build, &wiring).modes[0].loops.clone();
        assert_eq!(loops.len(), 1);
        assert!(loops[0].net_w < 0.0);
    }
}
