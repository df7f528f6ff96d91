"""Slips of somebody who writes a first document: what is said to each, word by word, in one look."""

from __future__ import annotations

from typing import Any

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.readiness import check_readiness

CLOTHS = {"frost": {"name": "frost white"}, "leaf": {"name": "leek green"}, "soil": {}}
PATCH = {"unit": "patch", "size": ["3", "3"], "fabric": "frost"}
CORNERS = {"unit": "corner squares", "size": ["3", "2"], "fabric": "frost"}
LENGTH = 'a length such as "3 1/2"'


def said(top: Any, **more: Any) -> list[tuple[str, str, str]]:
    with pytest.raises(DocumentFaults) as caught:
        read_document({"title": "Bean row", "fabrics": CLOTHS, "top": top} | more)
    return [(fault.pointer, fault.detail, fault.right) for fault in caught.value.faults]


def patch(width: Any, height: Any = "3", fabric: Any = "frost") -> dict[str, Any]:
    return {"unit": "patch", "size": [width, height], "fabric": fabric}


def grid(*rows: Any, **more: Any) -> dict[str, Any]:
    return {"unit": "grid", "rows": list(rows), **more}


@pytest.mark.parametrize(
    ("size", "detail", "right"),
    [
        ("-3", "the width is less than nothing", "a length above zero"),
        (-2, "the width is less than nothing", "a length above zero"),
        (0, "the width is zero", "a length above zero"),
        (None, "the width is missing", LENGTH),
        ("3,5", 'the width: "3,5" is not a length', '"3.5", with a point'),
        ("1,000,000", 'the width: "1,000,000" is not a length', LENGTH),
        ("1/0", 'the width: "1/0" divides by zero', LENGTH),
        ("3 1/0", 'the width: "3 1/0" divides by zero', LENGTH),
        (float("nan"), "the width: nan is not a finite number", LENGTH),
        (float("inf"), "the width: inf is not a finite number", LENGTH),
        (10**40, "the width is longer than 25 m", "a length that fits in a sewing room"),
        ("1e9", 'the width: "1e9" is not a length', LENGTH),
        ("three", 'the width: "three" is not a length', LENGTH),
        (True, "the width: true is not a length", LENGTH),
        ([3], "the width: a list is not a length", LENGTH),
    ],
    ids=str,
)
def test_what_is_no_length(size: Any, detail: str, right: str) -> None:
    [(pointer, found, remedy)] = said(patch(size))
    assert (pointer, found) == ("/top/size/0", detail)
    assert remedy.startswith(right)


@pytest.mark.parametrize(
    ("top", "expected"),
    [
        (grid(), ("/top/rows", 'the list "rows" is empty', "a list in brackets [] with 1 or more entries")),
        (
            grid([], [PATCH]),
            ("/top/rows/0", "a row is empty", "a list in brackets [] with 1 or more entries"),
        ),
        (
            grid([PATCH, PATCH], [PATCH]),
            (
                "/top/rows/1",
                "the row comes to 3 in (finished), the row it is sewn to is 6 in wide",
                "units that come to 6 in",
            ),
        ),
        (
            grid([PATCH, patch("3", "3 1/2")]),
            (
                "/top/rows/0/1",
                "the unit is 3 1/2 in high (finished), its neighbour in the row 3 in",
                "3 in high, like the rest of the row",
            ),
        ),
        (
            {"unit": "hst", "size": ["3", "3"]},
            ("/top/unit", 'there is no unit called "hst"', 'did you mean "half-square triangle"?'),
        ),
        (
            {"unit": "Flying Geese"},
            ("/top/unit", 'there is no unit called "Flying Geese"', 'did you mean "flying geese"?'),
        ),
        (
            grid(["frost"]),
            (
                "/top/rows/0/0",
                'there is no block called "frost"; it is a cloth',
                'a patch of it: {"unit": "patch", "size": ["3", "3"], "fabric": "frost"}',
            ),
        ),
        (
            "star",
            ("/top", 'there is no block called "star"', 'a block of that name in "blocks", or a unit'),
        ),
        (
            patch("3", fabric="forst"),
            (
                "/top/fabric",
                'the patch cannot be cut from "forst", which is not among the fabrics',
                'did you mean "frost"?',
            ),
        ),
        (
            patch("3", fabric="Leek Green"),
            (
                "/top/fabric",
                'the patch cannot be cut from "Leek Green", which is not among the fabrics',
                '"leaf", as it is called in "fabrics"',
            ),
        ),
        (
            CORNERS | {"corners": "soil"},
            (
                "/top/corners",
                'the "corners" is text',
                'an object in braces {}, for example {"size": "1", "fabric": "frost", "at": ["nw", "se"]}',
            ),
        ),
        (
            CORNERS | {"corners": {"size": "1", "fabric": "soil", "at": ["top left"]}},
            (
                "/top/corners/at/0",
                'there is no corner "top left"',
                "one of: nw, ne, se, sw (nw is the top left corner)",
            ),
        ),
        (
            CORNERS | {"corners": {"size": "2 1/2", "fabric": "soil", "at": ["nw"]}},
            (
                "/top/corners/size",
                "the corner square (2 1/2 in finished) is larger than its base (3 in by 2 in)",
                "at most 2 in",
            ),
        ),
        (
            {"unit": "half-square triangle", "size": ["3", "3"], "fabrics": "frost"},
            ("/top/fabrics", '"fabrics" is text', 'a list of 2 cloths, such as ["frost", "leaf"]'),
        ),
        (
            {"unit": "turned", "inside": PATCH, "turn": "90"},
            ("/top/turn", '"turn" is "90"', "the number 90, 180 or 270 (degrees clockwise)"),
        ),
        (
            {"unit": "mirrored"},
            (
                "/top/inside",
                "a unit is missing",
                '{"unit": "patch", "size": ["3", "3"], "fabric": "frost"}, or the name of a block in quotes',
            ),
        ),
        (
            {"unit": "square in a square", "inside": "stra", "fabric": "leaf", "size": ["3", "3"]},
            ("/top/inside", 'there is no cloth and no block called "stra"', "one of: frost, leaf, soil"),
        ),
        (
            {"unit": "bordered", "inside": PATCH, "borders": [{"fabric": "leaf"}]},
            ("/top/borders/0/width", "the width of the border is missing", LENGTH),
        ),
        (
            grid([PATCH, PATCH], sashing="1"),
            (
                "/top/sashing",
                "the sashing is text",
                'an object in braces {}, for example {"width": "1", "fabric": "frost"}',
            ),
        ),
    ],
    ids=lambda value: str(value[0]) if isinstance(value, tuple) else "",
)
def test_what_is_no_unit(top: Any, expected: tuple[str, str, str]) -> None:
    [(pointer, detail, right)] = said(top)
    assert (pointer, detail) == expected[:2]
    assert right.startswith(expected[2])


@pytest.mark.parametrize(
    ("blocks", "pointer", "circle"),
    [
        ({"a": grid(["a"])}, "/blocks/a", '"a" in "a"'),
        ({"a": grid(["b"]), "b": {"unit": "mirrored", "inside": "a"}}, "/blocks/a", '"a" in "b" in "a"'),
    ],
    ids=["itself", "two of them"],
)
def test_a_block_inside_itself(blocks: Any, pointer: str, circle: str) -> None:
    assert said("a", blocks=blocks) == [
        (pointer, f"the block lies inside itself: {circle}", "blocks made of smaller ones")
    ]


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        ({"seam_allowance": 0}, ("/seam_allowance", "the seam allowance is zero", "a length above zero")),
        (
            {"seam_allowance": "-1/4"},
            ("/seam_allowance", "the seam allowance is less than nothing", "a length above zero"),
        ),
        ({"round_to": 0}, ("/round_to", "the rounding is zero", "a length above zero")),
        ({"measure": "inches"}, ("/measure", '"measure" is "inches"', "one of: in, mm, cm")),
        ({"blocks": []}, ("/blocks", 'the list of "blocks" is a list', "an object in braces {}")),
        (
            {"tracks": ["by hand"]},
            (
                "/tracks/0",
                "a track is text",
                'an object in braces {}, for example {"name": "by hand", "has": []}',
            ),
        ),
    ],
    ids=lambda value: str(value[0]) if isinstance(value, tuple) else "",
)
def test_what_is_no_setting(fields: Any, expected: tuple[str, str, str]) -> None:
    assert said(PATCH, **fields) == [expected]


def test_no_cloths_at_all_say_how_one_is_written() -> None:
    found = said(PATCH, fabrics={})
    assert found[-1][0] == "/top/fabric"
    assert found[-1][2].startswith('a cloth of its own in "fabrics", for example {"frost"')


def test_a_field_nobody_knows_is_named_in_the_check_and_stops_nothing() -> None:
    """A patch has one `fabric`; `color` and `rotation` are no slips of the pen but of the mind, and would be lost."""
    raw = {
        "title": "Bean row",
        "fabrics": CLOTHS,
        "top": PATCH | {"color": "red", "rotation": 90},
        "quilt": 1,
    }
    ready = check_readiness(read_document(raw), {})
    assert ready.ready
    found = {warning.pointer: (warning.detail, warning.right) for warning in ready.warnings}
    assert list(found) == ["/quilt", "/top/color", "/top/rotation"]
    detail = 'there is no field "color" here, and nothing is made of it'
    assert found["/top/color"] == (detail, "leave it out, or one of: fabric, size")


def test_fields_nobody_knows_are_named_up_to_twenty() -> None:
    """A document of nothing but such fields does not make an endless answer."""
    raw = {"title": "Bean row", "fabrics": CLOTHS, "top": PATCH | {f"x{i}": i for i in range(40)}}
    assert len(read_document(raw).unread) == 20
