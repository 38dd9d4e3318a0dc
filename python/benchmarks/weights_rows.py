"""The weights of many rows with pandas: whole columns, fixed sums beforehand, worst cases one by one."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
import pandas as pd

STATES = ("delivered", "outbound", "homebound", "camped")
"""The states of the build of which figures are wanted."""
WEIGHS = {"fresh_water": 8.34, "grey_water": 8.34, "propane": 4.24}
"""Pounds in a gallon."""
VARIED = ("galley", "battery_bank", "bunk_left")
"""Parts whose masses vary; the place of the first does too, and mass and place of the ATV."""

Array = np.ndarray[Any, np.dtype[np.float64]]

Number = Any
"""A number, or one a row."""


@dataclass(frozen=True)
class Load:
    """Mass, its moment about the ball, and that about the centerline."""

    mass: Number
    moment: Number
    side: Number

    def __add__(self, other: Load) -> Load:
        return Load(self.mass + other.mass, self.moment + other.moment, self.side + other.side)


NOTHING = Load(0.0, 0.0, 0.0)


class PandasWeights:
    """A build of two axles of even shares, made ready for rows."""

    def __init__(self, build: dict[str, Any]) -> None:
        self.build, self.bare = build, build["trailer"]["bare"]
        still = [part for name, part in build["parts"].items() if name not in VARIED]
        self.still = sum((self.of(part) for part in [self.bare, *still]), NOTHING)
        axles = list(build["trailer"]["axles"].values())
        self.group_in = float(np.mean([axle["x_in"] for axle in axles]))
        self.track_in: float = axles[0]["track_in"]
        self.cargo = {name: self.of(one) for name, one in build["cargo"].items() if name != "atv"}
        self.tanks = {name: self.filled(tank) for name, tank in build["tanks"].items()}

    def of(self, item: dict[str, Any]) -> Load:
        """What a part or a piece of cargo adds."""
        mass = item["mass_lb"] * item.get("quantity", 1)
        return Load(mass, mass * item.get("x_in", self.bare["x_in"]), mass * item.get("y_in", 0.0))

    def filled(self, tank: dict[str, Any]) -> Load:
        """What a full tank adds."""
        density = tank.get("density_lb_per_gal", WEIGHS[tank["fluid"]])
        return self.of({**tank, "mass_lb": tank["capacity_gal"] * density})

    def state(self, state: dict[str, Any]) -> Load:
        """Liquids and still cargo of a state."""
        load = NOTHING
        for name, fill in state.get("fill", {}).items():
            full = self.tanks[name]
            load = load + Load(full.mass * fill, full.moment * fill, full.side * fill)
        return sum((self.cargo[name] for name in state.get("aboard", []) if name != "atv"), load)

    def varied(self, rows: pd.DataFrame) -> tuple[Load, Load]:
        """What stands in the trailer, and the ATV."""
        fixed = self.still
        for name in VARIED:
            mass = rows[f"parts.{name}.mass_lb"]
            part = self.build["parts"][name]
            x_in = part.get("x_in", self.bare["x_in"]) if name != "galley" else rows["parts.galley.x_in"]
            fixed = fixed + Load(mass, mass * x_in, mass * part.get("y_in", 0.0))
        mass, atv = rows["cargo.atv.mass_lb"], self.build["cargo"]["atv"]
        return fixed, Load(mass, mass * rows["cargo.atv.x_in"], mass * atv.get("y_in", 0.0))

    def score(self, rows: pd.DataFrame) -> pd.DataFrame:
        """Every figure of every row."""
        fixed, atv = self.varied(rows)
        scored: dict[str, Number] = {}
        for name in STATES:
            state = self.build["states"][name]
            aboard = fixed + self.state(state)
            if "atv" in state.get("aboard", []):
                aboard = aboard + atv
            axles = aboard.moment / self.group_in
            tongue = aboard.mass - axles
            payload, axle_load = f"payload.states.{name}.", f"axle_load.states.{name}."
            scored[payload + "gross_mass_lb"] = aboard.mass
            scored[payload + "payload_left_lb"] = self.build["trailer"]["gvwr_lb"] - aboard.mass
            scored[axle_load + "tongue_lb"] = tongue
            scored[axle_load + "tongue_fraction"] = tongue / aboard.mass
            for axle in ("front", "rear"):
                scored[axle_load + f"axles.{axle}.load_lb"] = axles / 2
        scored |= self.worst(fixed, atv)
        refused = rows.lt(0).any(axis=1) | rows.isna().any(axis=1)
        return pd.DataFrame(scored).assign(refused=refused)

    def worst(self, fixed: Load, atv: Load) -> dict[str, Number]:
        """Least and greatest over every tank empty or full, every piece of cargo aboard or not, one by one.

        Of straight lines each tank and each piece could be looked at by itself, as ours does; whoever knows
        that needs pandas for far less.
        """
        still = [*self.tanks.values(), *self.cargo.values()]
        choices = [
            sum((one for one, is_in in zip(still, choice, strict=True) if is_in), NOTHING)
            for choice in product((False, True), repeat=len(still))
        ]
        least: dict[str, Number] = {}
        greatest: dict[str, Number] = {}
        for stands in (fixed, fixed + atv):
            for choice in choices:
                aboard = stands + choice
                axles = aboard.moment / self.group_in
                tongue = aboard.mass - axles
                half, shift = axles / 4, aboard.side / 2 / self.track_in
                figures = {
                    "gross_mass_lb": aboard.mass,
                    "tongue_lb": tongue,
                    "tongue_fraction": tongue / aboard.mass,
                    "axle": axles / 2,
                    "left": half - shift,
                    "right": half + shift,
                }
                for name, figure in figures.items():
                    least[name] = np.minimum(least[name], figure) if name in least else figure
                    greatest[name] = np.maximum(greatest[name], figure) if name in greatest else figure
        scored: dict[str, Number] = {}
        for end, found in (("min", least), ("max", greatest)):
            for name in ("gross_mass_lb", "tongue_lb", "tongue_fraction"):
                scored[f"axle_load.worst.{name}.{end}.value"] = found[name]
            for axle in ("front", "rear"):
                of = f"axle_load.worst.axles.{axle}."
                scored[f"{of}{end}.value"] = found["axle"]
                for side in ("left", "right"):
                    scored[f"{of}{side}.{end}.value"] = found[side]
        return scored


def masses(rows: int, rng: np.random.Generator) -> dict[str, Array]:
    """Masses and places that vary."""
    return {
        "parts.galley.mass_lb": rng.uniform(0, 300, rows),
        "parts.galley.x_in": rng.uniform(60, 200, rows),
        "parts.battery_bank.mass_lb": rng.uniform(30, 120, rows),
        "parts.bunk_left.mass_lb": rng.uniform(10, 60, rows),
        "cargo.atv.mass_lb": rng.uniform(300, 900, rows),
        "cargo.atv.x_in": rng.uniform(150, 240, rows),
    }


def weight_scores() -> list[str]:
    """Six figures of each state, and the worst cases."""
    of = ("tongue_lb", "tongue_fraction", "axles.front.load_lb", "axles.rear.load_lb")
    scores = []
    for state in STATES:
        scores += [f"payload.states.{state}.{name}" for name in ("gross_mass_lb", "payload_left_lb")]
        scores += [f"axle_load.states.{state}.{name}" for name in of]
    for end in ("min", "max"):
        worst = ["gross_mass_lb", "tongue_lb", "tongue_fraction", "axles.front", "axles.rear"]
        worst += [f"axles.{axle}.{side}" for axle in ("front", "rear") for side in ("left", "right")]
        scores += [f"axle_load.worst.{name}.{end}.value" for name in worst]
    return scores
