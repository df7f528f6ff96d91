"""Scenes of parts that go round a middle: what is sewn so far, with the seam sewn now or the way it is pressed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from workers.sewing.names import as_sentence
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
        return _show(
            stage, 1, [("sew", line(*find_first_go(stage.work)))], phrase("part 1 sewn to half the middle")
        )
    if word == "part":
        seam = stage.work.seams[int(number) - 1]
        done = ("sewn", line(*find_first_go(stage.work)))
        words = phrase("part {number} sewn on along its whole edge", number=number)
        return _show(stage, int(number), [done, ("sew", line(seam.start, seam.end))], words)
    if what == "close":
        return _show(
            stage, around, [("sew", line(*find_rest(stage.work)))], phrase("the rest of the first seam sewn")
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
    apart = show_apart(
        stage, phrase("{whole} in parts: 1 to {around} round a middle", whole=_call(stage), around=around)
    )
    places = [_middle_of(stage.work.items[number]) for number in range(around)]
    labels = tuple(
        (point(place), phrase("part {number}", number=number)) for number, place in enumerate(places, start=1)
    )
    return replace(apart, labels=(*labels, (point(_middle_of(stage.work.items[-1])), phrase("the middle"))))


def _show(stage: Stage, number: int, lines: Sequence[tuple[str, Line]], words: str) -> Scene:
    """The middle and the parts up to a number, with lines. No label: its leader would hide a level seam."""
    pieces = _pieces(list_sewn(stage.work, number))
    return Scene(phrase("{whole}: {words}, dashed", whole=_call(stage), words=words), pieces, tuple(lines))


def _call(stage: Stage) -> str:
    """The thing's name at the head of a sentence."""
    return as_sentence(stage.work.called)


def _pieces(items: Sequence[Laid]) -> tuple[Piece, ...]:
    return tuple(piece_of(cut) for item in items for cut in walk_patches(item))


def _middle_of(item: Laid) -> complex:
    return middle_of(corner for cut in walk_patches(item) for corner in cut.corners)
