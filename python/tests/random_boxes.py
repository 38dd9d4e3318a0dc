"""Envelope, climate and who is in it, of random builds. All weather here is invented."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from .random_circuits import some

if TYPE_CHECKING:
    from random import Random

Document = dict[str, Any]

FACINGS = ("roof", "floor", "front", "rear", "left", "right")
MATERIALS = ("steel", "aluminum", "plywood", "osb", "xps", "eps", "polyiso", "glass_fiber_batt", "acrylic")
FINISHES = ("white", "white_new", "silver", "bare_aluminum", "tan", "gray", "dark_color", "black")
GLAZINGS = (
    "single_glass",
    "tinted_glass",
    "double_glass",
    "single_acrylic",
    "double_acrylic",
    "white_acrylic",
)
COVERS = ("none", "curtain", "foil_panel", "reflective_film", "outside_shade")
SHELTERS = ("none", "light", "moderate", "heavy", "very_heavy")
ACTIVITIES = ("asleep", "seated", "light_work", "moderate_work", "standing", "bench_work", "cooking")


def add_box(random: Random, build: Document) -> None:
    """Gives a build that stands somewhere its box: cooling load can be asked of it."""
    bare = build.get("trailer", {}).get("bare", {})
    length_ft = bare.get("length_in", random.uniform(100, 300)) / 12
    width_ft = bare.get("width_in", random.uniform(60, 100)) / 12
    build["envelope"] = _envelope(random, (length_ft, width_ft, random.uniform(5, 8)))
    if random.random() < 0.9:
        build["climate"] = _climate(random)
    if random.random() < 0.8:
        build["occupancy"] = _occupancy(random)
    for part in build.get("parts", {}).values():
        part |= some(random, {"heat_w": random.uniform(-50, 400)}) if random.random() < 0.3 else {}
    build["site"] |= some(random, {"cooling_design": _hot_day(random), "heating_design": _cold_night(random)})


def random_box(random: Random) -> Document:
    """A box and nothing else, through three days of invented weather."""
    build: Document = {"site": a_place(random) | {"weather": {"hourly": three_days(random)}}}
    add_box(random, build)
    return build


def a_place(random: Random) -> Document:
    """Somewhere on earth, the clock near the sun's."""
    longitude_deg = random.uniform(-180, 180)
    return {
        "latitude_deg": random.uniform(-90, 90),
        "longitude_deg": longitude_deg,
        "elevation_ft": random.uniform(-1000, 10000),
        "utc_offset_h": float(max(round(longitude_deg / 15), -12)),
        "heading_deg": random.uniform(-360, 360),
        "albedo": random.random(),
    }


def three_days(random: Random) -> Document:
    """Warm and cool, clear and clouded, in steps of 60, 30, 15 or 5 minutes."""
    step_min = random.choice((60, 30, 15, 5))
    count = 3 * 1440 // step_min
    hours = [(step + 0.5) * step_min / 60 for step in range(count)]
    clouds = [random.random() for _ in range(3)]
    noon = [max(math.sin((hour - 6) / 12 * math.pi), 0) for hour in hours]
    clear = [noon[step] * (1 - clouds[step * step_min // 1440]) for step in range(count)]
    mean_f, swing_f = random.uniform(30, 95), random.uniform(3, 20)
    air_f = [mean_f - swing_f * math.cos((hour - 3) / 12 * math.pi) + random.uniform(-2, 2) for hour in hours]
    series: Document = {"start": "2024-06-28T00:00", "step_min": step_min, "dry_bulb_f": air_f}
    series["ghi_w_m2"] = [1000 * sun for sun in noon]
    if random.random() < 0.7:
        series["dni_w_m2"] = [900 * sun for sun in clear]
        series["dhi_w_m2"] = [400 * sun for sun in noon]
    return series | some(
        random,
        {
            "dew_point_f": [min(air_f) - random.uniform(0, 20) for _ in hours],
            "wind_mph": [random.uniform(0, 25) for _ in hours],
        },
    )


def _envelope(random: Random, size_ft: tuple[float, float, float]) -> Document:
    length_ft, width_ft, height_ft = size_ft
    areas_ft2 = {
        "roof": length_ft * width_ft,
        "floor": length_ft * width_ft,
        "front": width_ft * height_ft,
        "rear": width_ft * height_ft,
        "left": length_ft * height_ft,
        "right": length_ft * height_ft,
    }
    surfaces: Document = {}
    for facing, area_ft2 in areas_ft2.items():
        # Some walls are of two pieces, a door in one.
        parted = random.choice((1.0, 1.0, random.uniform(0.6, 0.9)))
        surfaces[f"{facing}_0"] = _surface(random, facing, parted * area_ft2)
        if parted < 1:
            surfaces[f"{facing}_1"] = _surface(random, facing, (1 - parted) * area_ft2)
    envelope: Document = {"surfaces": surfaces}
    if random.random() < 0.8:
        windows = {f"window_{i}": _window(random, surfaces) for i in range(random.randint(1, 3))}
        envelope["windows"] = windows
    if random.random() < 0.5:
        envelope["air_changes_per_h"] = random.choice((0.0, random.uniform(0, 5)))
    elif random.random() < 0.7:
        envelope["leakage_in2"] = random.uniform(0, 40)
        envelope |= some(random, {"shelter": random.choice(SHELTERS)})
    envelope |= some(
        random,
        {
            "volume_ft3": random.uniform(0.4, 1.2) * length_ft * width_ft * height_ft,
            "shade_fraction": random.random(),
            "heat_capacity_btu_f": random.uniform(20, 2000),
        },
    )
    if random.random() < 0.5:
        load: Document = {"mass_lb": random.uniform(1, 2000), "area_ft2": random.uniform(1, 100)}
        envelope["floor_load"] = load | some(random, {"specific_heat_btu_lb_f": random.uniform(0.1, 1)})
    return envelope


def _surface(random: Random, facing: str, area_ft2: float) -> Document:
    surface: Document = {"area_ft2": area_ft2, "facing": facing}
    if random.random() < 0.5:
        surface["r_value"] = random.uniform(1, 25)
    else:
        surface["layers"] = [_layer(random) for _ in range(random.randint(1, 5))]
        posts: Document = {
            "material": random.choice(("steel", "aluminum", "wood")),
            "depth_in": random.uniform(0.5, 4),
            "spacing_in": random.uniform(12, 48),
        }
        surface |= some(random, {"posts": posts | some(random, {"foam_in": random.uniform(0, 2)})})
    if random.random() < 0.4:
        surface["finish"] = random.choice(FINISHES)
    else:
        surface |= some(random, {"solar_absorptance": random.random(), "emittance": random.random()})
    return surface | some(random, {"shade_fraction": random.random()})


def _layer(random: Random) -> Document:
    if random.random() < 0.2:
        return {"r_value": random.uniform(0.1, 12)}
    layer: Document = {"material": random.choice(MATERIALS), "thickness_in": random.uniform(0.02, 3)}
    return layer | some(random, {"wood_fraction": random.choice((0.0, random.uniform(0, 0.3)))})


def _window(random: Random, surfaces: Document) -> Document:
    facing = random.choice(FACINGS)
    # The first piece of a wall is its larger one: a window that names none is in it.
    window: Document = {
        "area_ft2": random.uniform(0.02, 0.3) * surfaces[f"{facing}_0"]["area_ft2"],
        "facing": facing,
    }
    return window | some(
        random,
        {
            "surface": f"{facing}_0",
            "glazing": random.choice(GLAZINGS),
            "u_value": random.uniform(0.2, 1.3),
            "shgc": random.random(),
            "cover": random.choice(COVERS),
        },
    )


def _climate(random: Random) -> Document:
    cooling: Document = {"capacity_btu_h": random.uniform(2000, 20000)}
    cooling |= some(
        random,
        {
            "setpoint_f": random.uniform(70, 85),
            "humidity_fraction": random.uniform(0.3, 0.7),
            "kind": random.choice(("window", "rooftop", "single_hose")),
            "sensible_fraction": random.uniform(0.65, 0.9),
            "recirculated_fraction": random.choice((0.0, random.uniform(0, 0.4))),
            "fan_always_on": random.random() < 0.5,
            "duct_fraction": random.uniform(0.5, 1),
            "start_hour": random.randint(0, 23),
        },
    )
    drawn = {"ceer": random.uniform(7, 16), "power_w": random.uniform(200, 2500)}
    cooling |= dict([random.choice(list(drawn.items()))]) if random.random() < 0.7 else {}
    heating: Document = {"capacity_btu_h": random.uniform(500, 30000)}
    heating |= some(
        random,
        {
            "setpoint_f": random.uniform(45, 65),
            "kind": random.choice(("electric", "heat_pump", "propane_vented", "propane_unvented")),
            "efficiency": random.uniform(0.5, 1),
            "night_h": random.uniform(0, 24),
        },
    )
    fan: Document = {"airflow_cfm": random.uniform(50, 1500)}
    fan |= some(
        random,
        {
            "screen_fraction": random.uniform(0.3, 1),
            "inlet_in2": random.uniform(20, 400),
            "limit_f": random.uniform(75, 95),
        },
    )
    windows = {"area_ft2": random.uniform(0.2, 8)} | some(random, {"height_in": random.uniform(0, 60)})
    all_of_it = {"cooling": cooling, "heating": heating, "fan": fan, "open_windows": windows}
    return some(random, all_of_it | {"detail": random.choice(("hours", "steps"))})


def _occupancy(random: Random) -> Document:
    occupancy: Document = {"people": random.randint(0, 4)}
    occupancy |= some(
        random,
        {
            "activity": random.choice(ACTIVITIES),
            "asleep_from": random.randint(0, 23),
            "asleep_to": random.randint(0, 23),
            "fresh_air_cfm": random.uniform(0, 40),
        },
    )
    if random.random() < 0.4:
        occupancy["away_from"], occupancy["away_to"] = random.sample(range(24), 2)
    if random.random() < 0.4:
        meals = random.sample(range(24), random.randint(1, 3))
        occupancy["cooking"] = {"btu_per_meal": random.uniform(200, 5000), "hours": meals}
    return occupancy


def _hot_day(random: Random) -> Document:
    low_f = random.uniform(30, 90)
    day = {"day_of_year": random.randint(1, 366), "min_f": low_f, "max_f": low_f + random.uniform(0, 40)}
    return day | some(
        random,
        {
            "dew_point_f": low_f - random.uniform(0, 40),
            "wind_mph": random.uniform(0, 25),
            "linke_turbidity": random.uniform(1, 8),
        },
    )


def _cold_night(random: Random) -> Document:
    # No hotter than the coldest of the hot days.
    return {"dry_bulb_f": random.uniform(-40, 30)} | some(random, {"wind_mph": random.uniform(0, 30)})
