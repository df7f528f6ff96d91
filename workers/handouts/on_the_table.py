"""What lies on the table when a take begins: what was made before, cut patches, files."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from service.craft.document import Project
from service.craft.drawing import view_cloths
from service.craft.language import phrase

Stages = Mapping[Any, Mapping[str, Any]]


def list_ready(stage: Mapping[str, Any], stages: Stages, project: Project) -> Iterator[str]:
    """What a stage takes that was made before, and the cloths of the patches that are sewn to it, by letter."""
    for need in stage.get("needs", []):
        yield str(stages.get(need, {}).get("title", need))
    cloths = view_cloths(project.fabrics)
    fresh = [cloth for key, cloth in cloths.items() if count_patches(stage, stages)[key]]
    if fresh:
        cloths_named = phrase(" and ").join(f"{cloth.letter} {cloth.name}" for cloth in fresh)
        yield phrase("patches of {cloths}", cloths=cloths_named)


def count_patches(stage: Mapping[str, Any], stages: Stages) -> Counter[str]:
    """How many patches of each cloth a stage sees for the first time: its own, less those of the parts it takes."""
    inside = _count(stage)
    for part in stage.get("parts") or ():
        inside -= _count(stages.get(part.get("stage"), {}))
    return inside


def _count(stage: Mapping[str, Any]) -> Counter[str]:
    return Counter(str(patch.get("fabric", "")) for patch in stage.get("patches") or ())


def list_files(steps: Iterable[Mapping[str, Any]]) -> list[str]:
    """Every file the steps name, each once: on the machine or printed out."""
    names = dict.fromkeys(str(name) for step in steps for name in step.get("files") or ())
    return [
        phrase("the files that begin with {name}", name=name[:-1]) if name.endswith("*") else name
        for name in names
    ]


def reckon_minutes(stage: Mapping[str, Any], stages: Stages) -> float:
    """Minutes that one more of a stage takes somebody practised, with everything it is made of.

    By the sewing plan's own estimates; nothing where it has none.
    """
    own = (stage.get("minutes") or {}).get("practised") or 0
    each = own / max(1, int(stage.get("count") or 1))
    parts = [stages[part["stage"]] for part in stage.get("parts") or () if part.get("stage") in stages]
    return float(each + sum(reckon_minutes(part, stages) for part in parts))
