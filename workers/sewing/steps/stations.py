"""At which station a step is done: its tools say so. All cutting comes first, on one visit to the mat."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import groupby

from workers.sewing.ordering import FIRST
from workers.sewing.plan import SewingPlan, Stage
from workers.sewing.steps.piecing import WAYS
from workers.sewing.steps.step import Lesson, Step
from workers.sewing.trips import IRON, MACHINE, MAT, Job, Trips, plan_trips

CUTTING = "cutting"
"""The job before all others: every patch is cut."""

STATION_OF = {"sewing machine": MACHINE, "iron": IRON, "rotary cutter": MAT}
"""Where a tool is used. What is not named here, pins or scissors, is used wherever the maker sits."""


def find_stations(steps: Iterable[Step]) -> tuple[str, ...]:
    """The stations of some steps in order; a step that takes several tools uses them in the order they stand in."""
    used = (STATION_OF[tool] for step in steps for tool in step.tools if tool in STATION_OF)
    return tuple(station for station, _ in groupby(used))


def plan_stage_trips(plan: SewingPlan) -> Trips:
    """The fewest trips for a plan's stages. Its tracks differ in no station, so the first one stands for all."""
    lesson = Lesson(plan, plan.project.tracks[0])
    jobs = [Job(CUTTING, (MAT,))]
    for stage in plan.stages:
        stations = find_stations(WAYS[stage.work.kind](stage, lesson))
        jobs.append(Job(stage.id, stations, (CUTTING, *stage.needs)))
    return plan_trips(jobs)


def in_order_of(trips: Trips, plan: SewingPlan) -> SewingPlan:
    """The plan with its stages in the order in which these trips finish them, small units first."""
    finished = trips.finished()

    def place(stage: Stage) -> tuple[bool, int]:
        small = stage.work.kind in FIRST and not stage.needs
        return not small, finished.get(stage.id, 0)

    return replace(plan, stages=tuple(sorted(plan.stages, key=place)))
