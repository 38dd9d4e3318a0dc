"""Voltages against nodal and phasor equations, solved by numpy and scipy."""

from __future__ import annotations

import csv
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from scipy.optimize import brentq, root

import wainwright

if TYPE_CHECKING:
    from collections.abc import Iterable

SEED = 2605
DATA = Path(__file__).parents[2] / "crates" / "wainwright" / "data"
W_PER_HP = 745.6998715822702
CHASSIS_OHM = 0.005
# Iterated here and there, each to the last few bits.
CLOSE = 1e-9

Document = dict[str, Any]
Array = np.ndarray[Any, np.dtype[np.float64]]
Phasors = np.ndarray[Any, np.dtype[np.complex128]]


def table(file: str, column: str) -> dict[str, float]:
    """A column of a published table by size; of solid and stranded wire the latter."""
    lines = (DATA / file).read_text(encoding="utf-8").splitlines()
    rows = csv.DictReader(line for line in lines if not line.startswith("#"))
    return {row["size"]: float(row[column]) for row in rows if row[column]}


# NEC Chapter 9, Tables 8 and 9: ohms per 1000 ft of one conductor, at 75 °C.
RESISTANCE = {
    "copper": table("resistance_dc_chapter_9_table_8.csv", "cu_uncoated"),
    "aluminum": table("resistance_dc_chapter_9_table_8.csv", "al"),
}
REACTANCE = table("impedance_ac_chapter_9_table_9.csv", "xl_pvc_al")


def loop_ohm(wire: Document | None) -> float:
    """Resistance out and back, or out alone and back through the chassis."""
    if wire is None:
        return 0.0
    one_way: float = RESISTANCE[wire.get("material", "copper")][wire["awg"]] * wire["run_ft"] / 1000
    return one_way + CHASSIS_OHM if wire.get("chassis_return") else 2 * one_way


def loop_reactance_ohm(wire: Document) -> float:
    """Reactance out and back; sizes that the table does not have count as having none."""
    run_ft: float = wire["run_ft"]
    return 2 * REACTANCE.get(wire["awg"], 0.0) * run_ft / 1000


def loads_on(build: Document, circuits: Iterable[str]) -> list[Document]:
    """What is on any of these circuits."""
    names = set(circuits)
    draws = (part["electrical"] for part in build["parts"].values())
    return [draw for draw in draws if draw["circuit"] in names]


def parts(loads: list[Document]) -> Document:
    """Parts that draw so much; their masses do not matter."""
    return {f"load_{i}": {"mass_lb": 1, "electrical": load} for i, load in enumerate(loads)}


def the_mode(build: Document) -> wainwright.reports.ModeLoad:
    """The answer for the only mode."""
    (mode,) = wainwright.Build.from_dict(build).circuit_load().modes.values()
    return mode


# Direct current


def on_a_battery(random: Random) -> Document:
    """Feeders with branches on a battery, and often an inverter on a cable of its own."""

    def wire(sizes: tuple[str, ...]) -> Document:
        some = {"run_ft": random.uniform(0, 15), "awg": random.choice(sizes)}
        if random.random() < 0.2:
            some["chassis_return"] = True
        return some

    circuits: Document = {f"feeder_{i}": {"wire": wire(("6", "4", "2"))} for i in range(random.randint(1, 4))}
    for i in range(random.randint(0, 6)):
        circuits[f"branch_{i}"] = {"feeder": random.choice([name for name in circuits if "feeder_" in name])}
        if random.random() < 0.9:
            circuits[f"branch_{i}"]["wire"] = wire(("14", "12", "10"))
    loads: list[Document] = []
    for _ in range(random.randint(1, 10)):
        says = random.choice(
            (
                {"power_w": random.uniform(0, 80)},
                {"current_a": random.uniform(0, 6)},
                {"power_w": random.uniform(0, 80), "kind": "resistive", "rated_v": random.uniform(11, 14)},
                {"current_a": random.uniform(0, 6), "kind": "resistive"},
                {"horsepower": random.uniform(0.01, 0.1), "kind": "motor"},
            )
        )
        loads.append({"circuit": random.choice(list(circuits)), **says})
    battery = {"kind": "battery", "voltage_v": random.uniform(12, 13.4)}
    if random.random() < 0.7:
        battery["lead"] = wire(("1/0", "2/0", "4/0"))
    sources: Document = {"house_battery": battery}
    feeds = {name: "house_battery" for name, circuit in circuits.items() if "feeder" not in circuit}
    if random.random() < 0.6:
        circuits |= {"cable": {"wire": wire(("2/0", "4/0"))}, "outlet": {}}
        feeds |= {"cable": "house_battery", "outlet": "inverter"}
        loads.append({"circuit": "outlet", "power_w": random.uniform(1, 500)})
        sources["inverter"] = {"kind": "inverter", "voltage_v": 120, "circuit": "cable"}
        sources["inverter"] |= {"continuous_w": random.uniform(300, 1500), "idle_w": random.uniform(0, 40)}
        sources["inverter"] |= {"efficiency": random.uniform(0.8, 0.95)}
    electrical = {"sources": sources, "circuits": circuits, "modes": {"off_grid": {"feeds": feeds}}}
    bank = {"chemistry": "lifepo4", "capacity_ah": 200, "nominal_v": 12.8}
    bank |= {"resistance_mohm": random.uniform(0.5, 8)}
    return {"electrical": electrical, "battery": bank, "parts": parts(loads)}


def nodal_voltages(build: Document) -> dict[str, float]:
    """Voltage of the bus and at the end of each circuit: Ohm's and Kirchhoff's laws, and a root finder."""
    electrical = build["electrical"]
    battery = electrical["sources"]["house_battery"]
    source_v = battery["voltage_v"]
    circuits = {name: circuit for name, circuit in electrical["circuits"].items() if name != "outlet"}
    nodes = ["bus", *circuits]
    above = [-1, *(nodes.index(circuit.get("feeder", "bus")) for circuit in circuits.values())]
    bus_ohm = build["battery"]["resistance_mohm"] / 1000 + loop_ohm(battery.get("lead"))
    ohms = np.array([bus_ohm, *(loop_ohm(circuit.get("wire")) for circuit in circuits.values())])
    watts, siemens = np.zeros(len(nodes)), np.zeros(len(nodes))
    for draw in loads_on(build, circuits):
        node = nodes.index(draw["circuit"])
        if "horsepower" in draw:
            watts[node] += draw["horsepower"] * W_PER_HP / 0.6
        elif draw.get("kind") != "resistive":
            watts[node] += draw.get("power_w", draw.get("current_a", 0) * source_v)
        elif "power_w" in draw:
            siemens[node] += draw["power_w"] / draw["rated_v"] ** 2
        else:
            siemens[node] += draw["current_a"] / source_v
    if "inverter" in electrical["sources"]:
        inverter = electrical["sources"]["inverter"]
        input_w = inverter["idle_w"] + inverter["continuous_w"] / inverter["efficiency"]
        watts[nodes.index("cable")] += input_w

    # Row by row: 1 where the node of the column hangs on the node of the row.
    below = np.array([[float(other == node) for other in above] for node in range(len(nodes))])

    def unbalanced(x: Array) -> Array:
        volts, amperes = np.split(x, 2)
        feeding_v = np.where(np.array(above) < 0, source_v, volts[above])
        kirchhoff = amperes - watts / volts - siemens * volts - below @ amperes
        return np.concatenate([feeding_v - volts - ohms * amperes, kirchhoff])

    start = np.concatenate([np.full(len(nodes), source_v), np.zeros(len(nodes))])
    found = root(unbalanced, start, tol=1e-14)
    assert np.abs(unbalanced(found.x)).max() < 1e-10
    return {node: float(found.x[i]) for i, node in enumerate(nodes)}


def test_direct_voltages_balance_at_every_node() -> None:
    circuits = inverters = 0
    lowest = 1.0
    for index in range(100):
        build = on_a_battery(Random(f"{SEED}/{index}"))
        mode = the_mode(build)
        expected = nodal_voltages(build)
        assert mode.sources["house_battery"].bus_v == pytest.approx(expected.pop("bus"), rel=CLOSE)
        source_v = build["electrical"]["sources"]["house_battery"]["voltage_v"]
        for name, voltage_v in expected.items():
            assert mode.circuits[name].arriving_v == pytest.approx(voltage_v, rel=CLOSE)
            circuits += 1
            lowest = min(lowest, voltage_v / source_v)
        inverters += "cable" in expected
    assert circuits > 300
    assert inverters > 30
    # Far enough below the source for constant power to matter.
    assert lowest < 0.9


@pytest.mark.parametrize(("share", "holds"), [(0.999, True), (1.001, False)])
def test_a_supply_collapses_past_half_its_voltage(share: float, holds: bool) -> None:
    wire = {"awg": "12", "run_ft": 20.0}
    ohm = 0.004 + loop_ohm(wire)
    most_w = 12.8**2 / (4 * ohm)
    sources = {"house_battery": {"kind": "battery", "voltage_v": 12.8}}
    electrical = {"sources": sources, "circuits": {"far": {"wire": wire}}}
    bank = {"chemistry": "lifepo4", "capacity_ah": 200, "nominal_v": 12.8, "resistance_mohm": 4}
    loads = parts([{"circuit": "far", "power_w": share * most_w}])
    mode = the_mode({"electrical": electrical, "battery": bank, "parts": loads})
    assert (mode.circuits["far"].arriving_v is not None) == holds
    if holds:
        expected_v = 6.4 * (1 + np.sqrt(1 - share))
        assert mode.circuits["far"].arriving_v == pytest.approx(expected_v, rel=CLOSE)


# Alternating current


def apparent(draws: list[Document]) -> complex:
    """Power and lagging reactive power of loads that keep theirs."""
    watts = np.array([draw["power_w"] for draw in draws])
    factors = np.array([draw["power_factor"] for draw in draws])
    volt_amperes = watts / factors
    return complex(watts.sum(), (volt_amperes * np.sqrt(1 - factors**2)).sum())


def received_v(sent_v: float, wire: Document, power: complex) -> float:
    """Voltage behind a wire, at loads that keep their power: the upper root of the phasor equation."""
    impedance = complex(loop_ohm(wire), loop_reactance_ohm(wire))

    def beyond(voltage_v: float) -> float:
        return abs(voltage_v + impedance * power.conjugate() / voltage_v) - sent_v

    # What must be sent is least where the drop is as large as what arrives.
    least_v = np.sqrt(abs(impedance) * abs(power))
    return float(brentq(beyond, max(least_v, 1.0), 1.1 * sent_v, xtol=1e-13, rtol=1e-15))


def test_alternating_voltages_solve_the_phasor_equation() -> None:
    compared = 0
    for index in range(80):
        random = Random(f"{SEED}/ac/{index}")
        sizes = ("16", "14", "12", "10", "8", "2", "3/0", "300k")
        circuits: Document = {
            f"circuit_{i}": {"wire": {"awg": random.choice(sizes), "run_ft": random.uniform(1, 60)}}
            for i in range(random.randint(2, 5))
        }
        for name in list(circuits)[1:]:
            if random.random() < 0.4:
                circuits[name]["feeder"] = "circuit_0"
        loads = [
            {
                "circuit": random.choice(list(circuits)),
                "power_w": random.uniform(0, 500),
                "power_factor": random.uniform(0.3, 1),
                "kind": random.choice(("electronic", "lighting", "motor")),
            }
            for _ in range(random.randint(1, 8))
        ]
        cord = {"awg": random.choice(("12", "10")), "run_ft": random.uniform(5, 100), "cord": True}
        supply_v = random.uniform(110, 125)
        shore = {"kind": "shore", "voltage_v": supply_v, "lead": cord}
        build: Document = {
            "electrical": {"sources": {"shore": shore}, "circuits": circuits},
            "parts": parts(loads),
        }
        mode = the_mode(build)
        bus_v = received_v(supply_v, cord, apparent(loads))
        assert mode.sources["shore"].bus_v == pytest.approx(bus_v, rel=CLOSE)
        arriving_v: dict[str, float] = {}
        for name, circuit in circuits.items():
            below = [other for other in circuits if circuits[other].get("feeder") == name]
            power = apparent(loads_on(build, [name, *below]))
            sent_v = arriving_v["circuit_0"] if "feeder" in circuit else bus_v
            arriving_v[name] = received_v(sent_v, circuit["wire"], power)
            assert mode.circuits[name].arriving_v == pytest.approx(arriving_v[name], rel=CLOSE)
            size_a = abs(power) / supply_v
            assert mode.circuits[name].phasor_a == pytest.approx(size_a, rel=CLOSE, abs=1e-9)
            compared += 1
    assert compared > 200


def test_two_legs_solve_as_a_network_of_three_nodes() -> None:
    for index in range(60):
        random = Random(f"{SEED}/legs/{index}")
        circuits = {"left": {"leg": "a"}, "right": {"leg": "b"}, "across": {"leg": "both"}}
        loads = [
            {
                "circuit": random.choice(list(circuits)),
                "power_w": random.uniform(50, 1500),
                "power_factor": random.uniform(0.4, 1),
            }
            for _ in range(random.randint(1, 8))
        ]
        supply_v = random.uniform(110, 125)
        cord = {"awg": random.choice(("8", "6")), "run_ft": random.uniform(5, 80), "cord": True}
        shore = {"kind": "shore", "voltage_v": supply_v, "legs": 2, "lead": cord}
        build: Document = {
            "electrical": {"sources": {"shore": shore}, "circuits": circuits},
            "parts": parts(loads),
        }
        legs = the_mode(build).sources["shore"].legs
        assert legs is not None

        def currents(draws: list[Document], across_v: float) -> Phasors:
            watts = np.array([draw["power_w"] for draw in draws])
            factors = np.array([draw["power_factor"] for draw in draws])
            return np.asarray(watts / factors / across_v * (factors - 1j * np.sqrt(1 - factors**2)))

        # Sizes add up for devices, phasors for the neutral, from which what is across both legs stays away.
        left = currents(loads_on(build, ["left"]), supply_v)
        right = currents(loads_on(build, ["right"]), supply_v)
        across_a = np.abs(currents(loads_on(build, ["across"]), 2 * supply_v)).sum()
        a_a, b_a = np.abs(left).sum() + across_a, np.abs(right).sum() + across_a
        assert legs.a_a == pytest.approx(a_a, rel=CLOSE)
        assert legs.b_a == pytest.approx(b_a, rel=CLOSE)
        assert legs.neutral_a == pytest.approx(abs(left.sum() - right.sum()), abs=CLOSE * (a_a + b_a))

        wire_s = 2 / loop_ohm(cord)
        a_s, b_s = a_a / supply_v, b_a / supply_v
        network = [
            [wire_s + a_s, 0, -a_s],
            [0, wire_s + b_s, -b_s],
            [-a_s, -b_s, wire_s + a_s + b_s],
        ]
        a_v, b_v, neutral_v = np.linalg.solve(network, [wire_s * supply_v, -wire_s * supply_v, 0])
        assert legs.a_v == pytest.approx(a_v - neutral_v, rel=CLOSE)
        assert legs.b_v == pytest.approx(neutral_v - b_v, rel=CLOSE)


def test_legs_in_phase_add_in_the_neutral() -> None:
    for index in range(20):
        random = Random(f"{SEED}/phase/{index}")
        loads = [
            {
                "circuit": random.choice(("left", "right")),
                "power_w": random.uniform(50, 1500),
                "power_factor": random.uniform(0.4, 1),
            }
            for _ in range(random.randint(1, 6))
        ]
        shore = {"kind": "shore", "voltage_v": 120, "legs": 2, "in_phase": True}
        circuits = {"left": {"leg": "a"}, "right": {"leg": "b"}}
        electrical = {"sources": {"shore": shore}, "circuits": circuits}
        legs = the_mode({"electrical": electrical, "parts": parts(loads)}).sources["shore"].legs
        assert legs is not None
        assert legs.neutral_a == pytest.approx(abs(apparent(loads)) / 120, rel=CLOSE)
        assert legs.in_phase
