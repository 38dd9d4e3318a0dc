"""What a box comes to, worked out by hand from its document, in SI.

Conductivities: EN ISO 10456 and usual foams. Surfaces and layers: ISO 6946. Windows: ASHRAE Handbook
Fundamentals 2005, chapter 31, and usual acrylic. People: ASHRAE Handbook Fundamentals 2009, chapter 18,
Table 1. Finishes and covers: common practice.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import Any

import numpy as np
import psychrolib

Document = dict[str, Any]
Array = np.ndarray[Any, np.dtype[np.float64]]

psychrolib.SetUnitSystem(psychrolib.SI)

FT = 0.3048
IN = 0.0254
BTU_J = 1055.05585262
BTU_H = BTU_J / 3600
"""A BTU/h [W]."""
R_SI = FT * FT / (BTU_H * 1.8)
"""A resistance of 1 h·ft²·°F/BTU [m²·K/W]."""
BTU_H_F = BTU_H * 1.8
"""A conductance of 1 BTU/(h·°F) [W/K]."""
FACINGS = ("roof", "floor", "front", "rear", "left", "right")

CONDUCTIVITY_W_M_K = {
    "steel": 50.0,
    "aluminum": 160.0,
    "plywood": 0.13,
    "osb": 0.13,
    "xps": 0.029,
    "eps": 0.038,
    "polyiso": 0.026,
    "glass_fiber_batt": 0.040,
    "acrylic": 0.19,
}
SOFTWOOD_W_M_K = 0.13
ABSORPTANCE_EMITTANCE = {
    "white": (0.30, 0.9),
    "white_new": (0.22, 0.9),
    "silver": (0.45, 0.9),
    "bare_aluminum": (0.35, 0.07),
    "tan": (0.50, 0.9),
    "gray": (0.65, 0.9),
    "dark_color": (0.75, 0.9),
    "black": (0.92, 0.9),
}
PANES_U_SHGC = {
    "single_glass": (1, 5.8, 0.86),
    "tinted_glass": (1, 5.8, 0.71),
    "double_glass": (2, 2.9, 0.77),
    "single_acrylic": (1, 5.5, 0.85),
    "double_acrylic": (2, 2.8, 0.75),
    "white_acrylic": (1, 5.5, 0.40),
}
PAST_COVER = {"none": 1.0, "curtain": 0.65, "foil_panel": 0.35, "reflective_film": 0.4, "outside_shade": 0.2}
INSIDE_M2_K_W = {"up": 0.10, "across": 0.13, "down": 0.17}
OUTSIDE_M2_K_W = 0.04
SUMMER = {"roof": "down", "floor": "up"}
WINTER = {"roof": "up", "floor": "down"}
HEAT_OF_PEOPLE_W = {
    "asleep": (50, 25),
    "seated": (70, 35),
    "light_work": (70, 45),
    "moderate_work": (75, 55),
    "standing": (75, 55),
    "bench_work": (80, 140),
    "cooking": (80, 110),
}


@dataclass(frozen=True)
class Face:
    """A surface without its windows."""

    facing: str
    area_m2: float
    inner_m2_k_w: float
    absorptance: float
    emittance: float
    lit: float


@dataclass(frozen=True)
class Pane:
    """A window."""

    facing: str
    area_m2: float
    u_w_m2_k: float
    shgc: float
    panes: int


def paths(layer: Document) -> list[tuple[float, float]]:
    """Shares and resistances of what is side by side in a layer: what it is made of, and wood."""
    wood = layer.get("wood_fraction", 0.0)
    if "r_value" in layer:
        return [(1.0, layer["r_value"] * R_SI)]
    thickness_m = layer["thickness_in"] * IN
    through = [(1 - wood, thickness_m / CONDUCTIVITY_W_M_K[layer["material"]])]
    return through + ([(wood, thickness_m / SOFTWOOD_W_M_K)] if wood > 0 else [])


def resistance_m2_k_w(surface: Document, season: dict[str, str]) -> float:
    """From air to air: the mean of no heat moving sideways and of layers as warm all over."""
    if "r_value" in surface:
        return float(surface["r_value"] * R_SI)
    inside = INSIDE_M2_K_W[season.get(surface["facing"], "across")]
    layers = [paths(layer) for layer in surface["layers"]]
    one_by_one = [
        np.prod([share for share, _ in path]) / (inside + OUTSIDE_M2_K_W + sum(r for _, r in path))
        for path in itertools.product(*layers)
    ]
    side_by_side = [1 / sum(share / r for share, r in layer) for layer in layers]
    return float((1 / sum(one_by_one) + inside + OUTSIDE_M2_K_W + sum(side_by_side)) / 2)


class Box:
    """The surfaces and windows of a box."""

    def __init__(self, build: Document, season: dict[str, str]) -> None:
        envelope = build["envelope"]
        surfaces: Document = envelope["surfaces"]
        windows: Document = envelope.get("windows", {})
        shaded = 1 - envelope.get("shade_fraction", 0.0)
        self.faces = [_face(name, surfaces, windows, shaded, season) for name in surfaces]
        self.panes = [_pane(window, shaded) for window in windows.values()]
        by_facing = {
            facing: sum(each["area_ft2"] for each in surfaces.values() if each["facing"] == facing)
            for facing in FACINGS
        }
        size_ft = by_facing["floor"], by_facing["left"], by_facing["front"]
        self.volume_m3 = envelope.get("volume_ft3", float(np.prod(size_ft)) ** 0.5) * FT**3
        self.floor_m2 = by_facing["floor"] * FT**2
        self.inner_m2 = sum(face.area_m2 for face in self.faces) + sum(pane.area_m2 for pane in self.panes)
        self.windows_w_k = sum(pane.u_w_m2_k * pane.area_m2 for pane in self.panes)

    def opaque_w_k(self, film_w_m2_k: float) -> float:
        """All faces together, from air to air."""
        return sum(each.area_m2 / (each.inner_m2_k_w + 1 / film_w_m2_k) for each in self.faces)


def _face(name: str, surfaces: Document, windows: Document, shaded: float, season: dict[str, str]) -> Face:
    surface = surfaces[name]
    inside_ft2 = sum(each["area_ft2"] for each in windows.values() if around(each, surfaces) == name)
    usual = (0.6 if surface["facing"] == "floor" else 0.3, 0.9)
    absorptance, emittance = ABSORPTANCE_EMITTANCE.get(surface.get("finish", ""), usual)
    return Face(
        facing=surface["facing"],
        area_m2=(surface["area_ft2"] - inside_ft2) * FT**2,
        inner_m2_k_w=resistance_m2_k_w(surface, season) - OUTSIDE_M2_K_W,
        absorptance=surface.get("solar_absorptance", absorptance),
        emittance=surface.get("emittance", emittance),
        lit=shaded * (1 - surface.get("shade_fraction", 0.0)),
    )


def around(window: Document, surfaces: Document) -> str:
    """The surface that a window is in: the one it names, or the largest that faces so."""
    alike = {name: each["area_ft2"] for name, each in surfaces.items() if each["facing"] == window["facing"]}
    return str(window.get("surface", max(alike, key=lambda name: alike[name])))


def _pane(window: Document, shaded: float) -> Pane:
    u_value = window.get("u_value")
    usual = "single_glass" if u_value is None or u_value >= 0.75 else "double_glass"
    panes, u_w_m2_k, shgc = PANES_U_SHGC[window.get("glazing", usual)]
    return Pane(
        facing=window["facing"],
        area_m2=window["area_ft2"] * FT**2,
        u_w_m2_k=u_w_m2_k if u_value is None else u_value / R_SI,
        shgc=window.get("shgc", shgc) * PAST_COVER[window.get("cover", "none")] * shaded,
        panes=panes,
    )


def outside_film_w_m2_k(wind_m_s: float, mean_c: float) -> float:
    """ISO 6946: wind, and radiation of painted faces at a mean temperature."""
    return 4 + 4 * wind_m_s + 4 * 0.9 * 5.670374419e-8 * (mean_c + 273.15) ** 3


LEAKAGE_BY_WIND = {
    "none": 0.000319,
    "light": 0.000246,
    "moderate": 0.000174,
    "heavy": 0.000104,
    "very_heavy": 0.000032,
}


def gaps_m3_s(envelope: Document, volume_m3: float, difference_k: float, wind_m_s: float) -> float:
    """Air through gaps: as often as is said, or Sherman and Grimsrud's by their area."""
    if "leakage_in2" not in envelope:
        return float(envelope.get("air_changes_per_h", 1.0) * volume_m3 / 3600)
    by_wind = LEAKAGE_BY_WIND[envelope.get("shelter", "moderate")]
    driven = 0.000145 * abs(difference_k) + by_wind * wind_m_s**2
    return float(envelope["leakage_in2"] * (100 * IN) ** 2 * driven**0.5 / 1000)


def people_w(occupancy: Document, hour: int, room_c: float) -> tuple[float, float]:
    """Heat that warms the room and heat in water, in an hour of the day."""
    if "away_from" in occupancy and within(hour, occupancy["away_from"], occupancy["away_to"]):
        return 0.0, 0.0
    asleep = within(hour, occupancy.get("asleep_from", 22), occupancy.get("asleep_to", 6))
    dry_w, wet_w = HEAT_OF_PEOPLE_W["asleep" if asleep else occupancy.get("activity", "light_work")]
    # Note 1 of the table: at 27 °C a fifth less warms the room, and as much more leaves as water.
    share = min(max(dry_w * (1 - 0.2 / 3 * (room_c - 24)), 0.0), dry_w + wet_w)
    return occupancy["people"] * share, occupancy["people"] * (dry_w + wet_w - share)


def within(hour: int, begin: int, end: int) -> bool:
    """A span of hours, which may run over midnight."""
    return begin <= hour < end if begin <= end else hour >= begin or hour < end
