"""The battery's ledger, its two wells and its life against plain Python, scipy and rainflow.

Everything that a step is made of is written here anew, from what the doc comments and the papers they name
say: the wells as their two differential equations, not as their solution.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cache
from random import Random
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
import rainflow
from scipy.integrate import solve_ivp
from scipy.optimize import root

import wainwright
from wainwright import reports

if TYPE_CHECKING:
    from collections.abc import Sequence

SEED = 2612
BUILDS = 60
Document = dict[str, Any]
Array = np.ndarray[Any, np.dtype[np.float64]]


@dataclass(frozen=True)
class Usual:
    """What the doc comments take of a chemistry where a build does not say."""

    usable: float
    round_trip: float
    exponent: float
    charge_per_h: float
    self_discharge: float
    absorption_h: float
    cycles: float
    depth: float
    years: float


USUAL = {
    "flooded": Usual(0.5, 0.80, 1.25, 0.12, 0.075, 1.5, 600, 0.5, 5),
    "agm": Usual(0.5, 0.85, 1.10, 0.25, 0.02, 1.5, 550, 0.5, 5),
    "gel": Usual(0.5, 0.85, 1.15, 0.17, 0.02, 1.5, 550, 0.5, 5),
    "lifepo4": Usual(0.9, 0.94, 1.0, 0.5, 0.02, 0.2, 3000, 0.8, 12),
}


@cache
def flow(available_share: float, rate_per_h: float, step_h: float) -> tuple[float, float, float]:
    """What the well at hand holds after a step, of one at hand, of one bound, and of one drawn evenly.

    `dq1/dt = -I - k [(1 - c) q1 - c q2]`, `dq2/dt = k [(1 - c) q1 - c q2]`, integrated. Source: Manwell and
    McGowan, Solar Energy 50, 1993, from memory.
    """

    def after(at_hand: float, bound: float, current: float) -> float:
        def change(_: float, wells: Array) -> list[float]:
            settling = rate_per_h * ((1 - available_share) * wells[0] - available_share * wells[1])
            return [-current - settling, settling]

        solved = solve_ivp(change, (0, step_h), [at_hand, bound], "DOP853", rtol=1e-13, atol=1e-15)
        return float(solved.y[0, -1])

    return after(1, 0, 0), after(0, 1, 0), after(0, 0, 1 / step_h)


@cache
def wells(exponent: float) -> tuple[float, float, float]:
    """The c, k and, by the capacity at 20 h, q_max that give in 1, 20 and 100 h what Peukert's law says."""

    def delivered(c: float, k: float, hours_h: float) -> float:
        decay = np.exp(-k * hours_h)
        return float(k * c * hours_h / (1 - decay + c * (k * hours_h - 1 + decay)))

    def miss(of: Array) -> list[float]:
        c, k = of
        twenty = delivered(c, k, 20)
        return [
            delivered(c, k, 1) / twenty - (1 / 20) ** (1 - 1 / exponent),
            delivered(c, k, 100) / twenty - min(5 ** (1 - 1 / exponent), 1.3),
        ]

    c, k = root(miss, [0.5, 0.2], tol=1e-13).x
    assert max(map(abs, miss(np.array([c, k])))) < 1e-12
    return float(c), float(k), 1 / delivered(c, k, 20)


def share_left(chemistry: str, battery_c: float) -> float:
    """Share of the capacity that the cold leaves, by the tables of the doc comments."""
    if chemistry == "lifepo4":
        return float(np.interp(battery_c, [-20, -10, 0, 25], [0.65, 0.775, 0.875, 1.0]))
    larger = [1.59, 1.40, 1.30, 1.19, 1.11, 1.04, 1.00]
    return 1 / float(np.interp(32 + 1.8 * battery_c, [20, 30, 40, 50, 60, 70, 80], larger))


@dataclass
class Battery:
    """A bank in steps of a length, in Wh."""

    document: Document
    step_h: float

    def __post_init__(self) -> None:
        document, usual = self.document, USUAL[self.document["chemistry"]]
        self.chemistry: str = document["chemistry"]
        self.usable: float = document.get("usable_fraction", usual.usable)
        self.one_way: float = document.get("round_trip_efficiency", usual.round_trip) ** 0.5
        self.is_lead = self.chemistry != "lifepo4"
        self.exponent: float = document.get("peukert_exponent", usual.exponent)
        nominal_v, capacity_ah = document["nominal_v"], document["capacity_ah"]
        rated_ah = capacity_ah
        if self.is_lead:
            rated_ah *= (document.get("rated_h", 20) / 20) ** (1 / self.exponent - 1)
        self.rated_wh: float = rated_ah * nominal_v
        self.full_wh: float = self.rated_wh
        if self.is_lead:
            self.share, rate_per_h, by_rated = wells(self.exponent)
            self.full_wh = by_rated * self.rated_wh
            self.of_hand, self.of_bound, self.of_drawn = flow(self.share, rate_per_h, self.step_h)
        charge_a = document.get("max_charge_a", usual.charge_per_h * capacity_ah)
        self.charge_wh: float = charge_a * nominal_v * self.step_h
        self.discharge_wh: float = document.get("max_discharge_a", np.inf) * nominal_v * self.step_h
        kept_30_days = 1 - document.get("self_discharge_fraction", usual.self_discharge)
        self.kept: float = kept_30_days ** (self.step_h / 720)
        absorption_h = document.get("absorption_h", usual.absorption_h)
        self.absorbed = 1 - math.exp(-self.step_h / absorption_h) if absorption_h else 1.0
        self.stored_wh: float = self.full_wh
        self.at_hand_wh: float = self.share * self.full_wh if self.is_lead else self.full_wh
        self.is_off = False
        self.reached: set[str] = set()

    def soc(self) -> float:
        """What is missing from full, by the rated energy, from 1."""
        return 1 - (self.full_wh - self.stored_wh) / self.rated_wh

    def settled_wh(self) -> float:
        """What the well at hand holds at the end of a step without a draw."""
        return self.of_hand * self.at_hand_wh + self.of_bound * (self.stored_wh - self.at_hand_wh)

    def move(self, drawn_wh: float) -> None:
        """Draws evenly over the step, or stores where it is below 0."""
        if self.is_lead:
            self.at_hand_wh = self.settled_wh() + self.of_drawn * drawn_wh
        self.stored_wh -= drawn_wh

    def held(self, wanted_wh: float, limits_wh: dict[str, float]) -> float:
        """What is wanted, held to the least of its limits and 0; which one that is, is noted."""
        name = min(limits_wh, key=limits_wh.__getitem__)
        if limits_wh[name] < wanted_wh:
            self.reached.add(name)
        return max(min(wanted_wh, limits_wh[name]), 0.0)

    def give(self, wanted_wh: float, battery_c: float) -> float:
        """Gives the bus what it can of what is wanted."""
        floor_wh = self.full_wh - self.usable * share_left(self.chemistry, battery_c) * self.rated_wh
        limits_wh = {"floor": self.stored_wh - floor_wh, "discharge": self.discharge_wh / self.one_way}
        if self.is_lead:
            limits_wh["well empty"] = self.settled_wh() / -self.of_drawn
        drawn_wh = self.held(wanted_wh / self.one_way, limits_wh)
        self.move(drawn_wh)
        return drawn_wh * self.one_way

    def take(self, offered_wh: float, acceptance: float) -> float:
        """Takes from the bus what it can of what is offered."""
        room_wh = (self.full_wh - self.stored_wh) * self.absorbed
        limits_wh = {"charge": self.charge_wh * acceptance, "absorption": room_wh / self.one_way}
        if self.is_lead:
            fits_wh = (self.share * self.full_wh - self.settled_wh()) / -self.of_drawn
            limits_wh["well full"] = fits_wh / self.one_way
        taken_wh = self.held(offered_wh, limits_wh)
        stored_wh = taken_wh * self.one_way
        if self.is_lead:
            # Copetti, Lorenzo and Chenlo 1993, the current by that of 10 h.
            tenths = 10 * taken_wh / (self.rated_wh * self.step_h)
            soc = min(max(self.soc(), 0.0), 1.0)
            stored_wh *= max(1 - math.exp(20.73 / (tenths + 0.55) * (soc - 1)), 0.0)
        self.move(-stored_wh)
        return taken_wh

    def rest(self) -> None:
        """Loses by itself at the end of a step."""
        self.stored_wh *= self.kept
        self.at_hand_wh *= self.kept


@dataclass
class Books:
    """What came of a series."""

    end_soc: list[float]
    unmet_wh: list[float]
    spilled_wh: float = 0.0
    other_wh: float = 0.0
    lost_wh: float = 0.0
    reached: set[str] = field(default_factory=set)


def followed_c(air_c: list[float], lag_h: float, step_h: float) -> list[float]:
    """Temperature of a battery at the end of each step, as warm as the air at first."""
    kept = math.exp(-step_h / lag_h) if lag_h else 0.0
    battery_c = air_c[0]
    return [battery_c := each + (battery_c - each) * kept for each in air_c]


def heated(build: Document, sun_w: Sequence[float], battery_c: list[float]) -> list[bool]:
    """Steps in which a heater is on: below 5 °C, and while the arrays give something."""
    cold = [each < 5 and sun > 0 for each, sun in zip(battery_c, sun_w, strict=True)]
    return [each and "heater_w" in build["battery"] for each in cold]


def kept_books(
    build: Document, sun_w: Sequence[float], load_w: Sequence[float], battery_c: list[float]
) -> Books:
    """The ledger: the sun first, then what else charges, then the battery."""
    document = build["battery"]
    nominal_v = document["nominal_v"]
    step_h = build["site"]["weather"]["hourly"]["step_min"] / 60
    battery = Battery(document, step_h)
    running: set[str] = set()
    books = Books([], [], reached=battery.reached)
    for step, is_heated in enumerate(heated(build, sun_w, battery_c)):
        hour = int(step * step_h) % 24
        sun_wh = min(sun_w[step], build["solar"]["controller"]["max_output_a"] * nominal_v) * step_h
        offered_wh = 0.0
        for name, source in document.get("charging", {}).items():
            start = source.get("start_soc")
            limit = source.get("stop_soc", np.inf) if name in running else start
            running.discard(name)
            if start is None or battery.soc() < limit:
                running.add(name)
                offered_wh += source["output_a"] * nominal_v * source["on_fraction"][hour] * step_h
        if battery.is_off and battery.soc() >= document["reconnect_soc"]:
            battery.is_off = False
        load_wh = load_w[step] * step_h
        asked_wh = 0.0 if battery.is_off else load_wh
        short_wh = max(asked_wh - sun_wh, 0.0)
        other_wh = min(offered_wh, short_wh)
        short_wh -= other_wh
        before_wh = battery.stored_wh
        unmet_wh = load_wh - asked_wh
        given_wh = taken_wh = 0.0
        if short_wh > 0:
            given_wh = battery.give(short_wh, battery_c[step])
            unmet_wh += short_wh - given_wh
            if unmet_wh > 1e-9 and "reconnect_soc" in document:
                battery.is_off = True
                battery.reached.add("off")
        else:
            surplus_wh = max(sun_wh - asked_wh, 0.0)
            # Lithium iron phosphate takes nothing at 0 °C, and all from 10 °C on.
            warm = battery.is_lead or is_heated
            acceptance = 1.0 if warm else min(max(battery_c[step] / 10, 0.0), 1.0)
            taken_wh = battery.take(surplus_wh + offered_wh - other_wh, acceptance)
            books.spilled_wh += max(surplus_wh - taken_wh, 0.0)
            other_wh += max(taken_wh - surplus_wh, 0.0)
        battery.rest()
        books.lost_wh += taken_wh - given_wh + before_wh - battery.stored_wh
        books.other_wh += other_wh
        books.end_soc.append(battery.soc())
        books.unmet_wh.append(unmet_wh)
    return books


def some(random: Random, members: Document) -> Document:
    return {name: value for name, value in members.items() if random.random() < 0.5}


def hours(random: Random) -> list[float]:
    return [random.choice((0.0, 0.0, 1.0, random.random())) for _ in range(24)]


def a_bank(random: Random, chemistry: str) -> Document:
    """A bank that its loads use up now and then."""
    document: Document = {
        "chemistry": chemistry,
        "capacity_ah": random.uniform(30, 300),
        "nominal_v": 12.8 if chemistry == "lifepo4" else 12,
    }
    document |= some(
        random,
        {
            "usable_fraction": random.choice((1.0, random.uniform(0.3, 1))),
            "round_trip_efficiency": random.uniform(0.7, 1),
            "self_discharge_fraction": random.uniform(0, 0.3),
            "max_charge_a": random.uniform(5, 60),
            "max_discharge_a": random.uniform(3, 60),
            "absorption_h": random.choice((0.0, random.uniform(0, 4))),
            "thermal_h": random.choice((0.0, random.uniform(0, 20))),
            "reconnect_soc": random.uniform(0.75, 0.95),
            "heater_w": random.uniform(5, 60),
            "cycles": random.uniform(100, 6000),
            "cycle_depth": random.uniform(0.2, 1),
        },
    )
    if "cycles" not in document:
        document.pop("cycle_depth", None)
    if chemistry != "lifepo4":
        document |= some(
            random, {"peukert_exponent": random.uniform(1.02, 1.39), "rated_h": random.uniform(5, 100)}
        )
    if random.random() < 0.4:
        generator = {"kind": "generator", "output_a": random.uniform(5, 40), "on_fraction": hours(random)}
        if random.random() < 0.7:
            # Below where the battery is used, it would never be started.
            generator |= {"start_soc": random.uniform(0.72, 0.9), "stop_soc": random.uniform(0.9, 1)}
        document["charging"] = {"generator": generator, "shore": {**generator, "kind": "shore"}}
    return document


def a_build(random: Random, chemistry: str) -> tuple[Document, list[float]]:
    """A build with a month of invented weather, and its air in °C."""
    step_min = random.choice((60, 30, 15))
    days = random.randint(20, 40)
    count = days * 1440 // step_min
    minute = np.arange(count) * step_min % 1440
    noon = np.maximum(np.sin((minute + step_min / 2 - 360) / 720 * np.pi), 0)
    cloud = np.repeat([random.random() ** 2 for _ in range(days)], 1440 // step_min)
    dhi = 500 * noon * cloud
    mean_c = random.uniform(-12, 30)
    air_c = [mean_c + 8 * float(part) + random.uniform(-2, 2) for part in noon]
    dark = {"ghi_w_m2": [float(each) for each in dhi], "dni_w_m2": [0.0] * count}
    series = {"start": "2025-03-01T00:00", "step_min": step_min, **dark, "dhi_w_m2": dark["ghi_w_m2"]}
    series["dry_bulb_f"] = [32 + 1.8 * each for each in air_c]
    loads = {
        f"load_{i}": {
            "mass_lb": 1,
            "electrical": {
                "circuit": "one",
                "power_w": random.uniform(5, 150),
                "kind": "electronic",
                "on_fraction": hours(random),
            },
        }
        for i in range(random.randint(1, 3))
    }
    build: Document = {
        "parts": loads,
        "battery": a_bank(random, chemistry),
        "solar": {
            "arrays": {"roof": {"power_w": random.uniform(100, 1500)}},
            "controller": {"kind": "mppt", "max_output_a": random.uniform(5, 60)},
        },
        "site": {"latitude_deg": 36.0, "longitude_deg": -80.0, "weather": {"hourly": series}},
        "stay": {"detail": "steps"},
    }
    return build, air_c


def answered(build: Document) -> tuple[reports.EnergyBudgetReport, reports.StepTrace]:
    report = wainwright.Build.from_dict(build).energy_budget()
    assert report.steps is not None
    return report, report.steps


def assert_same_books(build: Document, air_c: list[float]) -> set[str]:
    """Our trace and our sums are those of the ledger above. Gives the limits that were reached."""
    report, steps = answered(build)
    step_h = steps.step_min / 60
    battery_c = followed_c(air_c, build["battery"].get("thermal_h", 6.0), step_h)
    assert steps.battery_f == pytest.approx([32 + 1.8 * each for each in battery_c], abs=1e-9)
    draws = [part["electrical"] for part in build["parts"].values()]
    is_heated = heated(build, steps.harvest_w, battery_c)
    load_w = [
        build["battery"].get("heater_w", 0.0) * on
        + sum(draw["power_w"] * draw["on_fraction"][int(step * step_h) % 24] for draw in draws)
        for step, on in enumerate(is_heated)
    ]
    assert steps.load_w == pytest.approx(load_w, abs=1e-9)
    books = kept_books(build, steps.harvest_w, load_w, battery_c)
    # Measured: 3e-15 and 6e-12.
    assert steps.end_soc == pytest.approx(books.end_soc, abs=1e-12)
    assert steps.unmet_wh == pytest.approx(books.unmet_wh, abs=1e-9)
    total = report.total
    assert 1000 * total.unmet_kwh == pytest.approx(sum(books.unmet_wh), abs=1e-8)
    assert 1000 * total.spilled_kwh == pytest.approx(books.spilled_wh, abs=1e-8)
    assert 1000 * total.other_kwh == pytest.approx(books.other_wh, abs=1e-8)
    assert 1000 * total.lost_kwh == pytest.approx(books.lost_wh, abs=1e-8)
    assert total.unmet_h == pytest.approx(step_h * sum(each > 1e-9 for each in books.unmet_wh))
    assert total.lowest_soc == pytest.approx(min(books.end_soc), abs=1e-12)
    assert total.mean_soc == pytest.approx(float(np.mean(books.end_soc)), abs=1e-12)
    others = {"heater"} if any(is_heated) else set()
    others |= {"spilled"} if books.spilled_wh > 1 else set()
    others |= {"other"} if books.other_wh > 1 else set()
    return books.reached | others


EVERY_LIMIT = {"floor", "discharge", "charge", "absorption", "off", "heater", "spilled", "other"}
"""What the random banks must come to: builds in which nothing happens would compare nothing."""


def test_lithium_is_a_plain_ledger() -> None:
    reached: set[str] = set()
    for index in range(BUILDS):
        reached |= assert_same_books(*a_build(Random(f"{SEED}/lithium/{index}"), "lifepo4"))
    assert reached == EVERY_LIMIT


def test_lead_acid_is_two_wells_integrated() -> None:
    reached: set[str] = set()
    for index in range(BUILDS):
        random = Random(f"{SEED}/lead/{index}")
        reached |= assert_same_books(*a_build(random, random.choice(("flooded", "agm", "gel"))))
    assert reached == EVERY_LIMIT | {"well empty", "well full"}


@pytest.mark.parametrize("index", range(BUILDS))
def test_life_is_that_of_rainflow(index: int) -> None:
    """ASTM E1049 by another hand; each cycle uses up life as it is deep, and age ends a battery too."""
    random = Random(f"{SEED}/life/{index}")
    chemistry = random.choice(sorted(USUAL))
    build, _ = a_build(random, chemistry)
    report, steps = answered(build)
    usual, battery = USUAL[chemistry], build["battery"]
    cycles = battery.get("cycles", usual.cycles)
    depth = battery.get("cycle_depth", usual.depth)
    used = sum(count * part / depth / cycles for part, count in rainflow.count_cycles(steps.end_soc))
    years = len(steps.end_soc) * steps.step_min / 60 / 8760
    by_cycles = years / used if used else np.inf
    assert report.life.years == pytest.approx(min(by_cycles, usual.years), rel=1e-9)
    assert report.life.bound_by == ("cycles" if by_cycles < usual.years else "age")
    falls = -np.minimum(np.diff(steps.end_soc), 0).sum()
    assert report.life.full_cycles_per_year == pytest.approx(falls / years, rel=1e-9)
