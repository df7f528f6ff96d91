"""A track's steps as they are printed: by part, chapter and stage, each stage with its picture."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

from markupsafe import Markup

from service.craft.document import Project
from service.craft.finish import CHAPTERS
from service.craft.language import mark, phrase
from workers.handouts.sizes import Shown, round_length, show_length, show_size

NO_PICTURE = Markup()
CUTTING, PIECING, APPLIQUE, FINISHING = CHAPTERS
"""Piecing and applique have something of their own before their steps."""

CHAPTER_NAMES = {
    CUTTING: mark("cutting"),
    PIECING: mark("piecing"),
    APPLIQUE: mark("applique"),
    FINISHING: mark("finishing"),
}
CHAPTER_TITLES = {
    CUTTING: mark("Cutting"),
    PIECING: mark("Piecing"),
    APPLIQUE: mark("Applique"),
    FINISHING: mark("Finishing"),
}

BESIDE = (
    "piecing.seam-test",
    "finishing.backing-sew",
    "finishing.binding.pins",
    "finishing.binding.fold-corner",
)
"""Steps beside which the drawing of their heading stands."""

PRESSED = ".press"
"""End of the id of the step beside which the whole stage is drawn: its seams, its wedges and its size."""


@dataclass(frozen=True)
class SizeCheck:
    """What a stage should measure, and the sizes between which it is still fine."""

    size: Shown
    low: str = ""
    high: str = ""


@dataclass(frozen=True)
class StepView:
    """One step: the action, the reason after it, the check, the caution, the files it names, the words it explains.

    `if_not` says what to look at where the size does not come out; the maker's tips stand before and after it.
    """

    number: int
    text: str
    why: str
    size: SizeCheck | None
    caution: str
    files: tuple[str, ...]
    terms: tuple[tuple[str, str], ...]
    if_not: str = ""
    picture: Markup = NO_PICTURE
    tips_before: tuple[str, ...] = ()
    tips_after: tuple[str, ...] = ()


@dataclass(frozen=True)
class StageSection:
    """The steps of one stage under its title; `picture` is what its heading shows beside those of the steps."""

    title: str
    count: int
    picture: Markup
    steps: tuple[StepView, ...]

    @property
    def kept_together(self) -> int:
        """How many steps stay on the page of the title: the first, with its picture."""
        return 1


@dataclass(frozen=True)
class ChapterSection:
    """One chapter: cutting, piecing, applique or finishing."""

    key: str
    title: str
    stages: tuple[StageSection, ...]


@dataclass(frozen=True)
class PartSection:
    """One part as it is published."""

    title: str
    chapters: tuple[ChapterSection, ...]


def group_steps(
    steps: Sequence[Mapping[str, Any]],
    project: Project,
    sewing: Mapping[str, Any],
    pictures: Mapping[str, str],
) -> list[PartSection]:
    """The steps in their order, gathered under parts, chapters and stages; numbered through.

    `pictures` are drawings (SVG) by stage id, or by the heading of steps without a stage; each is shown once, where
    its stage or heading first comes.
    """
    stages = {stage.get("id"): stage for stage in sewing.get("stages", [])}
    left = dict(pictures)
    numbered = list(enumerate(steps, start=1))
    return [
        PartSection(name_part(part, project), tuple(_group_chapters(list(inside), project, stages, left)))
        for part, inside in groupby(numbered, key=lambda item: item[1].get("part", ""))
    ]


def name_part(part: Any, project: Project) -> str:
    """A part's title, from the title itself or from its place in the document."""
    if isinstance(part, int) and 0 <= part < len(project.parts):
        return project.parts[part].title
    return str(part)


def _group_chapters(
    numbered: Sequence[tuple[int, Mapping[str, Any]]],
    project: Project,
    stages: Mapping[Any, Mapping[str, Any]],
    pictures: dict[str, str],
) -> Iterable[ChapterSection]:
    for chapter, inside in groupby(numbered, key=lambda item: str(item[1].get("chapter", ""))):
        sections = tuple(
            _view_stage(key, list(items), project.measure, stages, pictures)
            for key, items in groupby(inside, key=lambda item: find_group(item[1]))
        )
        yield ChapterSection(chapter, title_chapter(chapter), sections)


def title_chapter(chapter: str) -> str:
    """How a chapter is called at its head."""
    return phrase(CHAPTER_TITLES[chapter]) if chapter in CHAPTER_TITLES else chapter.capitalize()


def name_chapter(chapter: str) -> str:
    """How a chapter is called in a sentence."""
    return phrase(CHAPTER_NAMES[chapter])


def find_group(step: Mapping[str, Any]) -> tuple[str, str]:
    """What a step stands under: its stage, and its heading where it has no stage."""
    return str(step.get("stage") or ""), str(step.get("heading") or "")


def _view_stage(
    key: tuple[str, str],
    numbered: Sequence[tuple[int, Mapping[str, Any]]],
    measure: str,
    stages: Mapping[Any, Mapping[str, Any]],
    pictures: dict[str, str],
) -> StageSection:
    stage_id, heading = key
    stage = stages.get(stage_id, {})
    drawn = Markup(pictures.pop(stage_id or heading, ""))  # noqa: S704 - our own drawing, escaped by the sheet
    views = list(_name_files_once(_view_step(number, step, measure) for number, step in numbered))
    place = _find_place(numbered) if drawn else None
    if place is not None:
        views[place] = replace(views[place], picture=drawn)
    return StageSection(
        title=str(stage.get("title") or heading),
        count=int(stage.get("count") or 0),
        picture=drawn if place is None else Markup(),
        steps=tuple(views),
    )


def _find_place(numbered: Sequence[tuple[int, Mapping[str, Any]]]) -> int | None:
    """The place of the step that presses a stage as a whole, or that the drawing of a heading is about."""
    ids = [(str(step.get("id")), bool(step.get("stage"))) for _, step in numbered]
    fitting = [
        i for i, (name, staged) in enumerate(ids) if (name.endswith(PRESSED) if staged else name in BESIDE)
    ]
    return fitting[-1] if fitting else None


def _name_files_once(steps: Iterable[StepView]) -> Iterator[StepView]:
    """Under one heading a file is named where it is first needed; it stays loaded after that."""
    before: tuple[str, ...] = ()
    for step in steps:
        yield replace(step, files=()) if step.files == before else step
        before = step.files or before


def _view_step(number: int, step: Mapping[str, Any], measure: str) -> StepView:
    return StepView(
        number=number,
        text=str(step.get("text", "")),
        why=str(step.get("why") or ""),
        size=view_size(step.get("size"), measure),
        caution=str(step.get("caution") or ""),
        files=tuple(str(name) for name in step.get("files") or ()),
        terms=tuple((str(t.get("term", "")), str(t.get("explanation", ""))) for t in step.get("terms") or ()),
        if_not=str(step.get("if_not") or ""),
        picture=Markup((step.get("picture") or {}).get("svg", "")),  # noqa: S704 - drawn by the sewing job
        tips_before=tuple(step.get("tips_before") or ()),
        tips_after=tuple(step.get("tips_after") or ()),
    )


def view_size(size: Any, measure: str) -> SizeCheck | None:
    """The size check of a step or stage; `low` and `high` are lengths, sizes, or left out."""
    if not isinstance(size, Mapping):
        return None
    width, height = (round_length(size.get(key), measure) for key in ("width", "height"))
    shown = show_size(width, height, measure)
    return (
        SizeCheck(shown, _limit(size.get("low"), measure), _limit(size.get("high"), measure))
        if shown
        else None
    )


def _limit(limit: Any, measure: str) -> str:
    if isinstance(limit, Mapping) and "width" in limit:
        if limit["width"] == limit.get("height"):
            return show_length(limit["width"], measure).main
        return show_size(limit["width"], limit.get("height"), measure).main
    return show_length(limit, measure).main


def list_tools(steps: Iterable[Mapping[str, Any]]) -> list[str]:
    """Every tool the steps name, each once, in the order of first use."""
    return list(dict.fromkeys(str(tool) for step in steps for tool in step.get("tools") or ()))
