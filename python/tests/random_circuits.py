"""The electrical side of random builds: supplies, circuits, loads, battery and solar arrays."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from random import Random

Document = dict[str, Any]

SIZES = (
    "18",
    "16",
    "14",
    "12",
    "10",
    "8",
    "6",
    "4",
    "3",
    "2",
    "1",
    "1/0",
    "2/0",
    "3/0",
    "4/0",
    "250k",
    "500k",
)
DEVICES = ("breaker", "blade", "bolt_down_large", "terminal_post", "anl", "class_t", "thermal_breaker")
LOAD_KINDS = ("electronic", "resistive", "motor", "room_air_conditioner", "lighting")


def add_circuits(random: Random, build: Document) -> None:
    """Wires a build: circuit load can be asked of it, with all its parts in their places."""
    electrical: Document = {"sources": _sources(random)}
    electrical["circuits"] = _circuits(random, electrical["sources"])
    if len(electrical["sources"]) > 1 or random.random() < 0.5:
        electrical["modes"] = {f"mode_{i}": _mode(random, electrical) for i in range(random.randint(1, 3))}
    flags = {"energy_management": random.random() < 0.3, "neutral_bonded": random.random() < 0.3}
    build["electrical"] = electrical | some(random, flags)
    for part in build["parts"].values():
        if random.random() < 0.7:
            part["electrical"] = _draw(random, electrical)
    if random.random() < 0.8:
        build["battery"] = _battery(random)
    if random.random() < 0.5:
        build["solar"] = _solar(random)


def some(random: Random, fields: Document) -> Document:
    """Each field by the toss of a coin."""
    return {name: value for name, value in fields.items() if random.random() < 0.5}


def _flag(random: Random) -> bool:
    return random.random() < 0.5


def _wire(random: Random) -> Document:
    wire: Document = {"run_ft": random.uniform(0, 40)}
    return wire | some(
        random,
        {
            "awg": random.choice(SIZES),
            "insulation_c": random.choice((60, 75, 80, 90, 105, 125, 200)),
            "ambient_f": random.uniform(20, 150),
            "bundled": random.randint(1, 12),
            "material": random.choice(("copper", "aluminum")),
            "terminal_c": random.choice((60, 75, 90)),
            "areas": random.choice(("awg", "marine")),
            "cord": _flag(random),
            "sheathed": _flag(random),
            "engine_space": _flag(random),
            "sunlit_roof": _flag(random),
            "chassis_return": _flag(random),
            "minimum_awg": random.choice(SIZES),
        },
    )


def _sources(random: Random) -> Document:
    sources: Document = {}
    if random.random() < 0.8:
        sources["shore"] = _source(random, "shore")
    if random.random() < 0.3:
        sources["generator"] = _source(random, "generator") | _power(random)
    if random.random() < 0.7 or not sources:
        sources["house_battery"] = {"kind": "battery", "voltage_v": random.uniform(11, 15)}
        sources["house_battery"] |= some(
            random, {"rating_a": random.uniform(50, 400), "lead": _wire(random), "path_a": _path(random)}
        )
        if random.random() < 0.6:
            own = {"efficiency": random.uniform(0.7, 1), "cutoff_v": random.uniform(9, 11)}
            own["idle_w"] = random.uniform(0, 60)
            inverter = _source(random, "inverter") | _power(random) | some(random, own)
            sources["inverter"] = inverter | some(random, {"circuit": "inverter_feed"})
    return sources


def _source(random: Random, kind: str) -> Document:
    source: Document = {"kind": kind, "voltage_v": random.uniform(110, 130)}
    if random.random() < 0.4:
        source |= {"legs": 2} | some(random, {"in_phase": _flag(random)})
    return source | some(
        random,
        {
            "rating_a": random.uniform(10, 60),
            "path_a": _path(random),
            "continuous_fraction": random.uniform(0.6, 1),
            "neutral_bonded": _flag(random),
            "gfci": _flag(random),
            "lead": _wire(random),
        },
    )


def _path(random: Random) -> Document:
    return {f"plug_{i}": random.uniform(10, 60) for i in range(random.randint(1, 3))}


def _power(random: Random) -> Document:
    continuous_w = random.uniform(500, 5000)
    surge_w = continuous_w * random.uniform(1, 3)
    return some(random, {"continuous_w": continuous_w}) | some(
        random, {"surge_w": surge_w, "surge_s": random.uniform(0, 5)}
    )


def _circuits(random: Random, sources: Document) -> Document:
    circuits: Document = {}
    if len(sources) > ("house_battery" in sources):
        names = [f"line_{i}" for i in range(random.randint(1, 6))]
        circuits |= {name: _circuit(random) for name in names}
        for name, other in itertools.pairwise(names):
            _join(random, circuits, name, other)
    if "house_battery" in sources:
        names = [f"low_{i}" for i in range(random.randint(1, 6))]
        circuits |= {name: _circuit(random) for name in names}
        circuits["inverter_feed"] = _circuit(random)
        if random.random() < 0.3:
            circuits["inverter_feed"]["feeder"] = names[0]
        for name in names[1:]:
            if random.random() < 0.4:
                circuits[name]["feeder"] = names[0]
    return circuits


def _join(random: Random, circuits: Document, name: str, other: str) -> None:
    """Puts circuits on legs, and branches one off the other or lets both share a neutral."""
    if "leg" not in circuits[name]:
        circuits[name] |= some(random, {"leg": random.choice(("a", "b", "both"))})
    chance = random.random()
    if chance < 0.3 and "feeder" not in circuits[name]:
        of_feeder = {"leg": circuits[name]["leg"]} if "leg" in circuits[name] else {}
        circuits[other] |= {"feeder": name, **of_feeder}
    elif chance < 0.5 and circuits[name].get("leg") in ("a", "b"):
        circuits[other] |= {"leg": "b" if circuits[name]["leg"] == "a" else "a", "shares_neutral_with": name}
        circuits[name]["shares_neutral_with"] = other


def _circuit(random: Random) -> Document:
    return some(
        random,
        {
            "breaker_a": random.uniform(5, 60),
            "device": random.choice(DEVICES),
            "interrupting_a": random.uniform(500, 20000),
            "device_v": random.uniform(10, 250),
            "device_distance_in": random.uniform(0, 90),
            "series_rated": _flag(random),
            "receptacle_a": random.choice((15, 20, 30, 50)),
            "receptacles": random.randint(1, 8),
            "gfci": _flag(random),
            "near_water": _flag(random),
            "bus": random.choice(("main_panel", "fuse_block")),
            "max_drop_fraction": random.uniform(0.01, 0.1),
            "wire": _wire(random),
        },
    )


def _mode(random: Random, electrical: Document) -> Document:
    """A mode that feeds most circuits; what branches off a feeder mostly goes without saying."""
    lines = [name for name in electrical["sources"] if name != "house_battery"]
    feeds: Document = {}
    for name, circuit in electrical["circuits"].items():
        if "feeder" in circuit:
            if circuit["feeder"] in feeds and random.random() < 0.2:
                feeds[name] = feeds[circuit["feeder"]]
        elif random.random() < 0.9:
            feeds[name] = random.choice(lines) if name.startswith("line") else "house_battery"
    rated = {name: random.uniform(5, 60) for name in electrical["sources"]}
    return {"feeds": feeds} | some(random, {"limits_a": some(random, rated)})


def _draw(random: Random, electrical: Document) -> Document:
    draw: Document = {"circuit": random.choice(list(electrical["circuits"]))}
    charger: Document = {"output_a": random.uniform(5, 60)}
    charger |= some(random, {"output_v": random.uniform(12, 15), "efficiency": random.uniform(0.7, 1)})
    if "house_battery" in electrical["sources"]:
        charger |= some(random, {"source": "house_battery"})
    draw |= random.choice(
        (
            {"power_w": random.uniform(0, 1800)},
            {"power_w": random.uniform(0, 100)},
            {"current_a": random.uniform(0, 15)},
            {"horsepower": random.uniform(0.01, 3)} | some(random, {"code_letter": random.choice("ABGLV")}),
            {"capacity_btu_h": random.uniform(4000, 20000)} | some(random, {"ceer": random.uniform(8, 15)}),
            {"charger": charger},
        )
    )
    cools = {"kind": "room_air_conditioner"} if "capacity_btu_h" in draw else {}
    other = some(
        random,
        {
            "rated_v": random.uniform(110, 130)
            if draw["circuit"].startswith("line")
            else random.uniform(11, 14),
            "power_factor": random.uniform(0.05, 1),
            "kind": random.choice(LOAD_KINDS),
            "continuous": _flag(random),
            "inrush_multiple": random.uniform(1, 12),
            "inrush_s": random.uniform(0, 3),
            "hours_per_day": random.uniform(0, 24),
            "on_fraction": [random.choice((0.0, random.random())) for _ in range(24)],
            "fixed": _flag(random),
            "thermostat": _flag(random),
            "momentary": _flag(random),
            "priority": random.uniform(0, 10),
        },
    )
    return draw | other | cools


def _battery(random: Random) -> Document:
    battery: Document = {
        "chemistry": random.choice(("flooded", "agm", "gel", "lifepo4")),
        "capacity_ah": random.uniform(50, 600),
        "nominal_v": random.uniform(11, 15),
    }
    return battery | some(
        random,
        {
            "usable_fraction": random.uniform(0.01, 1),
            "resistance_mohm": random.uniform(0.5, 20),
            "open_circuit_v": random.uniform(12, 15),
            "charge_v": random.uniform(13, 16),
            "short_circuit_a": random.uniform(500, 10000),
            "cold_cranking_a": random.uniform(200, 2000),
            "vent_in2": random.uniform(0, 6),
            "max_discharge_a": random.uniform(50, 400),
        },
    )


def _solar(random: Random) -> Document:
    controller: Document = {"kind": random.choice(("mppt", "pwm")), "max_output_a": random.uniform(5, 60)}
    controller |= some(
        random,
        {
            "max_pv_v": random.uniform(20, 200),
            "max_pv_a": random.uniform(10, 60),
            "efficiency": random.uniform(0.8, 1),
            "breaker_a": random.uniform(5, 80),
            "wire": _wire(random),
        },
    )
    fields = {
        "controller": controller,
        "lowest_f": random.uniform(-60, 60),
        "hottest_cell_f": random.uniform(100, 200),
    }
    arrays = {f"array_{i}": _array(random) for i in range(random.randint(1, 3))}
    return {"arrays": arrays} | some(random, fields)


def _array(random: Random) -> Document:
    voc_v, isc_a = random.uniform(10, 60), random.uniform(2, 20)
    array: Document = {"power_w": random.uniform(50, 1200)}
    return array | some(
        random,
        {
            "tilt_deg": random.uniform(0, 90),
            "azimuth_deg": random.uniform(-360, 360),
            "mount": random.choice(("open", "close", "insulated")),
            "voc_v": voc_v,
            "isc_a": isc_a,
            "vmp_v": voc_v * random.uniform(0.7, 0.95),
            "imp_a": isc_a * random.uniform(0.7, 0.98),
            "series": random.randint(1, 4),
            "parallel": random.randint(1, 4),
            "voc_fraction_per_c": random.uniform(-0.005, 0),
            "vmp_fraction_per_c": random.uniform(-0.006, 0),
            "max_series_fuse_a": random.uniform(5, 40),
            "string_fuse_a": random.uniform(5, 40),
            "breaker_a": random.uniform(5, 80),
            "wire": _wire(random),
        },
    )
