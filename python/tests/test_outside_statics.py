"""Axle load against numpy and scipy: linear systems, a root finder, linear programs and eigenvalues.

Everything here is worked in pounds, inches and, for sway, in SI, from the document itself.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy.linalg import eigvals
from scipy.optimize import brentq, linprog

import wainwright

from .random_builds import random_builds
from .test_outside_masses import aboard, column, fill, full_lb

SEED = 2603
COUNT = 200
# Sums of some thirty converted masses and moments.
CLOSE = 1e-9

Document = dict[str, Any]
Array = np.ndarray[Any, np.dtype[np.float64]]
Pairs = list[tuple[Document, wainwright.reports.AxleLoadReport]]

KG_PER_LB = 0.45359237
M_PER_IN = 0.0254
GRAVITY = 9.80665


@pytest.fixture(scope="module")
def pairs() -> Pairs:
    """Random builds with their reports."""
    builds = random_builds(SEED, COUNT)
    return [(build, wainwright.Build.from_dict(build).axle_load()) for build in builds]


def close(value: float, expected: float, scale: float = 1.0) -> bool:
    """Equal but for rounding, relative to the size of what was added up."""
    return abs(value - expected) <= CLOSE * max(abs(scale), 1.0)


def items(build: Document) -> Array:
    """Mass, x, y, z of trailer and parts."""
    bare = build["trailer"]["bare"]
    parts = build["parts"]
    rows = [[bare["mass_lb"], bare["x_in"], bare["y_in"], bare["z_in"]]]
    for part in parts.values():
        rows.append([part["mass_lb"] * part.get("quantity", 1), part["x_in"], part["y_in"], part["z_in"]])
    return np.array(rows)


def variables(build: Document) -> Array:
    """Mass, x, y, z of every full tank and of all cargo."""
    places = [[t["x_in"], t["y_in"], t["z_in"]] for t in (*build["tanks"].values(), *build["cargo"].values())]
    masses = np.concatenate([full_lb(build), column(build["cargo"], "mass_lb")])
    return np.column_stack([masses, np.array(places).reshape(len(masses), 3)])


def state_items(build: Document, state: Document) -> Array:
    """Mass, x, y, z of everything aboard in a state."""
    share = np.concatenate([fill(build, state), aboard(build, state)])
    loads = variables(build)
    loads[:, 0] *= share
    return np.vstack([items(build), loads])


def totals(masses: Array) -> tuple[float, float, float]:
    """Weight, moment about the ball and moment about the centreline."""
    w, x, y = masses[:, 0], masses[:, 1], masses[:, 2]
    return float(w.sum()), float(w @ x), float(w @ y)


def shares(trailer: Document) -> Array:
    """Shares of an equalized group from its beam's arms."""
    axles = list(trailer["axles"].values())
    if "equalizer" in trailer:
        front, rear = trailer["equalizer"]["front_arm_in"], trailer["equalizer"]["rear_arm_in"]
        return np.array([rear, front], dtype=float) / float(front + rear)
    return np.full(len(axles), 1 / len(axles))


def equalized(build: Document, weight: float, moment: float) -> tuple[float, Array]:
    """Tongue and axle loads as one linear system: two of equilibrium, one for each balance beam."""
    trailer = build["trailer"]
    axles = list(trailer["axles"].values())
    x, unsprung = column(trailer["axles"], "x_in"), column(trailer["axles"], "unsprung_lb")
    share, count = shares(trailer), len(axles)
    matrix = np.zeros((count + 1, count + 1))
    right = np.zeros(count + 1)
    matrix[0], right[0] = 1, weight
    matrix[1, 1:], right[1] = x, moment
    for j in range(1, count):
        # What the springs carry stands in the beam's ratio; each axle's own mass bears on itself.
        matrix[1 + j, j], matrix[1 + j, j + 1] = share[j], -share[j - 1]
        right[1 + j] = share[j] * unsprung[j - 1] - share[j - 1] * unsprung[j]
    solved: Array = np.linalg.solve(matrix, right).astype(np.float64)
    return float(solved[0]), solved[1:]


def moving_masses(build: Document) -> list[tuple[str, Array]]:
    return [(name, state_items(build, state)) for name, state in build.get("states", {}).items()]


def test_equalized_axles_solve_as_a_linear_system(pairs: Pairs) -> None:
    checked = 0
    for build, report in pairs:
        if build["trailer"]["suspension"] != "equalized":
            continue
        tracks = column(build["trailer"]["axles"], "track_in")
        for name, masses in moving_masses(build):
            weight, moment, lateral = totals(masses)
            tongue, loads = equalized(build, weight, moment)
            state = report.states[name]
            assert close(state.gross_mass_lb, weight, weight)
            assert close(state.tongue_lb, tongue, weight)
            for axle, load, share, track in zip(
                state.axles.values(), loads, shares(build["trailer"]), tracks, strict=True
            ):
                assert close(axle.load_lb, load, weight)
                assert close(axle.right_lb - axle.left_lb, 2 * share * lateral / track, weight)
            checked += 1
    assert checked > 100


def independent(build: Document, masses: Array, free: Array) -> Array:
    """Axle loads on springs that push and never pull, the slope found by a root finder."""
    trailer = build["trailer"]
    x, rate = column(trailer["axles"], "x_in"), column(trailer["axles"], "rate_lb_per_in")
    unsprung = column(trailer["axles"], "unsprung_lb")
    ball = trailer["coupler"]["ball_height_in"]
    moment = totals(masses)[1] - float(unsprung @ x)

    def loads(slope: float) -> Array:
        lifted: Array = rate * np.maximum(0, free - ball - slope * x)
        return lifted

    slope = brentq(lambda s: float(loads(s) @ x) - moment, -50, 50, xtol=1e-15, rtol=8.9e-16, maxiter=500)
    return loads(slope) + unsprung


def free_heights(build: Document, masses: Array) -> Array:
    """Heights at which the axles carry nothing, so that they share alike in the state it stands level in."""
    trailer = build["trailer"]
    x, rate = column(trailer["axles"], "x_in"), column(trailer["axles"], "rate_lb_per_in")
    unsprung = column(trailer["axles"], "unsprung_lb")
    each = (totals(masses)[1] - float(unsprung @ x)) / x.mean() / len(x)
    free: Array = trailer["level"]["ball_height_in"] + each / rate
    return free


def test_independent_axles_solve_by_a_root_finder(pairs: Pairs) -> None:
    checked = lifted = 0
    for build, report in pairs:
        if build["trailer"]["suspension"] != "independent" or not build.get("states"):
            continue
        states = moving_masses(build)
        moving = [m for name, m in states if build["states"][name].get("moving", True)]
        if not moving:
            continue
        free = free_heights(build, max(moving, key=lambda masses: totals(masses)[0]))
        for name, masses in states:
            expected = independent(build, masses, free)
            weight = totals(masses)[0]
            for axle, load in zip(report.states[name].axles.values(), expected, strict=True):
                # The slope is found to a part in 1e15 of a large spring force.
                assert axle.load_lb == pytest.approx(load, abs=1e-6 * weight)
            unsprung = column(build["trailer"]["axles"], "unsprung_lb")
            lifted += bool((expected <= unsprung + 1e-9).any())
            checked += 1
    assert checked > 50


def extreme_fraction(build: Document, sign: float) -> float:
    """Least (sign 1) or greatest (sign -1) tongue fraction of an equalized trailer, as a linear program.

    The quotient of two lines over a box becomes a linear program in q/W and 1/W (A. Charnes and W. W. Cooper,
    Naval Research Logistics Quarterly 9, 1962, from memory). A piece of cargo may be in part aboard here: the
    extreme is at a corner all the same.
    """
    fixed, loads = items(build), variables(build)
    trailer = build["trailer"]
    x, unsprung = column(trailer["axles"], "x_in"), column(trailer["axles"], "unsprung_lb")
    share = shares(trailer)
    station = float(share @ x)
    constant = float(unsprung @ x) / station - float(unsprung.sum())
    weight, moment, _ = totals(fixed)
    tongue = weight - moment / station + constant
    per_full = loads[:, 0] * (1 - loads[:, 1] / station)
    count = len(loads)
    objective = sign * np.append(per_full, tongue)
    equal = np.append(loads[:, 0], weight)[None, :]
    upper = np.hstack([np.eye(count), -np.ones((count, 1))])
    solved = linprog(objective, A_ub=upper, b_ub=np.zeros(count), A_eq=equal, b_eq=[1.0], bounds=(0, None))
    assert solved.success
    return float(sign * solved.fun)


def test_worst_tongue_fraction_is_a_linear_program(pairs: Pairs) -> None:
    checked = 0
    for build, report in pairs:
        if build["trailer"]["suspension"] != "equalized" or not len(variables(build)):
            continue
        worst = report.worst.tongue_fraction
        # The solver's own tolerance is 1e-7.
        assert worst.min.value == pytest.approx(extreme_fraction(build, 1.0), abs=1e-7)
        assert worst.max.value == pytest.approx(extreme_fraction(build, -1.0), abs=1e-7)
        checked += 1
    assert checked > 50


def sway_damping(
    build: Document, state: wainwright.reports.StateLoads, masses: Array, station_in: float
) -> float:
    """Least damping ratio of an oscillating pair of the linear single-track model, from its matrices."""
    tow = build["tow_vehicle"]
    assert state.tow_vehicle is not None
    alone = np.array([tow["front_axle_lb"], tow["rear_axle_lb"] + tow.get("hitch_lb", 0)]) * KG_PER_LB
    coupled = np.array([state.tow_vehicle.front_axle_lb, state.tow_vehicle.rear_axle_lb]) * KG_PER_LB
    stiffness = 0.14 * 180 / np.pi * GRAVITY
    weight, moment, _ = totals(masses)
    m1, m2 = alone.sum(), weight * KG_PER_LB
    a = tow["wheelbase_in"] * M_PER_IN * alone[1] / m1
    b = tow["wheelbase_in"] * M_PER_IN - a
    d = b + tow["ball_overhang_in"] * M_PER_IN
    i1 = 0.95 * m1 * a * b
    i2 = state.road.yaw_inertia_slug_ft2 * 1.3558179483314004
    e = moment / weight * M_PER_IN
    arm = station_in * M_PER_IN
    c_f, c_r = stiffness * coupled
    c_t = stiffness * moment / station_in * KG_PER_LB
    v = build.get("road", {}).get("sway_speed_mph", 65.0) * 0.44704
    inertia = np.array(
        [
            [m1 + m2, -m2 * (d + e), -m2 * e, 0],
            [-m2 * d, i1 + m2 * d * (d + e), m2 * d * e, 0],
            [-m2 * e, i2 + m2 * e * (d + e), i2 + m2 * e * e, 0],
            [0, 0, 0, 1],
        ]
    )
    # Side forces by state (v, r, theta', theta).
    front = -c_f / v * np.array([1, a, 0, 0])
    rear = -c_r / v * np.array([1, -b, 0, 0])
    tires = -c_t * np.array([1 / v, -(d + arm) / v, -arm / v, -1])
    turning = np.array([0, v, 0, 0])
    stiff = np.array(
        [
            front + rear + tires - (m1 + m2) * turning,
            a * front - b * rear - d * tires + m2 * d * turning,
            -arm * tires + m2 * e * turning,
            [0, 0, 1, 0],
        ]
    )
    values = eigvals(stiff, inertia)
    pairs_of = [value for value in values if value.imag > 1e-6]
    return min((-value.real / abs(value) for value in pairs_of), default=float("nan"))


def test_sway_damping_is_that_of_the_matrices(pairs: Pairs) -> None:
    checked = 0
    for build, report in pairs:
        for name, masses in moving_masses(build):
            state = report.states[name]
            if state.road.sway_damping is None:
                continue
            expected = sway_damping(build, state, masses, report.axle_station.now_in)
            if np.isnan(expected):
                continue
            assert state.road.sway_damping == pytest.approx(expected, abs=1e-8)
            checked += 1
    assert checked > 100
