"""A table shared out among processes is scored as in one. All numbers are invented."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any, cast

import dask.dataframe
import distributed
import pandas as pd
import pytest

import wainwright

from .packages import GALLEY, HERON, LEFT, cells, numbers

if TYPE_CHECKING:
    from collections.abc import Iterator

# Their types are partly wrong and partly missing.
CLUSTERS = cast("Any", distributed)
FRAMES = cast("Any", dask.dataframe)

SCORES = [LEFT, "axle_load.states.outbound.tongue_lb", "energy_budget.autonomy_h"]


def score_of(part: pd.DataFrame, base: wainwright.Build) -> pd.DataFrame:
    """The scores of a partition, and the process that worked them out."""
    scored = wainwright.score(base, part, SCORES, threads=1)
    return scored.assign(process=os.getpid())


@pytest.fixture(scope="module")
def client() -> Iterator[Any]:
    """A client of a cluster of two processes."""
    with (
        CLUSTERS.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
        ) as cluster,
        CLUSTERS.Client(cluster) as client,
    ):
        client.wait_for_workers(2)
        yield client


def test_two_processes_give_the_same_bits_as_one(client: Any) -> None:
    table = pd.DataFrame(numbers(8, 600, {GALLEY: (-3, 300), "battery.capacity_ah": (80, 500)}))
    base = wainwright.Build.from_dict(HERON)
    here = wainwright.score(base, table, SCORES)
    meta = here.head(0).assign(process=pd.Series(dtype="int64"))
    parts = FRAMES.from_pandas(table, npartitions=8)
    there = client.compute(parts.map_partitions(score_of, base, meta=meta)).result(timeout=60)
    workers = set(client.run(os.getpid).values())
    assert len(workers) == 2
    assert set(there["process"]) == workers
    assert os.getpid() not in workers
    assert there.index.equals(table.index)
    assert cells(there.drop(columns="process")) == cells(here)
