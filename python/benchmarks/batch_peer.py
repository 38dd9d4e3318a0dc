"""Tables of builds by other means, beside `wainwright.score`.

Each side works out the same figures for as many rows:

- weights, with pandas: four states of the demonstration build, six figures each, and the least and greatest
  of mass, tongue, axles and wheels over every tank fill and every choice of cargo; over six columns of masses
  and places; the other side goes through all 256 choices, where ours looks at each tank and piece by itself
- energy, with pvlib and numba: its year by month, over four columns: battery, and power, tilt and azimuth of
  the array, so that every row has a plane of its own; the other side has simpler loads and a simpler battery
- cooling, with scipy: a hot day over four columns: roof, air that comes in, air conditioner and what it is
  set to; the other side has a far simpler box, its steps a loop, once as it is and once compiled by numba

Prints the time of a row on one thread, how many times as fast two are, and how the other side compares.
"""

from __future__ import annotations

import json
import resource
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from statistics import median
from typing import Any

import numpy as np
import pandas as pd
import polars as pl
from cooling_rows import ScipyCooling, boxes, compiled, cooling_scores, lap
from energy_rows import PvlibEnergy, arrays, energy_scores
from weights_rows import PandasWeights, masses, weight_scores

import wainwright

BUILD = Path(__file__).parents[2] / "tests" / "builds" / "heron.json"
RUNS, MANY_RUNS = 5, 100
"""Runs of what takes long, and of what takes a few milliseconds."""


def median_s(run: Callable[[], object], runs: int = RUNS) -> float:
    """Median time of a few runs after one that counts for nothing [s]."""
    run()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return median(times)


def ours_s(
    build: wainwright.Build, table: pl.DataFrame, scores: list[str], runs: int = RUNS
) -> tuple[float, float]:
    """What `wainwright.score` takes on one thread, and on two [s]."""

    def on(threads: int) -> float:
        return median_s(lambda: wainwright.score(build, table, scores, threads=threads, progress=False), runs)

    return on(1), on(2)


def weights(build: wainwright.Build, rng: np.random.Generator) -> None:
    """Rows in a second, by how many there are, and beside pandas."""
    scores, peer = weight_scores(), PandasWeights(build.to_dict())
    sample = masses(1000, rng)
    theirs = peer.score(pd.DataFrame(sample))
    ours = wainwright.score(build, pl.DataFrame(sample), scores)
    apart = max(float((ours[name].to_numpy() - theirs[name]).abs().max()) for name in scores)
    print(
        f"weights: {len(scores)} figures a row, six columns; pandas, choice by choice, is within {apart:.1e}"
    )
    few = 10
    alone, _ = ours_s(build, pl.DataFrame(masses(few, rng)), scores, MANY_RUNS)
    print(f"  a call of {few} rows takes {1e3 * alone:.2f} ms; each further row")
    for rows in (1_000, 10_000, 100_000, 1_000_000):
        table = pl.DataFrame(masses(rows, rng))
        one, two = ours_s(build, table, scores, RUNS if rows > 10_000 else MANY_RUNS)
        further_us = 1e6 * (one - alone) / (rows - few)
        line = (
            f"  {rows:9,} rows  {further_us:7.3f} µs; with the call {1e6 * one / rows:6.3f}, "
            f"{rows / one / 1e6:5.2f} million a second; two threads {one / two:4.2f} times"
        )
        # A million rows take pandas a minute.
        if rows <= 100_000:
            pandas_s = median_s(partial(peer.score, table.to_pandas()), 1)
            line += f"; pandas {pandas_s / one:5.1f} times as long"
        print(line)


def by_rows(
    build: wainwright.Build,
    scores: list[str],
    theirs: tuple[str, float],
    tables: dict[int, dict[str, Any]],
) -> None:
    """The time of a row, by how many there are.

    :param theirs: The other side, and what a row takes it [s].
    """
    name, theirs_s = theirs
    print(f"  {name} {1e6 * theirs_s:7.0f} µs a row")
    for rows, columns in tables.items():
        one, two = ours_s(build, pl.DataFrame(columns), scores)
        print(
            f"  {rows:9,} rows  {1e6 * one / rows:7.1f} µs a row; two threads {one / two:4.2f} times; "
            f"{name} {theirs_s * rows / one:5.2f} times as long"
        )


def energy(build: wainwright.Build, rng: np.random.Generator) -> None:
    """The time of a row beside pvlib and numba."""
    scores, peer = energy_scores(), PvlibEnergy()
    pairs = list(zip(*arrays(100, rng).values(), strict=True))
    theirs_s = median_s(lambda: [peer.row(*row) for row in pairs]) / len(pairs)
    print(f"energy: {len(scores)} figures a row, a plane of its own in every row")
    tables = {rows: arrays(rows, rng) for rows in (1_000, 10_000)}
    by_rows(build, scores, ("pvlib and numba", theirs_s), tables)


def cooling(build: wainwright.Build, rng: np.random.Generator) -> None:
    """The time of a row beside scipy."""
    scores = cooling_scores()
    pairs = list(zip(*boxes(20, rng).values(), strict=True))

    def theirs_s(loop: Callable[..., Any]) -> float:
        peer = ScipyCooling(loop)
        return median_s(lambda: [peer.row(*row) for row in pairs]) / len(pairs)

    print(f"cooling: {len(scores)} figures a row; the other side has a far simpler box")
    print(f"  scipy, its loop compiled by numba {1e6 * theirs_s(compiled):7.0f} µs a row")
    by_rows(build, scores, ("scipy", theirs_s(lap)), {1_000: boxes(1_000, rng)})


def memory(build: wainwright.Build, rng: np.random.Generator) -> None:
    """What a million rows take beside themselves."""
    table = pl.DataFrame(masses(1_000_000, rng))
    for scores in (weight_scores()[:1], weight_scores()):
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        wainwright.score(build, table, scores)
        after = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        added_mib = (after - before) / 1024
        print(
            f"memory: a million rows, scores: {len(scores)}, the peak {added_mib:.0f} MiB above that before"
        )


def main() -> None:
    """Runs all of it; `memory` first, for a peak is never forgotten."""
    build = wainwright.Build.from_dict(json.loads(BUILD.read_text(encoding="utf-8")))
    rng = np.random.default_rng(2611)
    memory(build, rng)
    weights(build, rng)
    energy(build, rng)
    cooling(build, rng)


if __name__ == "__main__":
    main()
