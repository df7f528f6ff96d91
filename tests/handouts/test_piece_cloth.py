"""What a handout says of the cloth and the web for applique pieces comes from the cutting plan."""

from __future__ import annotations

import pytest

from service.craft.document import read_document
from service.craft.measure import length_object, parse_length
from workers.handouts.cloth_plans import plan_cloths
from workers.handouts.piece_cloth import list_piece_cloth, say_mat_room, say_web

from .conftest import CUTTING, DOCUMENT, HAND_TRACK, HOOP_TRACK, cut

PROJECT = read_document(DOCUMENT)
MACHINE, HAND = PROJECT.track(HOOP_TRACK), PROJECT.track(HAND_TRACK)


def length(text):
    return length_object(parse_length(text, "in"), "in")


def counted(by, tracks, **more):
    return {"counted_by": by, "tracks": tracks, **more}


CUT = {**cut("leaf", "rectangle", "8", "4", 1, purpose="leaf blade"), "serves": "pieces"}
ROOM = {"width": length("6 1/2"), "height": length("3"), "count": 1}
PLAN = {
    **CUTTING,
    "cuts": [*CUTTING["cuts"], CUT],
    "applique": [
        counted("bounding boxes", [HOOP_TRACK, HAND_TRACK], fabric="leaf", rectangles=[ROOM]),
        counted("real shapes on the mat", [HOOP_TRACK], fabric="leaf", rectangles=[ROOM]),
    ],
    "finishing": {
        **CUTTING["finishing"],
        "fusible": {
            "width": length("17"),
            "counts": [
                counted("bounding boxes", [HAND_TRACK], length=length("5"), buy=length("9")),
                counted("real shapes on the mat", [HOOP_TRACK], length=length("3"), buy=length("4 1/2")),
            ],
        },
    },
    "order": [
        {"number": 1, "fabric": "frost", "text": "Cut strip 1."},
        {"number": 2, "fabric": "leaf", "text": "Cut strip 1, too."},
    ],
}


def test_each_rectangle_for_pieces_is_listed_with_its_cloth():
    [row] = list_piece_cloth(PROJECT, PLAN)
    assert (row.words, row.cloth.key, row.room.main) == ("leaf blade", "leaf", "8 × 4 in")


@pytest.mark.parametrize(
    ("track", "words"),
    [
        (
            HAND,
            "9 in (22.9 cm) of a roll 17 in (43.2 cm) wide; 5 in (12.7 cm) are used, counted by bounding boxes",
        ),
        (
            MACHINE,
            "4 1/2 in (11.4 cm) of a roll 17 in (43.2 cm) wide; 3 in (76.2 mm) are used, counted by real shapes on "
            "the mat",
        ),
    ],
)
def test_web_is_counted_as_the_track_cuts(track, words):
    assert say_web(PROJECT, PLAN, track) == words


def test_without_web_in_the_plan_nothing_is_said_of_it():
    assert say_web(PROJECT, CUTTING, HAND) == ""


def test_only_a_track_with_a_cutting_machine_is_told_what_its_mat_needs():
    [said] = say_mat_room(PROJECT, PLAN, "leaf", MACHINE)
    assert "6 1/2 × 3 in" in said
    assert [*say_mat_room(PROJECT, PLAN, "leaf", HAND), *say_mat_room(PROJECT, PLAN, "frost", MACHINE)] == []


def test_each_cloth_has_its_own_lines_of_the_cutting_order_and_letters_its_sizes_from_a_on():
    by_key = {plan.cloth.key: plan for plan in plan_cloths(PROJECT, PLAN, HAND)}
    assert [(row.number, row.text) for row in by_key["leaf"].order] == [(2, "Cut strip 1, too.")]
    assert [row.letter for row in by_key["leaf"].rows] == ["a", "b"]
    assert by_key["night"].order == ()
