"""The fewest trips between machine, iron and mat.

Every stage is a chain of tasks, each at one station; a stage begins when all that it needs is finished. On a visit to
a station everything is done that can be done there: doing less never spares a later visit, since whatever could be
done without it can be done with it. So an order is no more than a row of stations, and all rows are searched, shortest
first, without those whose work done is a part of another's. A chain of tasks takes a visit whenever its station
changes; the longest such chain is a lower bound.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

MACHINE, IRON, MAT = STATIONS = ("machine", "iron", "mat")

MOST_STATES = 400
"""States kept for each number of visits; beyond that the fewest is no longer proved by the search."""


@dataclass(frozen=True)
class Job:
    """A stage's tasks by their stations, in order, and the ids of the stages it needs."""

    id: str
    stations: tuple[str, ...]
    needs: tuple[str, ...] = ()


@dataclass(frozen=True)
class Visit:
    """One visit to a station, and the jobs of which something is done there, in order."""

    station: str
    jobs: tuple[str, ...]


@dataclass(frozen=True)
class Trips:
    """The visits in order, and how many any order takes at least."""

    visits: tuple[Visit, ...]
    at_least: int

    @property
    def least_proved(self) -> bool:
        """Whether it is proved that no order takes fewer visits."""
        return len(self.visits) == self.at_least

    def finished(self) -> dict[str, int]:
        """The number of the visit in which each job is worked at for the last time."""
        return {job: number for number, visit in enumerate(self.visits) for job in visit.jobs}


Progress = tuple[int, ...]
"""How many tasks of each job are done."""


def plan_trips(jobs: Sequence[Job]) -> Trips:
    """The fewest visits for all jobs; `jobs` has each after all it needs, and what it needs is among them.

    >>> plan_trips([Job("unit", ("machine", "iron")), Job("row", ("machine", "iron"), ("unit",))]).visits
    ... # doctest: +NORMALIZE_WHITESPACE
    (Visit(station='machine', jobs=('unit',)), Visit(station='iron', jobs=('unit',)),
     Visit(station='machine', jobs=('row',)), Visit(station='iron', jobs=('row',)))
    """
    floor = _longest_chain(jobs)
    search = _Search(jobs)
    rows, whole = search.run()
    return Trips(search.replay(rows), len(rows) if whole else floor)


def _longest_chain(jobs: Sequence[Job]) -> int:
    """Visits that a chain of tasks, each waiting for the one before, takes at least."""
    last: dict[str, tuple[tuple[int, str], ...]] = {}
    most = 0
    for job in jobs:
        ends = [end for need in job.needs for end in last[need]]
        for station in job.stations:
            visits = max([count + (at != station) for count, at in ends], default=1)
            ends = [(visits, station)]
            most = max(most, visits)
        last[job.id] = tuple(ends)
    return most


class _Search:
    def __init__(self, jobs: Sequence[Job]) -> None:
        self._jobs = jobs
        self._number = {job.id: i for i, job in enumerate(jobs)}
        self._needs = [[self._number[need] for need in job.needs] for job in jobs]
        self._full = tuple(len(job.stations) for job in jobs)

    def run(self) -> tuple[tuple[str, ...], bool]:
        """The shortest row of stations, and whether all rows were looked at."""
        states: dict[tuple[str, Progress], tuple[str, ...]] = {("", (0,) * len(self._jobs)): ()}
        whole = True
        while True:
            for (_, done), row in states.items():
                if done == self._full:
                    return row, whole
            found: dict[tuple[str, Progress], tuple[str, ...]] = {}
            for (at, done), row in states.items():
                for station in STATIONS:
                    step = station, self._visit(station, done)[0]
                    if station != at and step[1] != done:
                        found.setdefault(step, (*row, station))
            kept = _undominated(found)
            whole = whole and len(kept) <= MOST_STATES
            states = dict(list(kept.items())[:MOST_STATES])

    def _visit(self, station: str, done: Progress) -> tuple[Progress, list[int]]:
        """Everything done that can be done at a station, and the jobs that moved on. One pass is enough: a job comes
        after all it needs."""
        now, moved = list(done), []
        for i, job in enumerate(self._jobs):
            if now[i] == self._full[i] or any(now[need] < self._full[need] for need in self._needs[i]):
                continue
            before = now[i]
            while now[i] < self._full[i] and job.stations[now[i]] == station:
                now[i] += 1
            if now[i] > before:
                moved.append(i)
        return tuple(now), moved

    def replay(self, row: Sequence[str]) -> tuple[Visit, ...]:
        """The visits of a row of stations."""
        done: Progress = (0,) * len(self._jobs)
        visits = []
        for station in row:
            done, moved = self._visit(station, done)
            visits.append(Visit(station, tuple(self._jobs[i].id for i in moved)))
        return tuple(visits)


def _undominated(
    states: Mapping[tuple[str, Progress], tuple[str, ...]],
) -> dict[tuple[str, Progress], tuple[str, ...]]:
    """The states that no other at the same station has done as much as, most done first."""
    kept: dict[tuple[str, Progress], tuple[str, ...]] = {}
    for state in sorted(states, key=lambda state: (-sum(state[1]), state)):
        at, done = state
        if not any(
            other == at and all(a >= b for a, b in zip(more, done, strict=True)) for other, more in kept
        ):
            kept[state] = states[state]
    return kept
