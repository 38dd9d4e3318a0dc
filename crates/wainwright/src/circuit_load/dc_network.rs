//! One source, a bus, and branches to loads: where voltages and currents settle.
//!
//! Loads of constant power make the equations quadratic, with a second, unstable solution at low voltage, and with
//! none at all where the supply cannot hold the load.

pub use super::constant_power::Arrival;

/// A branch from the bus, with its loads lumped at the far end. All 0 or more, but the constant current.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Branch {
    /// Resistance of the loop, out and back [Ω].
    pub resistance_ohm: f64,
    /// Power that is drawn at any voltage: inverters, electronics [W].
    pub constant_power_w: f64,
    /// Conductance: heaters, filament lamps [S].
    pub conductance_s: f64,
    /// Current that is drawn at any voltage: motors, roughly [A]. Below 0 it is fed in, as by a solar controller.
    pub constant_a: f64,
}

/// Where the bus settles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bus {
    /// Voltage of the bus [V].
    pub voltage_v: f64,
    /// Current from the source, the sum over the branches [A].
    pub current_a: f64,
}

/// A branch at a bus voltage: what arrives, and how its current changes with the voltage of the bus [S].
fn arrival_and_slope(bus_v: f64, branch: &Branch) -> Option<(Arrival, f64)> {
    let Branch { resistance_ohm: r, constant_power_w, conductance_s, constant_a } = *branch;
    let a = 1.0 + r * conductance_s;
    let b = bus_v - r * constant_a;
    let radicand = b * b - 4.0 * a * r * constant_power_w;
    if b <= 0.0 || radicand < 0.0 {
        return None;
    }
    let root = radicand.sqrt();
    let voltage_v = (b + root) / (2.0 * a);
    let drawn_a = constant_power_w / voltage_v;
    // The load's own slope y = G − P/u² seen through the resistance: y / (1 + R y), with 1 + R y = root / u.
    let slope_s = (conductance_s * voltage_v - drawn_a) / root;
    Some((Arrival { voltage_v, current_a: drawn_a + conductance_s * voltage_v + constant_a }, slope_s))
}

/// Voltage and current at the far end of a branch.
///
/// `u = [b + √(b² − 4 a R P)] / (2 a)`, `a = 1 + R G`, `b = V − R C`; `I = P/u + G u + C`
///
/// - `bus_v`   voltage of the bus V [V], > 0
/// - `branch`  loop resistance R, constant power P, conductance G, constant current C
///
/// Returns the upper root, to which the voltage settles; none where no voltage above 0 carries the loads.
///
/// Source: Kirchhoff's voltage law `V = u + R (P/u + G u + C)` solved for u.
pub fn branch_at(bus_v: f64, branch: &Branch) -> Option<Arrival> {
    arrival_and_slope(bus_v, branch).map(|(arrival, _)| arrival)
}

/// Where a source and the branches on its bus settle.
///
/// The largest root of `g(V) = V_s − R_s I(V) − V`, with I(V) the sum over the branches of [`branch_at`].
///
/// - `source_v`    open-circuit voltage of the source V_s [V], > 0
/// - `source_ohm`  its own resistance, with the path to the bus R_s [Ω], 0 or more
/// - `branches`    what hangs on the bus
///
/// Returns the bus; none where the supply cannot hold the load. At the very limit, within rounding, either may come.
///
/// Why this root: the far voltage u of a branch is linear in b plus the square root of b² less a constant, so it is
/// concave in V; its current (V − u)/R is convex (without resistance it is P/V + G V + C, convex too), and g is
/// concave. A concave function has two roots at most. At the upper one g falls: a bus slightly too high is more than
/// the source holds up, and comes back. At the lower one g rises, and a bus slightly off runs away; so it is with the
/// two roots of a branch. As loads come on from nothing, g sinks everywhere and the bus follows the upper root down;
/// where that vanishes the supply collapses.
///
/// Why it is found: the start `V_s + R_s Σ|C|` over currents fed in is at or above every root, since no branch draws
/// less than its C. There g ≤ 0. Newton's tangent lies above a concave g, so each step ends at or above the upper root
/// again, and the steps go down to it without ever passing it. If a step falls below the voltage a branch needs, or
/// g no longer falls where it is still below 0, there is no root. Each step makes `|g g'|` four times smaller at
/// least, and near a root the digits double.
pub fn solve(source_v: f64, source_ohm: f64, branches: &[Branch]) -> Option<Bus> {
    let fed_in_a = branches.iter().map(Branch::fed_in_a).sum();
    settle(source_v, source_ohm, fed_in_a, |v| total(branches.iter().map(|branch| branch_draw(v, branch))))
        .map(|(bus, _)| bus)
}

/// A cable from the bus: loads at its far end, and branches that start there. The far end of a feeder is a bus with
/// the first bus for its source, so that its current is convex in the voltage of that bus as a branch's is, and what
/// is said of [`solve`] holds for both.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Feeder {
    /// The cable, and the loads at its far end.
    pub cable: Branch,
    /// What branches off at its far end.
    pub branches: Vec<Branch>,
}

/// Voltage at the far end of a feeder, and its current.
///
/// - `bus_v`   voltage of the bus [V], > 0
/// - `feeder`  cable, loads and branches
///
/// Returns none where no voltage carries the loads.
pub fn feeder_at(bus_v: f64, feeder: &Feeder) -> Option<Arrival> {
    feeder_draw(bus_v, feeder).map(|(arrival, _)| arrival)
}

/// Where a source and the feeders on its bus settle, as in [`solve`].
pub fn solve_feeders(source_v: f64, source_ohm: f64, feeders: &[Feeder]) -> Option<Bus> {
    let fed_in_a = feeders.iter().map(Feeder::fed_in_a).sum();
    let draw = |v| {
        total(feeders.iter().map(|feeder| feeder_draw(v, feeder).map(|(arrival, s)| (arrival.current_a, s))))
    };
    settle(source_v, source_ohm, fed_in_a, draw).map(|(bus, _)| bus)
}

impl Branch {
    fn fed_in_a(&self) -> f64 {
        (-self.constant_a).max(0.0)
    }
}

impl Feeder {
    fn fed_in_a(&self) -> f64 {
        self.cable.fed_in_a() + self.branches.iter().map(Branch::fed_in_a).sum::<f64>()
    }
}

/// Current of a branch and its slope.
fn branch_draw(bus_v: f64, branch: &Branch) -> Option<(f64, f64)> {
    arrival_and_slope(bus_v, branch).map(|(arrival, slope_s)| (arrival.current_a, slope_s))
}

fn feeder_draw(bus_v: f64, feeder: &Feeder) -> Option<(Arrival, f64)> {
    if feeder.branches.is_empty() {
        return arrival_and_slope(bus_v, &feeder.cable);
    }
    let at_far_end = Branch { resistance_ohm: 0.0, ..feeder.cable };
    let draw = |v| {
        let branches = feeder.branches.iter().map(|branch| branch_draw(v, branch));
        total(branches.chain([branch_draw(v, &at_far_end)]))
    };
    let (bus, slope_s) = settle(bus_v, feeder.cable.resistance_ohm, feeder.fed_in_a(), draw)?;
    // The far end's own slope seen through the cable.
    let seen_s = slope_s / (1.0 + feeder.cable.resistance_ohm * slope_s);
    Some((Arrival { voltage_v: bus.voltage_v, current_a: bus.current_a }, seen_s))
}

/// Currents and slopes added up; none where one is none.
fn total(draws: impl Iterator<Item = Option<(f64, f64)>>) -> Option<(f64, f64)> {
    let mut sum = (0.0, 0.0);
    for draw in draws {
        let (current_a, slope_s) = draw?;
        sum = (sum.0 + current_a, sum.1 + slope_s);
    }
    Some(sum)
}

/// The steps of [`solve`]: `draw` gives the current at a bus voltage and its slope. Returns the bus and the slope there.
fn settle(
    source_v: f64,
    source_ohm: f64,
    fed_in_a: f64,
    draw: impl Fn(f64) -> Option<(f64, f64)>,
) -> Option<(Bus, f64)> {
    let mut voltage_v = source_v + source_ohm * fed_in_a;
    loop {
        let (current_a, slope_s) = draw(voltage_v)?;
        let g_v = source_v - source_ohm * current_a - voltage_v;
        let settled = (Bus { voltage_v, current_a }, slope_s);
        // What is no number ends it too.
        if g_v >= 0.0 || g_v.is_nan() {
            return Some(settled).filter(|(bus, _)| bus.voltage_v.is_finite());
        }
        let falls = 1.0 + source_ohm * slope_s;
        if falls <= 0.0 {
            return None;
        }
        let next_v = voltage_v + g_v / falls;
        // A step that rounding swallows is the last one.
        if voltage_v - next_v <= f64::EPSILON * voltage_v {
            return Some(settled);
        }
        voltage_v = next_v;
    }
}

#[cfg(test)]
mod tests {
    use super::super::constant_power::behind;
    use super::*;
    use proptest::prelude::*;

    fn power(resistance_ohm: f64, constant_power_w: f64) -> Branch {
        Branch { resistance_ohm, constant_power_w, ..Branch::default() }
    }

    /// The bus by letting it settle: each node in turn, from no load on, for loads well within the supply.
    fn relaxed(source_v: f64, source_ohm: f64, branches: &[Branch]) -> Bus {
        let mut bus = Bus { voltage_v: source_v, current_a: 0.0 };
        let mut far_v = vec![source_v; branches.len()];
        for _ in 0..2000 {
            bus.current_a = 0.0;
            for (branch, u) in branches.iter().zip(&mut far_v) {
                let current_a = branch.constant_power_w / *u + branch.conductance_s * *u + branch.constant_a;
                *u = 0.5 * (*u + bus.voltage_v - branch.resistance_ohm * current_a);
                bus.current_a += current_a;
            }
            bus.voltage_v = 0.5 * (bus.voltage_v + source_v - source_ohm * bus.current_a);
        }
        bus
    }

    #[test]
    fn one_load_of_constant_power_has_its_closed_form() {
        let bus = solve(12.8, 0.004, &[power(0.006, 1383.6)]).unwrap();
        let whole = behind(12.8, 0.010, 1383.6).unwrap();
        assert!((bus.current_a / whole.current_a - 1.0).abs() < 1e-14);
        let far = branch_at(bus.voltage_v, &power(0.006, 1383.6)).unwrap();
        assert!((far.voltage_v / whole.voltage_v - 1.0).abs() < 1e-14);
        assert_eq!(format!("{:.4} {:.3}", far.voltage_v, far.current_a), "11.6081 119.193");
    }

    #[test]
    fn conductance_and_current_have_theirs() {
        // 12.6 V through 0.05 Ω into 1.2 Ω.
        let lamp = Branch { resistance_ohm: 0.03, conductance_s: 1.0 / 1.2, ..Branch::default() };
        let bus = solve(12.6, 0.02, &[lamp]).unwrap();
        let far_v = branch_at(bus.voltage_v, &lamp).unwrap().voltage_v;
        assert!((far_v - 12.096).abs() < 1e-14, "{far_v}");
        let motor = Branch { resistance_ohm: 0.1, constant_a: 10.0, ..Branch::default() };
        let bus = solve(12.6, 0.02, &[motor]).unwrap();
        assert!((bus.voltage_v - 12.4).abs() < 1e-14);
        assert!((branch_at(bus.voltage_v, &motor).unwrap().voltage_v - 11.4).abs() < 1e-14);
    }

    #[test]
    fn a_bus_without_load_or_resistance_stands_at_the_source() {
        assert_eq!(solve(12.8, 0.01, &[]), Some(Bus { voltage_v: 12.8, current_a: 0.0 }));
        assert_eq!(solve(12.8, 0.01, &[power(0.1, 0.0)]), Some(Bus { voltage_v: 12.8, current_a: 0.0 }));
        assert_eq!(solve(12.5, 0.0, &[power(0.0, 1000.0)]), Some(Bus { voltage_v: 12.5, current_a: 80.0 }));
    }

    #[test]
    fn the_supply_collapses_just_past_its_limit() {
        // 12 V behind 20 mΩ passes 1800 W.
        for split_ohm in [0.0, 0.005, 0.02] {
            let at = |w: f64| solve(12.0, 0.02 - split_ohm, &[power(split_ohm, w)]);
            let current_a = at(1799.999).unwrap().current_a;
            assert!((current_a - behind(12.0, 0.02, 1799.999).unwrap().current_a).abs() < 1e-6);
            assert_eq!(at(1800.001), None);
            assert_eq!(at(1e6), None);
        }
    }

    #[test]
    fn one_branch_may_collapse_on_a_bus_that_holds() {
        assert_eq!(branch_at(12.0, &power(0.2, 181.0)), None);
        assert!(branch_at(12.0, &power(0.2, 180.0)).is_some());
        assert_eq!(solve(12.0, 0.001, &[power(0.2, 181.0), power(0.0, 10.0)]), None);
        let unable = Branch { resistance_ohm: 0.5, constant_a: 24.0, ..Branch::default() };
        assert_eq!(branch_at(12.0, &unable), None);
    }

    #[test]
    fn a_feeder_without_branches_is_a_branch_and_one_without_resistance_is_the_bus() {
        let lamp = Branch { resistance_ohm: 0.05, conductance_s: 0.5, ..Branch::default() };
        let alone = Feeder { cable: lamp, branches: Vec::new() };
        assert_eq!(solve_feeders(12.8, 0.01, &[alone]), solve(12.8, 0.01, &[lamp]));
        let through = Feeder { cable: Branch::default(), branches: vec![lamp, power(0.1, 60.0)] };
        let direct = solve(12.8, 0.01, &[lamp, power(0.1, 60.0)]).unwrap();
        let bus = solve_feeders(12.8, 0.01, &[through]).unwrap();
        assert!((bus.voltage_v / direct.voltage_v - 1.0).abs() < 1e-14);
        assert!((bus.current_a / direct.current_a - 1.0).abs() < 1e-14);
    }

    #[test]
    fn a_feeders_cable_counts_once_for_all_its_branches() {
        // One branch alone on a feeder is a longer branch.
        let feeder = Feeder { cable: power(0.02, 0.0), branches: vec![power(0.08, 120.0)] };
        let bus = solve_feeders(12.8, 0.01, std::slice::from_ref(&feeder)).unwrap();
        let longer = solve(12.8, 0.01, &[power(0.10, 120.0)]).unwrap();
        assert!((bus.current_a / longer.current_a - 1.0).abs() < 1e-13);
        let end = feeder_at(bus.voltage_v, &feeder).unwrap();
        assert!((bus.voltage_v - 0.02 * bus.current_a - end.voltage_v).abs() < 1e-12);
        let overloaded = Feeder { cable: power(0.02, 0.0), branches: vec![power(0.08, 500.0)] };
        assert_eq!(solve_feeders(12.8, 0.01, &[overloaded]), None);
    }

    #[test]
    fn current_fed_in_lifts_the_bus() {
        let solar = Branch { resistance_ohm: 0.01, constant_a: -20.0, ..Branch::default() };
        let bus = solve(12.8, 0.05, &[solar]).unwrap();
        assert!((bus.voltage_v - 13.8).abs() < 1e-14 && bus.current_a == -20.0);
        assert!((branch_at(bus.voltage_v, &solar).unwrap().voltage_v - 14.0).abs() < 1e-14);
        // It carries a load that the source alone could not: 10 V behind 0.1 Ω pass 250 W.
        let load = power(0.0, 300.0);
        assert_eq!(solve(10.0, 0.1, &[load]), None);
        let held = solve(10.0, 0.1, &[load, solar]).unwrap();
        assert!((held.voltage_v - (12.0 + 24f64.sqrt()) / 2.0).abs() < 1e-13);
    }

    fn branch() -> impl Strategy<Value = Branch> {
        (0.0..0.3f64, 0.0..60.0f64, 0.0..0.5f64, -4.0..8.0f64).prop_map(|(r, p, g, c)| Branch {
            resistance_ohm: if r < 0.02 { 0.0 } else { r },
            constant_power_w: p,
            conductance_s: g,
            constant_a: c,
        })
    }

    fn branches() -> impl Strategy<Value = Vec<Branch>> {
        prop::collection::vec(branch(), 0..8)
    }

    proptest! {
        #[test]
        fn laws_of_kirchhoff_and_energy_hold(
            source_v in 10.5..58.0f64, source_ohm in 0.0..0.03f64, branches in branches(),
        ) {
            if let Some(bus) = solve(source_v, source_ohm, &branches) {
                let size_a = 100.0 + 60.0 * branches.len() as f64;
                let loop_v = bus.voltage_v + source_ohm * bus.current_a;
                prop_assert!((loop_v - source_v).abs() < 1e-13 * (source_v + source_ohm * size_a));
                let (mut sum_a, mut used_w) = (0.0, source_ohm * bus.current_a * bus.current_a);
                for branch in &branches {
                    let far = branch_at(bus.voltage_v, branch).unwrap();
                    sum_a += far.current_a;
                    let dropped_v = branch.resistance_ohm * far.current_a;
                    prop_assert!((far.voltage_v + dropped_v - bus.voltage_v).abs() < 1e-13 * source_v);
                    used_w += dropped_v * far.current_a
                        + branch.constant_power_w
                        + branch.conductance_s * far.voltage_v * far.voltage_v
                        + branch.constant_a * far.voltage_v;
                }
                prop_assert_eq!(sum_a, bus.current_a);
                prop_assert!((source_v * bus.current_a - used_w).abs() < 1e-12 * source_v * size_a);
            }
        }

        #[test]
        fn settling_node_by_node_ends_at_the_same_place(
            source_v in 22.0..58.0f64, source_ohm in 0.0..0.03f64, branches in branches(),
        ) {
            let ours = solve(source_v, source_ohm, &branches).unwrap();
            let other = relaxed(source_v, source_ohm, &branches);
            prop_assert!((ours.voltage_v / other.voltage_v - 1.0).abs() < 1e-12);
            prop_assert!((ours.current_a - other.current_a).abs() < 1e-9 * other.current_a.abs().max(1.0));
        }

        #[test]
        fn more_power_never_lifts_the_bus(
            source_v in 10.5..30.0f64, source_ohm in 0.0..0.05f64, branches in branches(), more in branch(),
        ) {
            let more = Branch { constant_a: more.constant_a.abs(), ..more };
            let mut heavier = branches.clone();
            heavier.push(more);
            if let Some(heavy) = solve(source_v, source_ohm, &heavier) {
                let light = solve(source_v, source_ohm, &branches).unwrap();
                prop_assert!(heavy.voltage_v <= light.voltage_v * (1.0 + 1e-14));
                prop_assert!(heavy.current_a >= light.current_a - 1e-12 * source_v / source_ohm.max(1e-3));
            }
        }

        #[test]
        fn nothing_above_the_root_balances_and_it_is_stable(
            source_v in 10.5..30.0f64, source_ohm in 0.001..0.2f64, branches in branches(), up in 1e-6..0.5f64,
        ) {
            let excess_v = |bus_v: f64| -> f64 {
                let sum_a: f64 = branches.iter().map(|b| branch_at(bus_v, b).unwrap().current_a).sum();
                source_v - source_ohm * sum_a - bus_v
            };
            match solve(source_v, source_ohm, &branches) {
                Some(bus) => prop_assert!(excess_v(bus.voltage_v * (1.0 + up)) < 0.0),
                // No voltage at which every branch holds balances.
                None => {
                    for step in 1..400 {
                        let bus_v = 2.0 * source_v * f64::from(step) / 400.0;
                        if branches.iter().all(|b| branch_at(bus_v, b).is_some()) {
                            prop_assert!(excess_v(bus_v) < 0.0, "balances at {} V", bus_v);
                        }
                    }
                }
            }
        }
    }
}
