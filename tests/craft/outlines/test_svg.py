"""Reading drawings: true size, shapes, groups, uses, names, and what is left out."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Callable

import pytest

from service.craft.outlines import OutlineFile, OutlineUnreadable, from_json, read_svg, to_json

Read = Callable[[str], OutlineFile]

SQUARE = '<rect x="10" y="10" width="20" height="20"/>'


def boxes(file: OutlineFile) -> dict[str, tuple[float, ...]]:
    return {shape.name: tuple(round(side, 4) for side in shape.box_mm) for shape in file.shapes}


@pytest.mark.parametrize(
    ("page", "side"),
    [
        ('width="100mm" height="100mm" viewBox="0 0 100 100"', 20),
        ('width="10cm" height="10cm" viewBox="0 0 100 100"', 20),
        ('width="10in" height="10in" viewBox="0 0 100 100"', 50.8),
        ('width="100" height="100"', 20 * 25.4 / 96),
        ('width="96" height="96" viewBox="0 0 10 10"', 50.8),
        ('viewBox="0 0 100 100"', 20 * 25.4 / 96),
        ('width="100%" viewBox="0 0 100 100"', 20 * 25.4 / 96),
        ('width="200mm" viewBox="0 0 100 100"', 40),
        ('height="200mm" viewBox="0 0 100 100"', 40),
        ('width="200mm" height="100mm" viewBox="0 0 100 100"', 20),
        ("", 20 * 25.4 / 96),
    ],
)
def test_the_page_gives_the_true_size(page: str, side: float) -> None:
    """Source: SVG 2, 8.2 and 8.6; CSS: 96 px to the inch."""
    file = read_svg(f'<svg xmlns="http://www.w3.org/2000/svg" {page}>{SQUARE}</svg>'.encode(), "s.svg")
    assert (file.shapes[0].width_mm, file.shapes[0].height_mm) == pytest.approx((side, side))


def test_a_drawing_without_a_real_size_is_read_with_a_note() -> None:
    file = read_svg(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">{SQUARE}</svg>'.encode(), "s.svg"
    )
    assert "no size in real units" in file.notes[0]


@pytest.mark.parametrize(
    ("element", "area", "box"),
    [
        ('<rect x="1" y="2" width="30" height="20"/>', 600, (1, 2, 31, 22)),
        ('<rect width="30" height="20" rx="5"/>', 600 - (4 - math.pi) * 25, (0, 0, 30, 20)),
        ('<rect width="30" height="20" rx="5" ry="8"/>', 600 - (4 - math.pi) * 40, (0, 0, 30, 20)),
        ('<rect width="30" height="20" rx="99" ry="99"/>', math.pi * 150, (0, 0, 30, 20)),
        ('<circle cx="50" cy="40" r="20"/>', math.pi * 400, (30, 20, 70, 60)),
        ('<circle cx="50%" cy="40%" r="10%"/>', math.pi * 100, (40, 30, 60, 50)),
        ('<ellipse cx="50" cy="40" rx="20" ry="5"/>', math.pi * 100, (30, 35, 70, 45)),
        ('<ellipse cx="50" cy="40" rx="20"/>', math.pi * 400, (30, 20, 70, 60)),
        ('<polygon points="0,0 30,0 30,40"/>', 600, (0, 0, 30, 40)),
        ('<polyline points="0,0 30,0 30,40 0,0.3"/>', 604.5, (0, 0, 30, 40)),
        ('<path d="M0 0h30v40z"/>', 600, (0, 0, 30, 40)),
    ],
)
def test_every_shape_has_its_area_and_box(
    read: Read, element: str, area: float, box: tuple[float, ...]
) -> None:
    """Source: elementary geometry; a round corner takes (4 - pi)/4 of rx ry from a rectangle."""
    outline = read(element).shapes[0]
    assert outline.area_mm2 == pytest.approx(area, abs=0.1)
    assert outline.box_mm == pytest.approx(box, abs=1e-3)


def test_groups_views_and_transforms_are_followed(read: Read) -> None:
    """Worked by hand: 20 + 2 (5 + 3·[0..10]) across; 1.5 units a unit in the inner view."""
    inside = '<svg x="5" y="1" width="15" height="15" viewBox="0 0 10 10"><rect width="10" height="4"/></svg>'
    file = read(f'<g transform="translate(20 0) scale(2)"><g><a>{inside}</a></g></g>')
    assert boxes(file) == {"shape-1": (30, 2, 60, 14)}


@pytest.mark.parametrize(
    ("style", "wide", "noted"), [("", 14, True), ("", 9, False), ('overflow="visible"', 14, False)]
)
def test_what_passes_the_frame_of_a_nested_drawing_is_read_whole_and_said(
    read: Read, style: str, wide: int, noted: bool
) -> None:
    """SVG 2, 8.2: a nested drawing hides what goes beyond its frame, here 10 wide and turned by 30 degrees."""
    bed = f'<rect id="bed" width="{wide}" height="4"/>'
    file = read(f'<g transform="rotate(30)"><svg {style} x="30" width="10" height="10">{bed}</svg></g>')
    assert file.shapes[0].area_mm2 == pytest.approx(4 * wide)
    assert any("beyond its frame" in note and "bed" in note for note in file.notes) is noted


def test_a_mirrored_group_keeps_its_outlines_clockwise(read: Read) -> None:
    outline = read(f'<g transform="scale(-1 1)">{SQUARE}</g>').shapes[0]
    assert outline.rings[0].area_mm2 == pytest.approx(400)
    assert outline.box_mm == pytest.approx((-30, 10, -10, 30))


def test_a_use_draws_where_it_stands_and_names_its_shape(read: Read) -> None:
    file = read(
        '<defs><rect id="bed" width="10" height="5"/></defs><use id="north" href="#bed" x="3"/>'
        '<use xlink:href="#bed" transform="rotate(90)" x="20" y="-40"/>'
    )
    assert boxes(file) == {"north": (3, 0, 13, 5), "bed": (35, 20, 40, 30)}


def test_a_symbol_is_fitted_into_the_size_of_its_use(read: Read) -> None:
    file = read(
        '<symbol id="pod" viewBox="0 0 10 10"><rect width="10" height="10"/></symbol>'
        '<use href="#pod" x="50" y="20" width="40" height="20"/>'
    )
    assert boxes(file) == {"pod": (60, 20, 80, 40)}


@pytest.mark.parametrize(
    "hidden",
    [
        f"<defs>{SQUARE}</defs>",
        f'<clipPath id="c">{SQUARE}</clipPath>',
        f'<mask id="m">{SQUARE}</mask>',
        f'<symbol id="s">{SQUARE}</symbol>',
        f'<pattern id="p">{SQUARE}</pattern>',
        f'<g display="none">{SQUARE}</g>',
        f'<g style="display:none">{SQUARE}</g>',
        f'<g visibility="hidden">{SQUARE}</g>',
        '<rect width="9" height="9" fill="none"/>',
        f'<o:g xmlns:o="urn:other">{SQUARE}</o:g>',
    ],
)
def test_what_does_not_show_is_no_outline(read: Read, hidden: str) -> None:
    assert list(boxes(read(f'{hidden}<circle id="seen" r="9"/>'))) == ["seen"]


def test_a_child_may_show_in_a_hidden_group(read: Read) -> None:
    """Source: CSS 2, 11.2: `visibility` is inherited and may be set again; `display` may not."""
    file = read('<g visibility="hidden"><rect id="a" width="9" height="9" visibility="visible"/></g>')
    assert list(boxes(file)) == ["a"]


def test_a_closed_line_without_fill_is_an_outline_and_its_inner_line_a_hole(read: Read) -> None:
    file = read('<path fill="none" stroke="#000" d="M0 0h30v30h-30zM10 10h10v10h-10z"/>')
    assert file.shapes[0].area_mm2 == pytest.approx(800)


def test_names_come_from_the_element_its_group_or_the_place_on_the_page(read: Read) -> None:
    file = read(
        '<rect id="leaf" x="0" y="60" width="9" height="9"/>'
        '<g id="bean"><g><rect x="20" y="60" width="9" height="9"/></g></g>'
        '<g id="bed"><rect x="50" y="2" width="9" height="9"/><rect x="0" width="9" height="9"/></g>'
        '<rect id="leaf" x="40" y="60" width="9" height="9"/><rect id=" row  one " x="60" y="60" width="9" height="9"/>'
    )
    assert [shape.name for shape in file.shapes] == [
        "shape-1",
        "shape-2",
        "leaf",
        "bean",
        "leaf-2",
        "row-one",
    ]
    assert boxes(file)["shape-1"][0] == 0


def test_regions_apart_become_outlines_of_their_own(read: Read) -> None:
    file = read('<path id="rows" d="M40 0h9v9h-9zM0 0h9v9h-9z"/>')
    assert boxes(file) == {"rows-1": (0, 0, 9, 9), "rows-2": (40, 0, 49, 9)}
    assert 'became "rows-1"' in file.notes[0]


LEFT_OUT = {
    "<text>leek</text>": "turn it into paths",
    '<image href="file:///etc/hostname"/>': "pictures are not followed",
    '<line x2="50" stroke="#000"/>': "ends lie 50.0 mm apart",
    "<foreignObject><b/></foreignObject>": "foreign content",
    "<script>alert(1)</script>": "scripts are not run",
    "<style>@import url(a.css); g > rect{display:none}</style>": "only plain rules",
    '<rect display="none" x="50" width="9" height="9"/>': "hidden in the drawing",
    '<rect visibility="hidden" x="50" width="9" height="9"/>': "hidden in the drawing",
    '<use href="https://allotment.invalid/a.svg#b"/>': "nothing else is followed",
    '<use href="#nowhere"/>': "nothing else is followed",
    "<blob/>": "not drawn",
    '<path d="M0 0h20v20" fill="none" stroke="red"/>': "ends lie 28.3 mm apart",
    '<path d="M0 0h20v.2h-20z"/>': "thinner than 0.5 mm",
    '<rect clip-path="url(#c)" x="50" width="9" height="9"/>': "clip-path was not applied",
}


@pytest.mark.parametrize(("element", "note"), LEFT_OUT.items())
def test_what_is_left_out_is_said(read: Read, element: str, note: str) -> None:
    assert note in " ".join(read(element + SQUARE).notes)


REFUSED = {
    '<circle r="-3"/>': "a size is not negative",
    '<circle r="3em"/>': "is no length",
    '<polygon points="1 2 3"/>': "points come in pairs",
    '<g transform="turn(3)"/>': "is no transform",
    '<g style="transform: scale(2)"/>': "as a style property",
    '<g transform-origin="3 3"/>': "transform-origin",
    '<svg viewBox="0 0 0 0"/>': "viewBox",
    '<rect x="9990" width="20" height="5"/>': "reaches to 10.0 m across",
    '<path fill="none" stroke="red" d="M0 0h20v20"/>': "holds no closed shape (line 1, <path>: an open line",
    '<circle r="0.2"/>': "0.40 x 0.40 mm is thinner",
    '<g transform="scale(0)"><circle r="9"/></g>': "no closed shape",
    "": "holds no closed shape",
}


@pytest.mark.parametrize(("element", "message"), REFUSED.items())
def test_what_cannot_be_used_is_refused_with_what_would_be_right(
    read: Read, element: str, message: str
) -> None:
    with pytest.raises(OutlineUnreadable) as caught:
        read(element)
    assert message in str(caught.value)
    assert caught.value.right


def test_checksum_and_name_are_those_of_the_upload(sheet: Callable[[str], bytes]) -> None:
    data = sheet(SQUARE)
    file = read_svg(data, "bed.svg")
    assert (file.name, file.sha256) == ("bed.svg", hashlib.sha256(data).hexdigest())


def test_reading_twice_gives_the_same_and_survives_storage(read: Read) -> None:
    inside = '<path id="eight" d="M0 0L20 20 20 0 0 20z"/><circle cx="60" cy="60" r="7"/>'
    assert read(inside) == read(inside)
    assert from_json(to_json(read(inside))) == read(inside)


def test_another_shape_changes_nothing_for_the_first(read: Read) -> None:
    """Adding an unrelated shape leaves the outline of the first as it was."""
    alone, together = read(f'<g id="a">{SQUARE}</g>'), read(f'<g id="a">{SQUARE}</g><circle id="b" r="30"/>')
    assert {shape.name: shape for shape in together.shapes}["a"] == alone.shapes[0]
