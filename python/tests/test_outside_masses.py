"""Payload against numpy: masses as dot products over the document, in pounds throughout."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

import wainwright

from .random_builds import COUNT, random_builds

SEED = 2602
# Sums of some thirty converted masses: a few units in the last place of the largest.
CLOSE = 1e-12

# Water: 62.37 lb/ft3 at 60 degF over 1728/231 gal/ft3, rounded; propane 0.509 of it (from memory).
# Fuels: from memory.
DENSITY = {
    "fresh_water": 8.34,
    "grey_water": 8.34,
    "black_water": 8.34,
    "propane": 4.24,
    "gasoline": 6.1,
    "diesel": 7.1,
}

Document = dict[str, Any]


def close(value: float, expected: float) -> bool:
    """Equal but for rounding of sums of several thousand pounds."""
    return value == pytest.approx(expected, rel=CLOSE, abs=1e4 * CLOSE)


def column(entries: Document, name: str, default: float = 0.0) -> np.ndarray[Any, np.dtype[np.float64]]:
    """One field of all entries of a map."""
    return np.array([entry.get(name, default) for entry in entries.values()], dtype=float)


def parts_lb(build: Document) -> float:
    return float(column(build["parts"], "mass_lb") @ column(build["parts"], "quantity", 1))


def full_lb(build: Document) -> np.ndarray[Any, np.dtype[np.float64]]:
    usual = np.array([DENSITY[tank["fluid"]] for tank in build["tanks"].values()])
    given = column(build["tanks"], "density_lb_per_gal", np.nan)
    return column(build["tanks"], "capacity_gal") * np.where(np.isnan(given), usual, given)


def fill(build: Document, state: Document) -> np.ndarray[Any, np.dtype[np.float64]]:
    return np.array([state["fill"].get(tank, 0.0) for tank in build["tanks"]], dtype=float)


def aboard(build: Document, state: Document) -> np.ndarray[Any, np.dtype[np.float64]]:
    return np.array([name in state["aboard"] for name in build["cargo"]], dtype=float)


@pytest.fixture(scope="module")
def pairs() -> list[tuple[Document, wainwright.reports.PayloadReport]]:
    """Random builds with their reports."""
    return [(build, wainwright.Build.from_dict(build).payload()) for build in random_builds(SEED)]


Pairs = list[tuple[Document, wainwright.reports.PayloadReport]]


def test_unloaded_mass_is_trailer_parts_and_propane(pairs: Pairs) -> None:
    assert len(pairs) == COUNT
    for build, report in pairs:
        propane = np.array([tank["fluid"] == "propane" for tank in build["tanks"].values()], dtype=float)
        unloaded = build["trailer"]["bare"]["mass_lb"] + parts_lb(build) + float(full_lb(build) @ propane)
        assert close(report.parts_mass_lb, parts_lb(build))
        assert close(report.unloaded_mass_lb, unloaded)
        assert close(sum(category.mass_lb for category in report.categories), parts_lb(build))
        capacity = max(build["trailer"]["gvwr_lb"] - unloaded, 0)
        assert report.label.cargo_capacity_lb == np.floor(capacity)
        assert report.label.cargo_capacity_kg == np.floor(capacity * 0.45359237)


def test_states_are_dot_products(pairs: Pairs) -> None:
    states = 0
    for build, report in pairs:
        gvwr = build["trailer"]["gvwr_lb"]
        for name, state in build.get("states", {}).items():
            fluids = float(full_lb(build) @ fill(build, state))
            cargo = float(column(build["cargo"], "mass_lb") @ aboard(build, state))
            gross = build["trailer"]["bare"]["mass_lb"] + parts_lb(build) + fluids + cargo
            found = report.states[name]
            assert close(found.fluids_lb, fluids)
            assert close(found.cargo_lb, cargo)
            assert close(found.gross_mass_lb, gross)
            assert close(found.payload_left_lb, gvwr - gross)
            assert close(found.gvwr_fraction, gross / gvwr)
            states += 1
    assert states > COUNT


def test_bands_are_the_sum_and_the_norm_of_the_tolerances(pairs: Pairs) -> None:
    for build, report in pairs:
        bare = np.array([build["trailer"]["bare"].get("mass_tolerance_lb", 0.0)])
        parts = column(build["parts"], "mass_tolerance_lb") * column(build["parts"], "quantity", 1)
        for name, state in build.get("states", {}).items():
            cargo = column(build["cargo"], "mass_tolerance_lb") * aboard(build, state)
            tolerances = np.concatenate([bare, parts, cargo])
            assert close(report.states[name].band.worst_lb, float(np.linalg.norm(tolerances, 1)))
            assert close(report.states[name].band.scatter_lb, float(np.linalg.norm(tolerances)))


def test_what_a_scale_shows_beyond_the_list_balances_masses_and_moments(pairs: Pairs) -> None:
    weighed = 0
    for build, report in pairs:
        for name, state in build.get("states", {}).items():
            scale = state.get("scale", {})
            if "axles" not in scale:
                continue
            installed = np.array(
                [part not in scale.get("not_installed", ()) for part in build["parts"]], dtype=float
            )
            bare = {"bare": build["trailer"]["bare"]}
            masses = np.concatenate(
                [
                    column(bare, "mass_lb"),
                    column(build["parts"], "mass_lb") * column(build["parts"], "quantity", 1) * installed,
                    full_lb(build) * fill(build, state),
                    column(build["cargo"], "mass_lb") * aboard(build, state),
                ]
            )
            sections = (bare, build["parts"], build["tanks"], build["cargo"])
            places = [column(section, "x_in") for section in sections]
            axles = np.array([scale["axles"][axle] for axle in build["trailer"]["axles"]])
            unaccounted = scale["tongue_lb"] + axles.sum() - masses.sum()
            moment = axles @ column(build["trailer"]["axles"], "x_in") - masses @ np.concatenate(places)
            found = report.reconciliation[name]
            assert found.unaccounted_lb == pytest.approx(unaccounted, abs=1e-8)
            assert found.moment_lb_in == pytest.approx(moment, abs=1e-6)
            if found.x_in is not None:
                assert found.x_in == pytest.approx(moment / unaccounted, rel=1e-9)
            weighed += 1
    assert weighed > COUNT // 10
