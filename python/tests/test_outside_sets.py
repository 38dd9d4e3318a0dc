"""What may run together, against scipy's integer programs and numpy's look at every set."""

from __future__ import annotations

from random import Random
from typing import Any

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

import wainwright

SEED = 2604
COUNT = 120
# Sets exactly at a limit are within it.
SLACK = 1e-9

Document = dict[str, Any]
Array = np.ndarray[Any, np.dtype[np.float64]]
Flags = np.ndarray[Any, np.dtype[np.bool_]]


def draws(build: Document) -> list[Document]:
    """The loads in their order."""
    return [part["electrical"] for part in build["parts"].values()]


def parts(loads: list[Document]) -> Document:
    """Parts that draw so much; their masses do not matter."""
    return {f"load_{i}": {"mass_lb": 1, "electrical": load} for i, load in enumerate(loads)}


def column(build: Document, name: str) -> Array:
    """One field of all loads."""
    return np.array([float(draw[name]) for draw in draws(build)])


def on_circuits(build: Document, names: set[str]) -> Array:
    """1 for loads on these circuits, 0 for others."""
    return np.array([float(draw["circuit"] in names) for draw in draws(build)])


def the_mode(build: Document) -> wainwright.reports.ModeLoad:
    """The answer for the only mode, or the last."""
    return list(wainwright.Build.from_dict(build).circuit_load().modes.values())[-1]


def chosen(build: Document, names: tuple[str, ...]) -> Flags:
    """A set of loads as flags in their order."""
    return np.array([name in names for name in build["parts"]])


# The best set


def on_one_inlet(random: Random) -> Document:
    """Up to 20 loads on an inlet and several breakers.

    Currents are hundredths of an ampere and priorities eighths: no set is near a limit but not at it, and
    many have the same sum.
    """
    circuits = {
        f"branch_{i}": {"breaker_a": random.choice((15, 20, 30))} for i in range(random.randint(1, 5))
    }
    loads = [
        {
            "circuit": random.choice(list(circuits)),
            "current_a": random.randint(20, 1600) / 100,
            "kind": random.choice(("electronic", "resistive", "lighting")),
            "continuous": random.random() < 0.5,
            "priority": random.randint(1, 40) / 8,
        }
        for _ in range(random.randint(2, 20))
    ]
    shore = {"kind": "shore", "voltage_v": 120, "rating_a": random.choice((15, 20, 30, 50))}
    return {"electrical": {"sources": {"shore": shore}, "circuits": circuits}, "parts": parts(loads)}


def solved(costs: Array, constraints: list[LinearConstraint]) -> Flags | None:
    """The set that costs least."""
    options = {"mip_rel_gap": 0.0}
    whole = np.ones_like(costs)
    found = milp(costs, integrality=whole, bounds=Bounds(0, 1), constraints=constraints, options=options)
    return None if found.x is None else np.asarray(found.x > 0.5)


def test_the_best_set_is_that_of_an_integer_program() -> None:
    unique = limited = 0
    for index in range(COUNT):
        build = on_one_inlet(Random(f"{SEED}/{index}"))
        priority, current_a = column(build, "priority"), column(build, "current_a")
        circuits = build["electrical"]["circuits"]
        required_a = current_a * (1 + 0.25 * column(build, "continuous"))
        rows = [current_a] + [required_a * on_circuits(build, {name}) for name in circuits]
        inlet_a = 0.8 * build["electrical"]["sources"]["shore"]["rating_a"]
        most = [inlet_a] + [circuit["breaker_a"] for circuit in circuits.values()]
        limits = LinearConstraint(np.array(rows), -np.inf, most)

        best = solved(-priority, [limits])
        assert best is not None
        # Among sets of that priority that of the least current; eighths add up exactly.
        as_good = LinearConstraint(priority[np.newaxis], priority @ best - 0.01, np.inf)
        best = solved(current_a, [limits, as_good])
        assert best is not None
        another = LinearConstraint(np.where(best, -1.0, 1.0)[np.newaxis], 1 - best.sum(), np.inf)
        second = solved(current_a, [limits, as_good, another])

        mode = the_mode(build)
        ours = chosen(build, mode.best_set)
        assert mode.sets_exact
        assert priority @ ours == priority @ best
        hundredths = np.rint(100 * current_a)
        assert hundredths @ ours == hundredths @ best
        if second is None or hundredths @ second > hundredths @ best:
            assert (ours == best).all()
            unique += 1
        limited += not best.all()
    assert unique > COUNT // 2
    assert limited > COUNT // 2


# Every set


def every_set(count: int) -> Flags:
    """All sets of so many loads, a row each."""
    return (np.arange(2**count)[:, np.newaxis] >> np.arange(count) & 1).astype(bool)


def within(sets: Flags, weights: Array, limit: float, extra: Array | None = None) -> Flags:
    """Sets that a limit bears, with what the worst of the set takes beyond its weight."""
    worst = 0.0 if extra is None else (sets * extra).max(axis=1)
    return np.asarray(sets @ weights + worst <= limit * (1 + SLACK))


def assert_sets(build: Document, mode: wainwright.reports.ModeLoad, feasible: Flags) -> int:
    """Conflicts, largest sets and the best are those of the feasible sets; gives the number of conflicts."""
    names, count = list(build["parts"]), len(build["parts"])
    indices = np.arange(2**count)
    without = [np.where(indices >> i & 1, indices & ~(1 << i), -1) for i in range(count)]
    parts_feasible = np.all([np.where(less < 0, True, feasible[less]) for less in without], axis=0)
    more = [feasible[indices | 1 << i] & (indices >> i & 1 == 0) for i in range(count)]
    conflicts = indices[~feasible & parts_feasible]
    largest = indices[feasible & ~np.any(more, axis=0)]

    def listed(sets: Array, size: int) -> list[tuple[str, ...]]:
        """Sets as lists of names: by size, then in the loads' order."""
        members = [tuple(i for i in range(count) if one >> i & 1) for one in sets]
        ordered = sorted(members, key=lambda one: (size * len(one), one))
        return [tuple(names[i] for i in one) for one in ordered]

    limited = int(np.bitwise_or.reduce(conflicts, initial=0))
    assert (mode.conflict_count, mode.largest_set_count) == (len(conflicts), len(largest))
    assert list(mode.conflicts) == listed(conflicts, 1)[:100]
    assert list(mode.largest_sets) == listed(largest, -1)[:100]
    assert mode.unrestricted == tuple(name for i, name in enumerate(names) if not limited >> i & 1)
    worth = every_set(count) @ column(build, "priority")
    assert worth[chosen(build, mode.best_set) @ (1 << np.arange(count))] == worth[feasible].max()
    return len(conflicts)


def any_load(random: Random, circuits: Document) -> Document:
    """A load with everything said that limits look at; priorities add up exactly."""
    return {
        "circuit": random.choice(list(circuits)),
        "current_a": random.uniform(0.2, 14),
        "power_factor": random.uniform(0.5, 1),
        "kind": random.choice(("electronic", "resistive", "lighting", "motor")),
        "continuous": random.random() < 0.4,
        "inrush_multiple": random.uniform(1, 6),
        "priority": random.randint(1, 40) / 8,
    }


def branches_hold(build: Document, sets: Flags) -> Flags:
    """Sets the breakers bear: a quarter more for what is continuous and for the largest other motor."""
    current_a, continuous = column(build, "current_a"), column(build, "continuous")
    motor = np.array([draw["kind"] == "motor" for draw in draws(build)]) * (1 - continuous)
    holds = np.ones(len(sets), bool)
    circuits = build["electrical"]["circuits"]
    for name, circuit in circuits.items():
        if "breaker_a" in circuit:
            below = {other for other, branch in circuits.items() if branch.get("feeder") == name}
            on_it = on_circuits(build, {name, *below})
            weights = current_a * on_it * (1 + 0.25 * continuous)
            holds &= within(sets, weights, circuit["breaker_a"], 0.25 * current_a * motor * on_it)
    return holds


def test_sets_behind_an_inlet_are_those_of_all_sets() -> None:
    conflicts = 0
    for index in range(60):
        random = Random(f"{SEED}/inlet/{index}")
        circuits: Document = {
            f"branch_{i}": {"breaker_a": random.uniform(10, 30)} for i in range(random.randint(1, 4))
        }
        for name in list(circuits)[1:]:
            if random.random() < 0.3:
                circuits[name]["feeder"] = "branch_0"
        if random.random() < 0.5:
            circuits["branch_0"]["wire"] = {"awg": random.choice(("14", "12")), "run_ft": 10, "bundled": 9}
        loads = [any_load(random, circuits) for _ in range(random.randint(2, 12))]
        rating_a = random.uniform(10, 40)
        shore = {"kind": "shore", "voltage_v": 120, "rating_a": rating_a}
        electrical = {"sources": {"shore": shore}, "circuits": circuits}
        build: Document = {"electrical": electrical, "parts": parts(loads)}
        mode = the_mode(build)
        sets, current_a = every_set(len(loads)), column(build, "current_a")
        feasible = within(sets, current_a, 0.8 * rating_a) & branches_hold(build, sets)
        if "wire" in circuits["branch_0"]:
            below = {name for name in circuits if circuits[name].get("feeder") == "branch_0"}
            ampacity_a = mode.circuits["branch_0"].ampacity_a
            assert ampacity_a is not None
            feasible &= within(sets, current_a * on_circuits(build, {"branch_0", *below}), ampacity_a)
        conflicts += assert_sets(build, mode, feasible)
    assert conflicts > 60


def test_sets_on_two_legs_are_those_of_all_sets() -> None:
    conflicts = 0
    for index in range(40):
        random = Random(f"{SEED}/legs/{index}")
        legs = [random.choice(("a", "b", "both")) for _ in range(random.randint(2, 5))]
        circuits: Document = {f"branch_{i}": {"leg": leg} for i, leg in enumerate(legs)}
        # What branches off a feeder is on the feeder's leg without saying so; off both it may be on one.
        circuits["sub"] = {"feeder": "branch_0", "breaker_a": random.uniform(10, 20)}
        leg_of_sub = random.choice(("a", "b", "both")) if legs[0] == "both" else legs[0]
        if legs[0] == "both":
            circuits["sub"]["leg"] = leg_of_sub
        loads = [any_load(random, circuits) for _ in range(random.randint(2, 10))]
        rating_a = random.uniform(10, 40)
        shore = {"kind": "shore", "voltage_v": 120, "rating_a": rating_a, "legs": 2}
        electrical = {"sources": {"shore": shore}, "circuits": circuits}
        build: Document = {"electrical": electrical, "parts": parts(loads)}
        sets, current_a = every_set(len(loads)), column(build, "current_a")
        feasible = branches_hold(build, sets)
        for leg in ("a", "b"):
            legs_of = {**{f"branch_{i}": other for i, other in enumerate(legs)}, "sub": leg_of_sub}
            on_leg = on_circuits(build, {name for name, other in legs_of.items() if other in (leg, "both")})
            feasible &= within(sets, current_a * on_leg, 0.8 * rating_a)
        conflicts += assert_sets(build, the_mode(build), feasible)
    assert conflicts > 40


def test_sets_on_an_inverter_and_its_battery_are_those_of_all_sets() -> None:
    conflicts = 0
    for index in range(40):
        random = Random(f"{SEED}/inverter/{index}")
        continuous_w, efficiency, cutoff_v = random.uniform(1000, 3000), 0.875, 11.5
        surge_w, idle_w = continuous_w * random.uniform(1, 2), random.uniform(5, 30)
        most_a = random.uniform(100, 300)
        inverter = {"kind": "inverter", "voltage_v": 120, "continuous_w": continuous_w, "circuit": "feed"}
        inverter |= {"surge_w": surge_w, "efficiency": efficiency, "cutoff_v": cutoff_v, "idle_w": idle_w}
        battery = {"kind": "battery", "voltage_v": 12.8, "rating_a": most_a}
        fuse_a = random.uniform(100, 300)
        circuits: Document = {"outlets": {"breaker_a": random.uniform(15, 30)}, "lights": {}}
        circuits["feed"] = {"breaker_a": fuse_a}
        feeds = {"outlets": "inverter", "lights": "house_battery", "feed": "house_battery"}
        loads = [any_load(random, {"outlets": {}, "lights": {}}) for _ in range(random.randint(2, 10))]
        if not any(load["circuit"] == "outlets" for load in loads):
            loads[0]["circuit"] = "outlets"
        electrical = {
            "sources": {"house_battery": battery, "inverter": inverter},
            "circuits": circuits,
            "modes": {"off_grid": {"feeds": feeds}},
        }
        build: Document = {"electrical": electrical, "parts": parts(loads)}
        sets, current_a = every_set(len(loads)), column(build, "current_a")
        outlets, lights = (on_circuits(build, {name}) for name in ("outlets", "lights"))
        va = 120 * current_a * outlets
        input_a = va * column(build, "power_factor") / efficiency / cutoff_v
        feasible = (
            branches_hold(build, sets)
            & within(sets, va, continuous_w)
            & within(sets, va, surge_w, va * (column(build, "inrush_multiple") - 1))
            & within(sets, input_a + current_a * lights, most_a - idle_w / cutoff_v)
            & within(sets, 1.25 * input_a, fuse_a - 1.25 * idle_w / cutoff_v)
        )
        conflicts += assert_sets(build, the_mode(build), feasible)
    assert conflicts > 40


@pytest.mark.parametrize("count", [26, 45])
def test_a_good_set_of_many_loads_is_feasible_and_no_better_than_the_best(count: int) -> None:
    random = Random(f"{SEED}/many/{count}")
    loads = [any_load(random, {"branch": {}}) | {"kind": "electronic"} for _ in range(count)]
    shore = {"kind": "shore", "voltage_v": 120, "rating_a": 50}
    electrical = {"sources": {"shore": shore}, "circuits": {"branch": {}}}
    build: Document = {"electrical": electrical, "parts": parts(loads)}
    priority, current_a = column(build, "priority"), column(build, "current_a")
    best = solved(-priority, [LinearConstraint(current_a[np.newaxis], -np.inf, 40)])
    assert best is not None
    mode = the_mode(build)
    ours = chosen(build, mode.best_set)
    assert not mode.sets_exact
    assert current_a @ ours <= 40 * (1 + SLACK)
    assert 0.95 * (priority @ best) <= priority @ ours <= priority @ best
