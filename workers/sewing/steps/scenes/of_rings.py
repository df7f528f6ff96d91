"""Scenes of parts that go round a middle: what is sewn so far, with the seam sewn now or the way it is pressed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.craft.drawing.scenes import Line, Piece, Scene
from workers.sewing.plan import Stage
from workers.sewing.rings import RING, find_first_go, find_rest, list_sewn
from workers.sewing.steps.scenes.of_stage import line, middle_of, piece_of, point, show_apart, show_pressed
from workers.sewing.works import Laid, walk_patches


def show_ring(what: str, stage: Stage) -> Scene | None:
    """The scene of a step of a ring by what it is called; None for what other stages show as well."""
    if stage.work.kind != RING:
        return None
    word, _, number = what.partition("-")
    around = len(stage.seams)
    if what == "lay":
        return _number(stage)
    if what == "half-seam":
        return _show(stage, 1, [("sew", line(*find_first_go(stage.work)))], "part 1 sewn to half the middle")
    if word == "part":
        seam = stage.work.seams[int(number) - 1]
        done = ("sewn", line(*find_first_go(stage.work)))
        words = f"part {number} sewn on along its whole edge"
        return _show(stage, int(number), [done, ("sew", line(seam.start, seam.end))], words)
    if what == "close":
        return _show(
            stage, around, [("sew", line(*find_rest(stage.work)))], "the rest of the first seam sewn"
        )
    if word == "press":
        place = int(number or around)
        shown = replace(
            show_pressed(stage, (int(number or 1) - 1,)), pieces=_pieces(list_sewn(stage.work, place))
        )
        return _half_of(shown, find_first_go(stage.work)) if number == "1" else shown
    return None


def _half_of(shown: Scene, go: tuple[complex, complex]) -> Scene:
    """A pressed seam as far as its first go reaches."""
    wedges = tuple((point(middle_of(go)), towards) for _, towards in shown.wedges)
    return replace(shown, lines=(("sew", line(*go)),), wedges=wedges)


def _number(stage: Stage) -> Scene:
    """The parts apart, those round the middle numbered."""
    around = len(stage.seams)
    apart = show_apart(stage, f"{_call(stage)} in parts: 1 to {around} round a middle")
    places = [_middle_of(stage.work.items[number]) for number in range(around)]
    labels = tuple((point(place), f"part {number}") for number, place in enumerate(places, start=1))
    return replace(apart, labels=(*labels, (point(_middle_of(stage.work.items[-1])), "the middle")))


def _show(stage: Stage, number: int, lines: Sequence[tuple[str, Line]], words: str) -> Scene:
    """The middle and the parts up to a number, with lines. No label: its leader would hide a level seam."""
    pieces = _pieces(list_sewn(stage.work, number))
    return Scene(f"{_call(stage)}: {words}, dashed", pieces, tuple(lines))


def _call(stage: Stage) -> str:
    """The thing's name at the head of a sentence."""
    return stage.work.called[0].upper() + stage.work.called[1:]


def _pieces(items: Sequence[Laid]) -> tuple[Piece, ...]:
    return tuple(piece_of(cut) for item in items for cut in walk_patches(item))


def _middle_of(item: Laid) -> complex:
    return middle_of(corner for cut in walk_patches(item) for corner in cut.corners)
