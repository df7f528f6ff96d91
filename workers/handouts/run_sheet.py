"""The filming run sheet: takes in order, what to prepare ahead, what lies on the table, chapter marks."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from markupsafe import Markup

from service.craft.document import Project
from service.craft.drawing import draw_top
from service.craft.language import phrase
from service.craft.tools import say_tool
from workers.handouts.cloth_plans import plan_cloths
from workers.handouts.inputs import Inputs
from workers.handouts.on_the_table import list_files, list_ready
from workers.handouts.pages import print_page
from workers.handouts.papers import find_studio_track
from workers.handouts.pictures import draw_stages
from workers.handouts.seam_test import draw_seam_test
from workers.handouts.stash import plan_stash_sheets
from workers.handouts.step_outs import StepOut, list_step_outs, measure_extra_cloth
from workers.handouts.steps import APPLIQUE, SizeCheck, list_tools, name_part, title_chapter, view_size
from workers.handouts.supplies import write_supplies
from workers.handouts.take_lines import TaggedStep, TakeLine, list_lines, merge_steps
from workers.handouts.times import say_sewing
from workers.sewing.stage_notes import say_hours

SECONDS_A_STEP = 40
SECONDS_A_STAGE = 25
SECONDS_FOR_MORE = 10
SECONDS_TO_OPEN = 45
"""Our own estimates of screen time: one step, showing a stage's result, saying "make nine of these", the opening."""


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
        "title": phrase("Run sheet: {title}", title=project.title),
        "project_title": project.title,
        "drawing": Markup(draw_top(inputs.top, public=False, max_height_mm=80.0)),  # noqa: S704 - our own drawing
        "parts": parts,
        "extra": measure_extra_cloth(project, outs),
        "ahead": say_hours(ahead) if (ahead := sum(out.minutes for out in outs)) else "",
        "cloths": cloths,
        "supplies": supplies,
        "stash": plan_stash_sheets(project, inputs.studio_cutting),
        "brought": [piece.name for piece in inputs.brought],
    }
    track = find_studio_track(project.tracks)
    page = print_page("run_sheet.html", f"run sheet {project.title}", fields, track=track)
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
        takes = tuple(tell_apart(list(_list_takes(inside, stages, project, pictures, number))))
        number += len(takes)
        shown = {step.get("stage") for step, _ in inside}
        outs = tuple(list_step_outs(project, sewing, shown))
        sheets.append(PartSheet(title, takes, outs, format_marks(title, takes)))
    return sheets


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
        chapter_title = f"{title_chapter(chapter)}: {about}" if about else title_chapter(chapter)
        yield Take(
            number=number,
            title=str(stage.get("title") or chapter_title),
            chapter=chapter,
            count=count,
            size=view_size(stage.get("size"), project.measure),
            tools=tuple(say_tool(tool) for tool in list_tools(step for step, _ in inside)),
            ready=(*list_ready(stage, stages, project), *list_files(step for step, _ in inside)),
            lines=lines,
            picture=Markup(pictures.get(stage_id or about, "")),  # noqa: S704 - our own drawing
            seconds=estimate_seconds(len(lines), count, shows_stage=bool(stage)),
            sewing=say_sewing(stage),
        )


def tell_apart(takes: Sequence[Take]) -> Iterator[Take]:
    """Takes of one title have the tracks they are for behind it: their chapter marks would be the same words."""
    titles = Counter(take.title for take in takes)
    for take in takes:
        tracks = dict.fromkeys(name for line in take.lines for name in line.tracks)
        again = titles[take.title] > 1 and tracks
        yield replace(take, title=f"{take.title} ({', '.join(tracks)})") if again else take


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
    lines, at = [phrase("0:00 {title}: what we make", title=title)], SECONDS_TO_OPEN
    for take in takes:
        lines.append(f"{_format_time(at)} {take.title}")
        at += take.seconds
    return "\n".join(lines)


def _format_time(seconds: int) -> str:
    hours, rest = divmod(seconds, 3600)
    minutes, left = divmod(rest, 60)
    return f"{hours}:{minutes:02d}:{left:02d}" if hours else f"{minutes}:{left:02d}"
