"""What steps say of hoopings: where the middle lies, and which file sews a motif that comes again."""

from __future__ import annotations

from fractions import Fraction

from service.craft.language import join_words, phrase, say_number
from service.craft.measure import MM_PER_INCH, round_to_ruler
from workers.sewing.steps.pieces import PieceLesson
from workers.stitches.pieces import Hooping


def find_hoopings_of(one: PieceLesson) -> list[Hooping]:
    """The hoopings that sew a piece on the lesson's track, in sewing order; none where they were not planned.

    What viewers must own is sewn from a file of their own: no hooping of ours is told of.
    """
    if one.owned:
        return []
    return [h for h in one.lesson.hoopings if any(s.piece.name == one.name for s in h.sewn)]


def file_of(hooping: Hooping) -> str:
    """The stitch file that a hooping is sewn with: its own, or that of an earlier one."""
    return f"stitch-{hooping.same_as or hooping.name}.dst"


def say_place(one: PieceLesson, at_mm: tuple[float, float]) -> str:
    """A place on the top, from its cut edges."""
    project = one.lesson.project
    across, down = (
        one.lesson.length(
            round_to_ruler(Fraction(side) / MM_PER_INCH + project.seam_allowance, project.measure)
        )
        for side in at_mm
    )
    return phrase(
        "{across} from the left cut edge of the top and {down} from the upper one", across=across, down=down
    )


def say_hooped(one: PieceLesson, hooping: Hooping) -> str:
    """Where the middle of a hooping lies, and how the top lies in the hoop, as a clause."""
    again = bool(hooping.same_as)
    turn = hooping.top_turned_degrees if again else 90.0 * hooping.turned
    middle = say_place(one, hooping.same_centre_mm if again else hooping.centre_mm)
    if not turn:
        return phrase("the middle of the hooping {middle}", middle=middle)
    degrees = say_number(turn, ".4g")
    return phrase(
        "the middle of the hooping {middle}, the top turned {degrees} degrees clockwise in the hoop",
        middle=middle,
        degrees=degrees,
    )


def say_again(one: PieceLesson) -> str:
    """That one file sews a motif in several places, and how the top is hooped here; with a space before it."""
    hoopings = find_hoopings_of(one)
    if len(hoopings) != 1:
        return ""
    hooping = hoopings[0]
    if hooping.again:
        others = [phrase("the {piece}", piece=name) for other in hooping.again for name in other.pieces]
        return " " + phrase(
            "Its file, {file}, also sews {pieces}: keep it at hand.",
            file=file_of(hooping),
            pieces=join_words(others),
        )
    if hooping.same_as:
        return " " + phrase(
            "It is sewn with {file} once more, {hooped}.",
            file=file_of(hooping),
            hooped=say_hooped(one, hooping),
        )
    return ""
