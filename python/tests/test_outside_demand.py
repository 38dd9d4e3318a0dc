"""The demand on a source against numpy: convolution, and every set of loads."""

from __future__ import annotations

from random import Random
from typing import Any

import numpy as np
import pytest

from .test_outside_circuits import Document, parts, the_mode

SEED = 2606

Array = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int_]]


def convolved(steps: Whole, on: Array, limit_steps: int) -> float:
    """Chance that loads of so many steps, each on by itself, come to more than the limit."""
    chances = np.ones(1)
    for step, share in zip(steps, on, strict=True):
        one = np.zeros(int(step) + 1)
        one[0] += 1 - share
        one[-1] += share
        chances = np.convolve(chances, one)
    return float(chances[limit_steps + 1 :].sum())


def enumerated(steps: Whole, on: Array, limit_steps: int) -> float:
    """The same, over every set of loads."""
    sets = (np.arange(2 ** len(steps))[:, np.newaxis] >> np.arange(len(steps)) & 1).astype(bool)
    chances = np.where(sets, on, 1 - on).prod(axis=1)
    return float(chances[sets @ steps > limit_steps].sum())


def test_the_trip_risk_is_that_of_every_set_of_loads() -> None:
    risky = 0
    for index in range(60):
        random = Random(f"{SEED}/demand/{index}")
        by_hour = random.random() < 0.7
        loads: list[Document] = []
        for _ in range(random.randint(1, 10)):
            load: Document = {"circuit": "one", "current_a": random.uniform(0.2, 15)}
            if by_hour and random.random() < 0.7:
                load["on_fraction"] = [random.choice((0.0, 1.0, random.random())) for _ in range(24)]
            else:
                load["hours_per_day"] = random.uniform(0, 24)
            loads.append(load)
        rating_a = random.uniform(10, 30)
        shore = {"kind": "shore", "voltage_v": 120, "rating_a": rating_a}
        electrical = {"sources": {"shore": shore}, "circuits": {"one": {}}}
        source = the_mode({"electrical": electrical, "parts": parts(loads)}).sources["shore"]

        current_a = np.array([load["current_a"] for load in loads])
        steps = np.floor(10 * current_a + 0.5).astype(int)
        evenly = [[load.get("hours_per_day", 0) / 24] * 24 for load in loads]
        on = np.array([load.get("on_fraction", even) for load, even in zip(loads, evenly, strict=True)]).T
        risks = []
        for hour in range(24):
            certain = bool(current_a[on[hour] > 0].sum() <= rating_a)
            limit_steps = int(10 * rating_a)
            risk = 0.0 if certain else enumerated(steps, on[hour], limit_steps)
            if not certain:
                assert convolved(steps, on[hour], limit_steps) == pytest.approx(risk, abs=1e-12)
            risks.append(risk)
        assert source.trip_risk == pytest.approx(max(risks), abs=1e-12)
        assert source.expected_a == pytest.approx((on @ current_a).mean(), rel=1e-12)
        for demand in source.hours:
            share = on[demand.hour]
            assert demand.trip_risk == pytest.approx(risks[demand.hour], abs=1e-12)
            assert demand.expected_a == pytest.approx(share @ current_a, abs=1e-11)
            assert demand.peak_a == pytest.approx(current_a[share > 0].sum(), abs=1e-11)
        assert len(source.hours) == (24 if any("on_fraction" in load for load in loads) else 0)
        risky += max(risks) > 0
    assert risky > 30
