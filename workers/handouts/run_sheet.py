"""The filming run sheet: takes in order, what to prepare ahead, what lies on the table, chapter marks."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from markupsafe import Markup

from service.craft.document import Project
from service.craft.drawing import draw_top
from workers.handouts.cloth_plans import plan_cloths
from workers.handouts.inputs import Inputs
from workers.handouts.pages import print_page
from workers.handouts.pictures import draw_stages
from workers.handouts.seam_test import draw_seam_test
from workers.handouts.stash import plan_stash_sheets
from workers.handouts.step_outs import StepOut, list_step_outs, measure_extra_cloth
from workers.handouts.steps import APPLIQUE, SizeCheck, list_tools, name_part, view_size
from workers.handouts.supplies import write_supplies
from workers.handouts.times import say_sewing

SECONDS_A_STEP = 40
SECONDS_A_STAGE = 25
SECONDS_FOR_MORE = 10
SECONDS_TO_OPEN = 45
"""Our own estimates of screen time: one step, showing a stage's result, saying "make nine of these", the opening."""


FILMED_REPEATS, REPEAT_ENDING = 2, ".sew"
"""Up to so many pieces sewn in one way are filmed one by one; how the ids of their steps end."""

TaggedStep = tuple[Mapping[str, Any], tuple[str, ...]]
"""A step, and the tracks it is for."""


@dataclass(frozen=True)
class TakeLine:
    """One step of a take in words; `tracks` names those it is for, where it is not for all."""

    text: str
    tracks: tuple[str, ...]


@dataclass(frozen=True)
class Take:
    """One take: a stage (or the steps between stages), what lies on the table, and the steps to say.

    `seconds` are of screen time; `sewing` is how long all its copies take, in words.
    """

    number: int
    title: str
    chapter: str
    count: int
    size: SizeCheck | None
    tools: tuple[str, ...]
    ready: tuple[str, ...]
    lines: tuple[TakeLine, ...]
    picture: Markup
    seconds: int
    sewing: str = ""

    @property
    def only_for(self) -> tuple[str, ...]:
        """The tracks the whole take is for, where every line of it is for the same ones; else empty."""
        tracks = {line.tracks for line in self.lines}
        return tracks.pop() if len(tracks) == 1 else ()


@dataclass(frozen=True)
class PartSheet:
    """One part to film: its takes, its step-outs, its chapter marks as text to paste."""

    title: str
    takes: tuple[Take, ...]
    step_outs: tuple[StepOut, ...]
    marks: str


@dataclass(frozen=True)
class RunSheet:
    """The sheet as PDF, and what of it is pasted elsewhere as text: the chapter marks of all parts, the supplies."""

    page: bytes
    marks: str
    supplies: str


def print_run_sheet(inputs: Inputs) -> RunSheet:
    """The run sheet of the whole project, for the studio."""
    project = inputs.project
    parts, cloths = plan_parts(inputs), plan_cloths(inputs.project, inputs.cutting)
    supplies = write_supplies(inputs, cloths)
    outs = [out for part in parts for out in part.step_outs]
    fields: dict[str, Any] = {
        "title": f"Run sheet: {project.title}",
        "project_title": project.title,
        "drawing": Markup(draw_top(inputs.top, public=False, max_height_mm=80.0)),  # noqa: S704 - our own drawing
        "parts": parts,
        "extra": measure_extra_cloth(project, outs),
        "cloths": cloths,
        "supplies": supplies,
        "stash": plan_stash_sheets(project, inputs.studio_cutting),
        "brought": [piece.name for piece in inputs.brought],
    }
    page = print_page("run_sheet.html", f"run sheet {project.title}", fields)
    return RunSheet(page, "\n\n".join(part.marks for part in parts) + "\n", supplies)


def plan_parts(inputs: Inputs) -> list[PartSheet]:
    """Every part with its takes in the order of the steps, steps that several tracks share taken once."""
    project, sewing = inputs.project, inputs.sewing
    stages = {stage.get("id"): stage for stage in sewing.get("stages", [])}
    merged = list(merge_steps(inputs))
    pictures = draw_stages(project, sewing) | _by_topic(draw_seam_test(project))
    sheets = []
    number = 0
    for title in dict.fromkeys(name_part(step.get("part", ""), project) for step, _ in merged):
        inside = [
            (step, tracks) for step, tracks in merged if name_part(step.get("part", ""), project) == title
        ]
        takes = tuple(_list_takes(inside, stages, project, pictures, number))
        number += len(takes)
        shown = {step.get("stage") for step, _ in inside}
        outs = tuple(list_step_outs(project, sewing, shown))
        sheets.append(PartSheet(title, takes, outs, format_marks(title, takes)))
    return sheets


def merge_steps(inputs: Inputs) -> Iterator[TaggedStep]:
    """Every step of every track once, with the tracks it is for; where tracks part, in the tracks' order.

    Steps are one where both id and text agree: a step may be said in another way to another track.
    """
    lists = {track.name: inputs.steps(track) for track in inputs.project.tracks}
    tracks_of: dict[tuple[str, str], list[str]] = {}
    merged: list[Mapping[str, Any]] = []
    for name, steps in lists.items():
        for step in steps:
            tracks_of.setdefault(_identify(step), []).append(name)
        merged = _merge(merged, steps)
    for step in merged:
        yield step, tuple(dict.fromkeys(tracks_of[_identify(step)]))


def _identify(step: Mapping[str, Any]) -> tuple[str, str]:
    return str(step.get("id", "")), str(step.get("text", ""))


def _merge(known: list[Mapping[str, Any]], more: Sequence[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    """Put steps not known yet right behind the step that comes before them."""
    result = list(known)
    names = [_identify(step) for step in result]
    place = 0
    for step in more:
        name = _identify(step)
        if name in names:
            place = names.index(name) + 1
        else:
            result.insert(place, step)
            names.insert(place, name)
            place += 1
    return result


def _list_takes(
    steps: Sequence[TaggedStep],
    stages: Mapping[Any, Mapping[str, Any]],
    project: Project,
    pictures: Mapping[str, str],
    before: int,
) -> Iterator[Take]:
    pieces = [piece.name for piece in project.pieces]
    groups = group_takes(steps, pieces, [cloth.name for cloth in project.fabrics.values()])
    for number, (chapter, stage_id, about, inside) in enumerate(groups, start=before + 1):
        stage = stages.get(stage_id, {})
        lines = tuple(list_lines(inside, len(project.tracks)))
        count = int(stage.get("count") or 0)
        chapter_title = f"{chapter.capitalize()}: {about}" if about else chapter.capitalize()
        yield Take(
            number=number,
            title=str(stage.get("title") or chapter_title),
            chapter=chapter,
            count=count,
            size=view_size(stage.get("size"), project.measure),
            tools=tuple(list_tools(step for step, _ in inside)),
            ready=tuple(_list_ready(stage, stages)),
            lines=lines,
            picture=Markup(pictures.get(stage_id or about, "")),  # noqa: S704 - our own drawing
            seconds=estimate_seconds(len(lines), count, shows_stage=bool(stage)),
            sewing=say_sewing(stage),
        )


def group_takes(
    steps: Sequence[TaggedStep], pieces: Sequence[str], cloths: Sequence[str] = ()
) -> list[tuple[str, str, str, list[TaggedStep]]]:
    """Steps that are filmed in one go: of one chapter, stage and heading, and in the applique chapter of one piece.

    An applique step with no heading goes with the piece its text names, or with the piece before it. Gives chapter,
    stage id, what it is about, and the steps.
    """
    groups: list[tuple[str, str, str, list[TaggedStep]]] = []
    for step, tracks in steps:
        chapter, stage = str(step.get("chapter", "")), str(step.get("stage") or "")
        before = groups[-1] if groups and groups[-1][:2] == (chapter, stage) else None
        about = str(step.get("heading") or "")
        if not about and chapter == APPLIQUE:
            about = find_piece(str(step.get("text", "")), pieces, cloths) or (before[2] if before else "")
        about = _as_topic(about)
        if before is None or before[2] != about:
            groups.append((chapter, stage, about, []))
        groups[-1][3].append((step, tracks))
    return groups


def _as_topic(heading: str) -> str:
    """A heading as it stands after the name of its chapter."""
    return f"{heading[:1].lower()}{heading[1:]}"


def _by_topic(pictures: Mapping[str, str]) -> dict[str, str]:
    return {_as_topic(heading): picture for heading, picture in pictures.items()}


def find_piece(text: str, pieces: Iterable[str], cloths: Iterable[str] = ()) -> str:
    """The piece that a text names, the longest name where several fit; names inside names of cloth do not count.

    >>> find_piece("Sew the tack-down of the leek leaf.", ["leek", "leek leaf"])
    'leek leaf'
    >>> find_piece("Fuse web to the leek green.", ["leek", "pot"], ["leek green"])
    ''
    """
    for cloth in cloths:
        text = text.replace(cloth, "")
    named = [piece for piece in pieces if re.search(rf"\b{re.escape(piece)}\b", text)]
    return max(named, key=len, default="")


def list_lines(inside: Sequence[TaggedStep], every: int) -> Iterator[TakeLine]:
    """The steps of a take in words. Where many pieces are sewn in one way, one is filmed and the others are named.

    `every` is how many tracks there are.
    """
    for (tracks, again), some in groupby(inside, key=lambda item: (item[1], _is_repeat(item[0]))):
        steps = [step for step, _ in some]
        filmed = steps if not again or len(steps) <= FILMED_REPEATS else steps[:1]
        yield from (_tag_step(step, tracks, every) for step in filmed)
        names = [str(name) for step in steps[len(filmed) :] for name in step["pieces"]]
        if names:
            words = f"Sew {len(names)} more off camera, each in its place: {', '.join(names)}."
            yield TakeLine(words, tracks if len(tracks) < every else ())


def _is_repeat(step: Mapping[str, Any]) -> bool:
    return str(step.get("id", "")).endswith(REPEAT_ENDING) and bool(step.get("pieces"))


def _tag_step(step: Mapping[str, Any], tracks: tuple[str, ...], every: int) -> TakeLine:
    return TakeLine(str(step.get("text", "")), tracks if len(tracks) < every else ())


def estimate_seconds(steps: int, count: int, *, shows_stage: bool) -> int:
    """Screen time of a take, from its counts: one make in full, the others only mentioned.

    >>> estimate_seconds(3, 4, shows_stage=True)
    155
    """
    more = SECONDS_FOR_MORE if count > 1 else 0
    return steps * SECONDS_A_STEP + (SECONDS_A_STAGE if shows_stage else 0) + more


def format_marks(title: str, takes: Sequence[Take]) -> str:
    """Chapter marks as text to paste, the first at 0:00.

    >>> format_marks("Piecing", [])
    '0:00 Piecing: what we make'
    """
    lines, at = [f"0:00 {title}: what we make"], SECONDS_TO_OPEN
    for take in takes:
        lines.append(f"{_format_time(at)} {take.title}")
        at += take.seconds
    return "\n".join(lines)


def _format_time(seconds: int) -> str:
    hours, rest = divmod(seconds, 3600)
    minutes, left = divmod(rest, 60)
    return f"{hours}:{minutes:02d}:{left:02d}" if hours else f"{minutes}:{left:02d}"


def _list_ready(stage: Mapping[str, Any], stages: Mapping[Any, Mapping[str, Any]]) -> Iterator[str]:
    for need in stage.get("needs", []):
        yield str(stages.get(need, {}).get("title", need))
