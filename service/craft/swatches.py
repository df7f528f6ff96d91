"""Photographs of cloth: how large what they show is in truth, and the colour that stands for it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from service.craft.document import Project
from service.craft.faults import Fault, show, suggest
from service.craft.reading import at

LEAST_MM, MOST_MM = 10.0, 3000.0
"""How wide or high the cloth in a photograph may be: less shows no print, more is no photograph of a cloth."""

SIDES = ("top", "right", "bottom", "left")
"""The sides of a photograph; one of them is up in the print."""


@dataclass(frozen=True)
class Swatch:
    """A photograph as it is kept: upright in the sense of the print, of nothing but the cloth.

    `sha256` names the picture (JPEG) in the file store; `colour` is its median, channel by channel, as `#rrggbb`.
    """

    name: str
    sha256: str
    width_px: int
    height_px: int
    mm_per_pixel: float
    colour: str

    @property
    def width_mm(self) -> float:
        """How wide the cloth in it is."""
        return self.width_px * self.mm_per_pixel

    @property
    def height_mm(self) -> float:
        """How high the cloth in it is."""
        return self.height_px * self.mm_per_pixel

    def to_json(self) -> dict[str, Any]:
        """As it is stored and handed to jobs."""
        return asdict(self)


def fill_colours(document: Mapping[str, Any], colours: Mapping[str, str]) -> dict[str, Any]:
    """A document in which cloths with a photograph and no colour have the photograph's, those of colourways too.

    `colours` are those of the photographs by name. What is no cloth stays as it is: reading tells its fault.

    >>> leaf = {"swatch": "leaf"}
    >>> fill_colours({"fabrics": {"leaf": leaf, "frost": {}}}, {"leaf": "#5f8f4e"})["fabrics"]
    {'leaf': {'swatch': 'leaf', 'colour': '#5f8f4e'}, 'frost': {}}
    """
    filled = dict(document)
    if isinstance(document.get("fabrics"), Mapping):
        filled["fabrics"] = _fill(document["fabrics"], colours)
    if isinstance(document.get("colourways"), list):
        filled["colourways"] = [
            {**one, "fabrics": _fill(one["fabrics"], colours)}
            if isinstance(one, Mapping) and isinstance(one.get("fabrics"), Mapping)
            else one
            for one in document["colourways"]
        ]
    return filled


def find_missing(project: Project, names: Collection[str]) -> Iterator[Fault]:
    """The cloths, of colourways too, whose photograph is not among `names`: they are drawn as colours until then."""
    asked = {at("/fabrics", key, "swatch"): fabric.swatch for key, fabric in project.fabrics.items()}
    for i, colourway in enumerate(project.colourways):
        for key, name in colourway.swatches.items():
            asked[at("/colourways", i, "fabrics", key, "swatch")] = name
    for pointer, name in asked.items():
        if name and name not in names:
            right = suggest(name, names) if names else "upload it to the project's swatches"
            yield Fault(
                pointer, f"there is no photograph {show(name)} yet; the cloth is drawn as a colour", right
            )


def _fill(cloths: Mapping[str, Any], colours: Mapping[str, str]) -> dict[str, Any]:
    return {key: _fill_one(cloth, colours) for key, cloth in cloths.items()}


def _fill_one(cloth: Any, colours: Mapping[str, str]) -> Any:
    if not isinstance(cloth, Mapping) or "colour" in cloth:
        return cloth
    name = cloth.get("swatch")
    return {**cloth, "colour": colours[name]} if isinstance(name, str) and name in colours else cloth
