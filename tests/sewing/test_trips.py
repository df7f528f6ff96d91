"""The trips between machine, iron and mat, against every order there is."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from functools import cache
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from workers.sewing.plan import SewingPlan
from workers.sewing.steps.stations import CUTTING, find_stations, plan_stage_trips
from workers.sewing.steps.step import PIECING, Step
from workers.sewing.trips import STATIONS, Job, plan_trips

PlanOf = Callable[..., SewingPlan]
Sewn = Callable[..., SimpleNamespace]


def fewest_of_all_orders(jobs: list[Job]) -> int:
    """The fewest changes of station (and the first one) over every order of the single tasks, one after the other."""
    number = {job.id: i for i, job in enumerate(jobs)}

    @cache
    def rest(done: tuple[int, ...], at: str) -> int:
        best = None
        for i, job in enumerate(jobs):
            ready = all(done[number[need]] == len(jobs[number[need]].stations) for need in job.needs)
            if done[i] < len(job.stations) and ready:
                station = job.stations[done[i]]
                after = (*done[:i], done[i] + 1, *done[i + 1 :])
                visits = (station != at) + rest(after, station)
                best = visits if best is None else min(best, visits)
        return best or 0

    return rest((0,) * len(jobs), "")


@st.composite
def trees(draw: st.DrawFn) -> list[Job]:
    """Up to six jobs of up to four tasks; each may need any that come before it."""
    jobs: list[Job] = []
    for i in range(draw(st.integers(1, 6))):
        stations = tuple(draw(st.lists(st.sampled_from(STATIONS), max_size=4)))
        needs = draw(st.sets(st.sampled_from([job.id for job in jobs]), max_size=3)) if jobs else set()
        jobs.append(Job(str(i), stations, tuple(sorted(needs))))
    return jobs


@settings(max_examples=300, deadline=None)
@given(jobs=trees())
def test_no_order_of_a_small_tree_takes_fewer_trips(jobs: list[Job]) -> None:
    """Every order of the single tasks that keeps to what needs what is tried."""
    trips = plan_trips(jobs)
    assert len(trips.visits) == fewest_of_all_orders(jobs)
    assert trips.least_proved


@settings(max_examples=100, deadline=None)
@given(jobs=trees())
def test_the_visits_do_every_task_in_its_turn(jobs: list[Job]) -> None:
    """Walking the visits, each job goes through its stations in order, and begins when what it needs is finished."""
    left = {job.id: list(job.stations) for job in jobs}
    needs = {job.id: job.needs for job in jobs}
    for visit in plan_trips(jobs).visits:
        for job in visit.jobs:
            assert not any(left[need] for need in needs[job])
            assert left[job][0] == visit.station
            while left[job] and left[job][0] == visit.station:
                left[job].pop(0)
    assert not any(left.values())


def test_units_are_sewn_in_one_go_and_rows_after_them() -> None:
    """Four units that are sewn and pressed take two trips, not eight; the row of them two more (no source needed:
    four tasks in a chain at two stations in turn)."""
    units = [Job(name, ("machine", "iron")) for name in "abcd"]
    trips = plan_trips([*units, Job("row", ("machine", "iron"), tuple("abcd"))])
    assert [(visit.station, len(visit.jobs)) for visit in trips.visits] == [
        ("machine", 4),
        ("iron", 4),
        ("machine", 1),
        ("iron", 1),
    ]


def test_a_search_cut_short_claims_no_more_than_the_longest_chain(monkeypatch: pytest.MonkeyPatch) -> None:
    """With one state kept, the number of trips is held against the chain bound alone."""
    from workers.sewing import trips as room

    monkeypatch.setattr(room, "MOST_STATES", 1)
    jobs = [Job("a", ("iron", "machine", "mat")), Job("b", ("machine", "mat", "iron"))]
    trips = plan_trips(jobs)
    assert trips.at_least == 3
    assert len(trips.visits) >= fewest_of_all_orders(jobs) == 4
    assert not trips.least_proved


def test_every_top_is_sewn_in_the_fewest_trips(any_top: dict[str, Any], plan_of: PlanOf) -> None:
    """Proved for each; the mat comes first, where everything is cut, and no station twice in a row."""
    trips = plan_stage_trips(plan_of(any_top))
    assert trips.least_proved
    assert (trips.visits[0].station, trips.visits[0].jobs[0]) == ("mat", CUTTING)
    stations = [visit.station for visit in trips.visits]
    assert all(a != b for a, b in itertools.pairwise(stations))


def test_the_plan_lists_stages_as_the_trips_finish_them(any_top: dict[str, Any], sewn: Sewn) -> None:
    """Small units first; then no stage before one that is finished on an earlier visit, nor before what it needs."""
    plan = sewn(any_top).plan
    assert plan["trips"]["count"] == len(plan["trips"]["visits"])
    finished = {stage: n for n, visit in enumerate(plan["trips"]["visits"]) for stage in visit["stages"]}
    small = ("half-square triangle", "corner squares", "strip set", "flying geese")
    joined = [s["id"] for s in plan["stages"] if s["kind"] not in small and s["needs"]]
    assert [finished[i] for i in joined] == sorted(finished[i] for i in joined)
    done: set[str] = set()
    for stage in plan["stages"]:
        assert set(stage["needs"]) <= done
        done.add(stage["id"])


def test_tools_in_turn_are_stations_in_turn() -> None:
    """A step that sews and cuts visits the machine, then the mat; pins and scissors are used anywhere."""
    steps = [
        Step("a", PIECING, "", tools=("pins", "sewing machine", "rotary cutter", "ruler", "cutting mat")),
        Step("b", PIECING, "", tools=("scissors",)),
        Step("c", PIECING, "", tools=("rotary cutter",)),
        Step("d", PIECING, "", tools=("iron", "ironing board")),
    ]
    assert find_stations(steps) == ("machine", "mat", "iron")
