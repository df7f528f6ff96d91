"""Pieces laid by their shapes: legal, the same every time, and never more than rows of boxes take."""

from __future__ import annotations

import pytest
import shapely
from shapely.affinity import rotate

from service.craft.outlines import Outline, flatten
from service.craft.outlines.affine import Affine
from service.craft.outlines.model import Line, Ring
from workers.outlines import layout
from workers.outlines.layout import (
    ANY_TURN,
    AS_PLACED,
    BY_SHAPE,
    IN_ROWS,
    IN_ROWS_FOR_NOW,
    QUARTER_TURNS,
    Layout,
    Room,
    lay_on_mats,
)
from workers.outlines.nesting import mats, strip
from workers.outlines.nesting.check import find_layout_faults
from workers.outlines.nesting.mats import Nested, nest
from workers.outlines.nesting.strip import StripItem, StripPlace, StripProblem, TookTooLong, solve_strip

ROOM = Room(190.0, 190.0, 5.0)


def polygon(name: str, *corners: tuple[float, float]) -> Outline:
    first, *rest = corners
    return Outline(name, (Ring(first, tuple(Line(corner) for corner in rest)),))


def hook(n: int, size: float = 80.0) -> Outline:
    """A leek bent at a right angle: two of them lie inside the box of one and a bit."""
    thick = size / 4
    corners = ((0, 0), (size, 0), (size, thick), (thick, thick), (thick, size), (0, size))
    return polygon(f"leek {n}", *corners)


def regions(lay: Layout) -> list[tuple[int, shapely.Polygon]]:
    return [(mat, shapely.Polygon(flatten(outline.rings[0]))) for mat, outline in lay.places]


@pytest.fixture(scope="module")
def hooks() -> Layout:
    return lay_on_mats([hook(n) for n in range(6)], QUARTER_TURNS, ROOM)


def test_bent_pieces_lie_into_each_other_on_fewer_mats(hooks: Layout) -> None:
    """Worked by hand: boxes of 80 mm go two by two on 190 mm, so six take two mats in rows."""
    assert (hooks.way, hooks.mats) == (BY_SHAPE, 1)
    assert layout._lay_rows([hook(n) for n in range(6)], QUARTER_TURNS, ROOM).mats == 2


def test_pieces_keep_their_distance_and_stay_in_the_room(hooks: Layout) -> None:
    """Source: shapely's distances, without the check that the layout has passed."""
    laid = regions(hooks)
    room = shapely.box(0, 0, 190, 190).buffer(0.05)
    assert all(room.contains(shape) for _, shape in laid)
    for i, (mat, shape) in enumerate(laid):
        assert all(shape.distance(other) >= 4.95 for there, other in laid[:i] if there == mat)


def test_cloth_with_a_direction_lies_as_placed() -> None:
    """Source: shapely: each piece equals the piece as given, moved."""
    given = [hook(n, 60) for n in range(6)]
    lay = lay_on_mats(given, AS_PLACED, ROOM)
    for outline, (_, shape) in zip(given, regions(lay), strict=True):
        as_given = shapely.Polygon(flatten(outline.rings[0]))
        moved = shapely.affinity.translate(as_given, shape.bounds[0], shape.bounds[1])
        assert shape.symmetric_difference(moved).area < 0.1


HOOKS = tuple(
    StripItem(((0, 0), (60, 0), (60, 15 + n), (15, 15), (15, 60), (0, 60)), QUARTER_TURNS) for n in range(5)
)


def test_the_same_shapes_lie_in_the_same_places_when_solved_again() -> None:
    """Two processes of the solver, neither knowing of the other."""
    first = solve_strip(StripProblem(HOOKS, 190.0))
    solve_strip.cache_clear()
    assert first is not None
    assert solve_strip(StripProblem(HOOKS, 190.0)) == first


def test_who_waits_longer_gets_the_same_places_and_who_cannot_wait_gets_none() -> None:
    """A hundredth of a second starts no process; what was given up is tried again by whoever has more time."""
    solve_strip.cache_clear()
    with pytest.raises(TookTooLong):
        solve_strip(StripProblem(HOOKS, 190.0, seconds=0.01))
    patient = solve_strip(StripProblem(HOOKS, 190.0, seconds=600.0))
    solve_strip.cache_clear()
    assert patient == solve_strip(StripProblem(HOOKS, 190.0))


def test_what_no_mat_is_left_for_by_shape_goes_in_rows(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only the first mat is nested here: the other pieces lie on further mats, none lost."""
    monkeypatch.setattr("workers.outlines.nesting.mats.MOST_STRIPS", 1)
    given = [hook(n) for n in range(20)]
    lay = layout._lay_shapes(given, QUARTER_TURNS, ROOM)
    assert lay is not None
    assert [outline.name for _, outline in lay.places] == [outline.name for outline in given]
    assert {mat for mat, _ in lay.places} == set(range(lay.mats))
    assert layout.list_faults(lay, given, QUARTER_TURNS, ROOM) == []


def test_a_solver_that_finds_nothing_leaves_rows(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(mats, "solve_strip", lambda _problem: None)
    assert lay_on_mats([hook(n) for n in range(6)], QUARTER_TURNS, ROOM).way == IN_ROWS


def test_what_is_not_done_in_time_goes_in_the_same_rows_and_the_layout_says_so() -> None:
    given = [hook(n) for n in range(6)]
    lay = lay_on_mats(given, QUARTER_TURNS, ROOM, lambda: 5.0)
    assert lay.way == IN_ROWS_FOR_NOW
    assert lay.places == layout._lay_rows(given, QUARTER_TURNS, ROOM).places


def test_a_second_mat_that_is_not_done_in_time_puts_all_in_rows(monkeypatch: pytest.MonkeyPatch) -> None:
    """Half by shape and half in rows would lie otherwise on another day."""
    clock = iter([600.0, 5.0, *[5.0] * 100])
    monkeypatch.setattr(mats, "MOST_STARTS", 1)
    monkeypatch.setattr(mats, "FEWEST_STARTS", 1)
    monkeypatch.setattr(mats, "MOST_AT_ONCE", 5)
    monkeypatch.setattr(mats, "_fill_gaps", lambda *_: {})
    given = [hook(n) for n in range(20)]
    assert lay_on_mats(given, QUARTER_TURNS, ROOM, lambda: next(clock)).way == IN_ROWS_FOR_NOW


def test_the_shortest_of_some_searches_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two searches are made up: one lays three hooks below each other, the other two of them side by side."""
    given = [mats.Shape(hook(n), AS_PLACED) for n in range(3)]
    ways = {1: ((0, 0), (0, 100), (0, 200)), 2: ((0, 0), (100, 0), (0, 100))}

    def search(shapes: list[mats.Shape], *asked: object) -> list[Outline]:
        places = ways[2 if asked[-1] == 2 else 1]
        return [s.outline.moved(Affine.moving(*place)) for s, place in zip(shapes, places, strict=True)]

    monkeypatch.setattr(mats, "_search_strip", search)
    laid = mats._lay_strip(given, 190.0, 500.0, 5.0)
    assert laid is not None
    assert max(outline.box_mm[3] for outline in laid if outline) == 180


def test_another_start_finds_another_layout() -> None:
    """The same shapes and strip, each start in the same way every time."""
    first, second = (solve_strip(StripProblem(HOOKS, 190.0, start=start)) for start in (1, 2))
    assert first != second


def test_a_piece_as_wide_as_the_mat_is_nested_with_others() -> None:
    """Source: shapely's distance, by way of the check; a bed across the whole mat, and hooks round it."""
    bed = polygon("bed", (0, 0), (190, 0), (190, 30), (20, 30), (20, 40), (0, 40))
    given = [bed, *(hook(n, 70) for n in range(3))]
    for turns in (AS_PLACED, QUARTER_TURNS, ANY_TURN):
        lay = layout._lay_shapes(given, turns, ROOM)
        assert lay is not None
        assert (lay.way, layout.list_faults(lay, given, turns, ROOM)) == (BY_SHAPE, [])


def test_a_layout_with_a_fault_is_not_used(monkeypatch: pytest.MonkeyPatch) -> None:
    """All pieces upon each other would take the least cloth of all."""
    given = [hook(n) for n in range(6)]
    heap = {n: Nested(0, outline) for n, outline in enumerate(given)}
    monkeypatch.setattr(layout, "nest", lambda *_, **__: (heap, []))
    assert lay_on_mats(given, QUARTER_TURNS, ROOM).way == IN_ROWS


def test_a_strip_without_a_place_for_each_item_counts_as_unsolved() -> None:
    answer = [{"item": 0, "turn": 0.0, "x": 1.0, "y": 2.0}]
    assert strip._read_places(answer, 1) == (StripPlace(0.0, (1.0, 2.0)),)
    assert strip._read_places(answer, 2) is None


def test_rectangles_stay_in_rows() -> None:
    """Boxes are their own boxes: rows of them are full, and nothing is computed."""
    beds = [polygon(f"bed {n}", (0, 0), (60, 0), (60, 40), (0, 40)) for n in range(12)]
    assert lay_on_mats(beds, QUARTER_TURNS, ROOM).way == IN_ROWS


def test_nothing_to_lay_is_nothing_laid() -> None:
    assert nest([], 100, 100, spacing_mm=5) == ({}, [])


LEEK = hook(1)
FREE = (0.0, 0.0, 190.0, 190.0)


def faults(*laid: Outline, turns: tuple[float, ...] = AS_PLACED) -> list[str]:
    return find_layout_faults(laid, [LEEK] * len(laid), [turns] * len(laid), FREE, 5.0)


def test_the_check_names_every_kind_of_fault() -> None:
    near = LEEK.moved(Affine.moving(24, 24))
    far = LEEK.moved(Affine.moving(105, 105))
    assert faults(LEEK, far) == []
    assert faults(LEEK, near) == ["leek 1 lies too near leek 1"]
    assert faults(LEEK, LEEK) == ["leek 1 lies too near leek 1"]
    assert faults(LEEK.moved(Affine.moving(111, 0))) == ["leek 1 leaves the mat's room"]


@pytest.mark.parametrize("turn", [90.0, 180.0, 270.0, 45.0])
def test_the_check_finds_a_turn_that_is_not_allowed(turn: float) -> None:
    """Source for the turned shape: shapely's rotate."""
    corners = rotate(shapely.Polygon(flatten(LEEK.rings[0])), turn, origin=(0, 0)).exterior.coords[:-1]
    left, top = (min(c[axis] for c in corners) for axis in (0, 1))
    turned = polygon("leek 1", *((x - left, y - top) for x, y in corners))
    assert faults(turned) == ["leek 1 is turned as it may not be"]
    assert bool(faults(turned, turns=QUARTER_TURNS)) is (turn == 45)
    assert faults(turned, turns=()) == []


def test_shapes_with_endless_corners_go_in_rows(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(layout, "MOST_CORNERS", 20)
    assert lay_on_mats([hook(n) for n in range(6)], QUARTER_TURNS, ROOM).way == IN_ROWS


def test_the_check_finds_a_shape_that_is_not_the_one_it_was() -> None:
    assert faults(hook(1, 60), turns=()) == ["leek 1 is no longer the shape it was"]
