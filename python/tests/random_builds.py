"""Random builds of every shape, all of whose numbers are doubles of full length."""

from __future__ import annotations

from random import Random
from typing import Any

from .random_boxes import add_box
from .random_circuits import add_circuits, some
from .random_sites import add_site

COUNT = 200
FLUIDS = ("fresh_water", "grey_water", "black_water", "propane", "gasoline", "diesel")
CATEGORIES = ("shell", "furniture", "electrical", "water")

Document = dict[str, Any]


def random_builds(seed: int, count: int = COUNT) -> list[Document]:
    """So many builds, always the same for the same seed."""
    return [random_build(Random(f"{seed}/{index}")) for index in range(count)]


def random_build(random: Random) -> Document:
    """A build that every question can be put to."""
    build: Document = {
        "name": f"invented {random.random()}",
        "trailer": _trailer(random),
        "parts": {f"part-{i}": _part(random) for i in range(random.randrange(13))},
        "tanks": {f"tank_{i}": _tank(random) for i in range(random.randrange(5))},
        "cargo": {f"cargo_{i}": _cargo(random) for i in range(random.randrange(6))},
    }
    if random.random() < 0.8:
        build["tow_vehicle"] = _tow_vehicle(random)
    if random.random() < 0.8:
        build["states"] = {f"state_{i}": _state(random, build) for i in range(random.randint(1, 4))}
    if random.random() < 0.5:
        build["road"] = some(random, _road(random))
    if random.random() < 0.5:
        build["bay"] = _bay(random)
    add_circuits(random, build)
    add_site(random, build)
    add_box(random, build)
    return build


def _place(random: Random) -> Document:
    x_in, y_in, z_in = random.uniform(-10, 260), random.uniform(-40, 40), random.uniform(10, 100)
    return {"x_in": x_in, "y_in": y_in, "z_in": z_in}


def _tolerances(random: Random) -> Document:
    return some(random, {"mass_tolerance_lb": random.uniform(0, 30), "x_tolerance_in": random.uniform(0, 3)})


def _trailer(random: Random) -> Document:
    place = {"x_in": random.uniform(120, 160), "y_in": random.uniform(-4, 4), "z_in": random.uniform(30, 50)}
    bare = {"mass_lb": random.uniform(1200, 3500), **place, **_tolerances(random)}
    if random.random() < 0.5:
        bare |= {"length_in": random.uniform(120, 300), "width_in": random.uniform(60, 100)}
    trailer: Document = {"gvwr_lb": random.uniform(2990, 12000), "bare": bare}
    trailer |= _running_gear(random)
    trailer["coupler"] = {"ball_height_in": random.uniform(15, 26)}
    trailer["coupler"] |= some(
        random,
        {name: random.uniform(200, 12000) for name in ("rating_lb", "max_tongue_lb", "ball_rating_lb")},
    )
    jack = {"x_in": random.uniform(4, 12), "rating_lb": random.uniform(1000, 5000)}
    chains = {"count": random.randint(1, 2), "breaking_strength_lb": random.uniform(2000, 15000)}
    floor = {"front_x_in": random.uniform(40, 60), "rear_x_in": random.uniform(200, 260)}
    return trailer | some(random, {"jack": jack, "chains": chains, "floor": floor})


def _running_gear(random: Random) -> Document:
    front = random.uniform(120, 180)
    stations = [front] if random.random() < 0.2 else [front, front + random.uniform(30, 40)]
    axles = {name: _axle(random, x) for name, x in zip(("front", "rear"), stations, strict=False)}
    if random.random() < 0.5:
        gear: Document = {"suspension": "equalized", "axles": axles}
        if len(axles) == 2 and random.random() < 0.5:
            arms = {"front_arm_in": random.uniform(4, 8), "rear_arm_in": random.uniform(4, 8)}
            gear["equalizer"] = arms
        return gear
    for axle in axles.values():
        axle["rate_lb_per_in"] = random.uniform(800, 2500)
    return {"suspension": "independent", "axles": axles, "level": {"ball_height_in": random.uniform(15, 26)}}


def _axle(random: Random, x_in: float) -> Document:
    axle = {"x_in": x_in, "gawr_lb": random.uniform(2000, 7000), "track_in": random.uniform(60, 90)}
    return axle | some(
        random,
        {
            "tires": random.choice((2, 4)),
            "tire_max_load_lb": random.uniform(1200, 3500),
            "tire_type": random.choice(("trailer", "light_truck", "passenger")),
            "rim_max_load_lb": random.uniform(1200, 3500),
            "unsprung_lb": random.uniform(100, 400),
            "x_tolerance_in": random.uniform(0, 2),
        },
    )


def _tow_vehicle(random: Random) -> Document:
    vehicle = {
        "front_axle_lb": random.uniform(2000, 4000),
        "rear_axle_lb": random.uniform(1500, 4000),
        "wheelbase_in": random.uniform(110, 180),
        "ball_overhang_in": random.uniform(30, 70),
    }
    ratings = (
        "front_gawr_lb",
        "rear_gawr_lb",
        "gvwr_lb",
        "gcwr_lb",
        "tow_rating_lb",
        "receiver_max_tongue_lb",
    )
    vehicle |= some(random, {name: random.uniform(500, 20000) for name in ratings})
    fitted = {"front_load_restoration": random.random(), "hitch_lb": random.uniform(20, 100)}
    return vehicle | some(random, fitted)


def _part(random: Random) -> Document:
    part: Document = {"mass_lb": random.uniform(0, 350), **_place(random), **_tolerances(random)}
    return part | some(random, {"quantity": random.randrange(5), "category": random.choice(CATEGORIES)})


def _tank(random: Random) -> Document:
    tank: Document = {"fluid": random.choice(FLUIDS), "capacity_gal": random.uniform(1, 60), **_place(random)}
    return tank | some(random, {"density_lb_per_gal": random.uniform(4, 9)})


def _cargo(random: Random) -> Document:
    cargo: Document = {"mass_lb": random.uniform(0, 900), **_place(random), **_tolerances(random)}
    if random.random() < 0.3:
        sizes = ("length_in", "width_in", "height_in", "wheelbase_in")
        cargo["toy"] = {name: random.uniform(20, 100) for name in sizes}
    if random.random() < 0.3:
        cargo["tie_downs"] = {f"strap_{i}": _tie_down(random) for i in range(random.randint(1, 5))}
    return cargo


def _tie_down(random: Random) -> Document:
    return {
        "wll_lb": random.uniform(200, 2000),
        "floor_angle_deg": random.uniform(20, 70),
        "axis_angle_deg": random.uniform(0, 90),
        "pulls": random.choice(("forward", "rearward")),
        "side": random.choice(("left", "right")),
    }


def _state(random: Random, build: Document) -> Document:
    aboard = [name for name in build["cargo"] if random.random() < 0.6]
    fill = {name: random.random() for name in build["tanks"] if random.random() < 0.8}
    state: Document = {"aboard": aboard, "fill": fill}
    state |= some(random, {"moving": random.random() < 0.8})
    if random.random() < 0.3:
        state["scale"] = _scale(random, build)
    return state


def _scale(random: Random, build: Document) -> Document:
    scale: Document = {"total_lb": random.uniform(2000, 7000)}
    if random.random() < 0.5:
        axles = build["trailer"]["axles"]
        scale = {
            "tongue_lb": random.uniform(100, 900),
            "axles": {name: random.uniform(900, 3500) for name in axles},
        }
    removed = [name for name in build["parts"] if random.random() < 0.2]
    return scale | some(random, {"tolerance_lb": random.uniform(5, 40), "not_installed": removed})


def _road(random: Random) -> Document:
    return {
        "stop_g": random.uniform(0.2, 0.6),
        "emergency_stop_g": random.uniform(0.6, 1.0),
        "brake_share_fraction": random.random(),
        "grade_fraction": random.uniform(0, 0.2),
        "side_g": random.uniform(0, 0.5),
        "sway_speed_mph": random.uniform(30, 80),
    }


def _bay(random: Random) -> Document:
    bay = {"front_x_in": random.uniform(100, 160), "rear_x_in": random.uniform(200, 250)}
    clear = ("clear_width_in", "clear_height_in", "opening_width_in", "opening_height_in")
    bay |= some(random, {name: random.uniform(50, 90) for name in clear})
    if random.random() < 0.5:
        bay |= {"deck_height_in": random.uniform(18, 30), "ramp_length_in": random.uniform(60, 90)}
    return bay
