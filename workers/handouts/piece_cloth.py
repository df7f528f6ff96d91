"""Cloth and fusible web for the applique pieces of a track, as the cutting plan counts them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.craft.document import Project
from service.craft.drawing import ClothView, view_cloths
from service.craft.language import mark, phrase
from service.craft.tracks import Track
from workers.handouts.sizes import Shown, show_length, show_size

Json = Mapping[str, Any]

ON_THE_MAT = "real shapes on the mat"
"""How the cutting plan calls what a cutting machine's pieces take."""

WEB = (
    mark("{length} of a roll {width} wide; {used} are used, counted by bounding boxes"),
    mark("{length} of a roll {width} wide; {used} are used, counted by real shapes on the mat"),
)


@dataclass(frozen=True)
class ClothForPieces:
    """Pieces that each take as much of one cloth: their names, the cloth, how much to have for each."""

    names: tuple[str, ...]
    cloth: ClothView
    room: Shown

    @property
    def words(self) -> str:
        """The pieces' names as a list."""
        return ", ".join(self.names)


def list_piece_cloth(project: Project, cutting: Json) -> list[ClothForPieces]:
    """Every rectangle of the cutting plan that serves pieces, in its order."""
    cloths = view_cloths(project.fabrics)
    return [
        ClothForPieces(
            tuple(map(str, cut.get("for", []))),
            cloths[cut["fabric"]],
            show_size(cut.get("width"), cut.get("height"), project.measure),
        )
        for cut in cutting.get("cuts", [])
        if cut.get("serves") == "pieces" and cut.get("fabric") in cloths
    ]


def say_mat_room(project: Project, cutting: Json, key: str, track: Track | None) -> Iterator[str]:
    """What a cutting machine needs of a cloth for its pieces, where the track has one and it is less to cut."""
    for entry in cutting.get("applique", []):
        counted = entry.get("counted_by") == ON_THE_MAT and entry.get("fabric") == key
        if track is None or not counted or track.name not in entry.get("tracks", []):
            continue
        rooms = [
            _count_rooms(room["count"], show_size(room["width"], room["height"], project.measure).main)
            for room in entry.get("rectangles", [])
        ]
        yield phrase(
            "The cutting machine needs less for the pieces: {sizes}, with web on the back, in place of the rectangles "
            "cut by their bounding boxes.",
            sizes=phrase(" and ").join(rooms),
        )


def _count_rooms(count: int, size: str) -> str:
    return phrase("{count} of {size}", count=count, size=size) if count > 1 else size


def say_web(project: Project, cutting: Json, track: Track) -> str:
    """How much fusible web to buy on a track, in words; empty where its pieces take none."""
    web = (cutting.get("finishing") or {}).get("fusible") or {}
    for count in web.get("counts", []):
        if track.name in count.get("tracks", []):
            width = show_length(web.get("width"), project.measure)
            buy, used = (show_length(count.get(name), project.measure) for name in ("buy", "length"))
            return phrase(
                WEB[count["counted_by"] == ON_THE_MAT],
                length=_both(buy),
                width=_both(width),
                used=_both(used),
            )
    return ""


def _both(shown: Shown) -> str:
    return f"{shown.main} ({shown.second})" if shown.second else shown.main
