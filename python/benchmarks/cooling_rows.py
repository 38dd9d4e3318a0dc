"""A hot day of many boxes with scipy: a network of three heat capacities, for each its matrix exponential."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numba
import numpy as np
from scipy.linalg import expm

Array = np.ndarray[Any, np.dtype[np.float64]]

STEP_S, STEPS = 300.0, 288
SETTLED_K = 0.01
"""A day that ends so near to where it began is the day that comes again and again."""
CAPACITY = np.array([72e3, 620e3, 260e3])
"""Air, lining and what stands in the box [J/K]."""
TO_SURFACE = np.array([160.0, 315.0, 50.0])
"""From each to a surface that has no capacity [W/K]."""
WALLS_W_K, ROOF_W_K_R, WINDOWS_W_K, AIR_J_K = 44.0, 59.0, 4.0, 24.8e3
"""Walls; the roof by its resistance; windows; the air of one change."""
SENSIBLE_FRACTION = 0.7


def lap(
    state: Array, left: Array, rise: Array, moved: Array, cool_c: float, most_w: float
) -> tuple[Array, tuple[float, float, float]]:
    """A day: where it ends, and its warmest air [°C], energy [kWh] and greatest load [W]."""
    warmest_c, taken_j, peak_w = -np.inf, 0.0, 0.0
    for step in range(STEPS):
        state = left @ state + moved[step]
        asked_w = max((state[0] - cool_c) / rise[0], 0.0)
        taken_w = min(asked_w, most_w)
        state = state - taken_w * rise
        warmest_c = max(warmest_c, state[0])
        peak_w = max(peak_w, asked_w)
        taken_j += taken_w * STEP_S
    return state, (warmest_c, taken_j / 3.6e6 / 3.2, peak_w)


compiled: Callable[..., Any] = numba.njit(lap)


class ScipyCooling:
    """A hot day; boxes differ in roof, air that comes in, air conditioner and what it is set to."""

    def __init__(self, lap: Callable[..., Any]) -> None:
        self.lap = lap
        hour = np.arange(STEPS) * STEP_S / 3600
        sun = np.clip(np.sin((hour - 6) / 12 * np.pi), 0, None)
        air_c = 27.0 + 8.0 * np.sin((hour - 9) / 12 * np.pi)
        # Outdoor air, sol-air temperature, heat into air, surfaces and lining.
        self.drives = np.array(
            [air_c, air_c + 18 * sun, np.full(STEPS, 150.0), 20 + 100 * sun, 40 + 300 * sun]
        ).T

    def row(
        self, capacity_btu_h: float, cool_f: float, roof_r: float, changes_per_h: float
    ) -> tuple[float, float, float]:
        """Warmest air [°C], energy [kWh] and greatest load [W]."""
        out = np.array([AIR_J_K * changes_per_h / 3600, WALLS_W_K + ROOF_W_K_R / roof_r, 0.0])
        share = TO_SURFACE / (TO_SURFACE.sum() + WINDOWS_W_K)
        augmented = np.zeros((8, 8))
        augmented[:3, :3] = np.outer(TO_SURFACE, share) - np.diag(TO_SURFACE + out)
        augmented[:3, 3:] = np.array(
            [share * WINDOWS_W_K + [out[0], 0, 0], [0, out[1], 0], [1, 0, 0], share, [0, 1, 0]]
        ).T
        augmented[:3] /= CAPACITY[:, None]
        stepped = expm(STEP_S * augmented)
        left, rise = stepped[:3, :3].copy(), stepped[:3, 5].copy()
        moved = self.drives @ stepped[:3, 3:].T
        cool_c, most_w = (cool_f - 32) / 1.8, SENSIBLE_FRACTION * capacity_btu_h * 0.29307107
        state, before = np.full(3, cool_c), np.full(3, np.inf)
        day = (0.0, 0.0, 0.0)
        while np.abs(state - before).max() > SETTLED_K:
            before = state
            state, day = self.lap(state, left, rise, moved, cool_c, most_w)
        return day


def boxes(rows: int, rng: np.random.Generator) -> dict[str, Array]:
    """Roofs, air that comes in, and air conditioners that vary."""
    return {
        "climate.cooling.capacity_btu_h": rng.uniform(5000, 13500, rows),
        "climate.cooling.setpoint_f": rng.uniform(70, 80, rows),
        "envelope.surfaces.roof.r_value": rng.uniform(3, 14, rows),
        "envelope.air_changes_per_h": rng.uniform(0.3, 2, rows),
    }


def cooling_scores() -> list[str]:
    """What the air conditioner makes of the day."""
    return [f"cooling_load.{name}" for name in ("held_f", "cooling_kwh_per_day", "peak.total_btu_h")]
