"""Every stage, cloth and piece has a step, and every tool a step names is among the materials."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any

from service.craft.audience import writing_for
from service.craft.tools import say_tool
from workers.completeness.finding import Finding
from workers.completeness.made import Made

NAMED_IN_WORDS = (
    *("rotary cutter", "cutting mat", "seam ripper", "sewing machine", "hoop machine", "embroidery machine"),
    *(
        "cutting machine",
        "fusible web",
        "stabiliser",
        "walking foot",
        "tape measure",
        "safety pins",
        "washable marker",
    ),
    *("hand needle", "ironing board", "fabric pen", "basting thread", "curved scissors", "light table"),
)
"""Tools (`service.craft.tools`) that the words of a step can mean, though its list leaves them out: names of two words
and such as have no other meaning."""


def find_unsaid(made: Made) -> Iterator[Finding]:
    """Stages, patches, cloths, pieces and finishing that no step is about."""
    said = {str(step.get("stage")) for step in made.steps if step.get("text")}
    stages = list(made.sewing.get("stages", []))
    for i, stage in enumerate(stages):
        if str(stage.get("id")) not in said:
            yield Finding(
                "step",
                f"sewing.json#/stages/{i}",
                f'no step sews the stage "{stage.get("title") or stage.get("id")}"',
                "a step that names it as its stage",
            )
    yield from _find_lost_patches(made, stages)
    yield from _find_uncut_cloths(made)
    for piece in made.project.pieces:
        if not any(piece.name in (step.get("pieces") or []) for step in made.steps if step.get("text")):
            yield Finding(
                "step", piece.pointer, f'no step is about the piece "{piece.name}"', "a step that names it"
            )
    if made.project.finish.binding is not None and not _is_said(made, "finishing.binding"):
        yield Finding("step", "/finish/binding", "no step sews on the binding", "the steps of the binding")


def find_tools_not_listed(made: Made) -> Iterator[Finding]:
    """Tools that a step lists or its words name, and the materials leave out."""
    with writing_for(made.audience):
        listed = [say_tool(str(tool)) for tool in made.materials.get("tools", [])]
        said = {tool: say_tool(tool) for tool in NAMED_IN_WORDS}
    for i, step in enumerate(made.steps):
        words = f"{step.get('text') or ''} {step.get('why') or ''}"
        with writing_for(made.audience):
            named = {str(tool): say_tool(str(tool)) for tool in step.get("tools") or []}
        named |= {tool: name for tool, name in said.items() if _pattern(name).search(words)}
        for tool, name in named.items():
            if not any(_pattern(name).search(one) for one in listed):
                yield Finding(
                    "tool",
                    f"{made.steps_name}#/steps/{i}",
                    f'the step "{step.get("id")}" names the {tool}, which is not among the materials',
                    "the tool in the materials list",
                )


@lru_cache(maxsize=512)
def _pattern(tool: str) -> re.Pattern[str]:
    return re.compile(rf"\b{re.escape(tool)}\b", re.IGNORECASE)


def _find_lost_patches(made: Made, stages: list[Mapping[str, Any]]) -> Iterator[Finding]:
    """The last stage holds every patch of the top; a top of one patch needs none."""
    patches = list(made.project.top.patches())
    if len(patches) < 2:
        return
    most = max((len(stage.get("patches") or []) for stage in stages), default=0)
    if most < len(patches):
        lost = len(patches) - most
        yield Finding(
            "step",
            made.project.top.pointer,
            f"{lost} of {len(patches)} patches are sewn in no stage",
            "a last stage that holds the whole top",
        )


def _find_uncut_cloths(made: Made) -> Iterator[Finding]:
    """A step of the cutting chapter names each cloth of which patches are cut."""
    cutting = [step for step in made.steps if step.get("chapter") == "cutting"]
    words = " ".join(f"{step.get('id')} {step.get('text')}" for step in cutting)
    for key in dict.fromkeys(patch.fabric for patch in made.project.top.patches()):
        if made.project.fabrics[key].name not in words and not re.search(rf"\.{re.escape(key)}\b", words):
            yield Finding(
                "step",
                f"/fabrics/{key}",
                f'no step cuts the patches of "{key}"',
                "a step of the cutting chapter",
            )


def _is_said(made: Made, start: str) -> bool:
    return any(str(step.get("id", "")).startswith(start) for step in made.steps)
