"""What stands in the way of a batch. Boxes are worked out by hand from the drawings' own numbers."""

import copy
from typing import Any

import pytest

from service.craft.document import read_document
from service.craft.outlines import read_svg
from service.craft.readiness import check_readiness

DOCUMENT: dict[str, Any] = {
    "title": "Bean Runner",
    "measure": "mm",
    "seam_allowance": 6,
    "fabrics": {
        "ground": {"colour": "#efe6d0"},
        "bean": {"colour": "#7a9a4b"},
        "fluff": {"cut": "trim in place"},
        "striped": {"directional": True},
    },
    "top": {"unit": "patch", "size": [400, 300], "fabric": "ground"},
    "pieces": [{"name": "pod", "outline": "pod.svg", "fabric": "bean", "at": [200, 150]}],
    "tracks": [{"name": "hoop", "has": ["hoop 100x120"]}, {"name": "mat", "has": ["cutter 150x160 mm"]}],
    "sources": [{"name": "mine", "covers": ["pod.svg"], "rights": "own"}],
    "finish": {"binding": {"fabric": "ground"}},
}


def drawing(width: float, height: float, name: str = "pod") -> Any:
    """A rectangle of that many millimetres."""
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">'
        f'<rect id="{name}" width="{width}" height="{height}"/></svg>'
    )
    return read_svg(svg.encode(), "pod.svg")


def check(width=50.0, height=60.0, *, files=None, tracks=None, sources=None, **piece: Any):
    raw = copy.deepcopy(DOCUMENT)
    raw["pieces"][0].update(piece)
    raw["tracks"] = raw["tracks"] if tracks is None else tracks
    raw["sources"] = raw["sources"] if sources is None else sources
    return check_readiness(
        read_document(raw), {"pod.svg": drawing(width, height)} if files is None else files
    )


def test_a_project_with_its_outlines_is_ready():
    """No fault, no warning."""
    found = check()
    assert found.to_json() == {"ready": True, "faults": [], "warnings": []}


def test_a_missing_file_and_a_missing_shape_are_pointed_at():
    """The pointer is the piece's outline; `right` lists what there is."""
    none = check(files={}).faults
    assert [(f.pointer, "upload" in f.right) for f in none] == [("/pieces/0/outline", True)]
    [shape] = check(outline="pod.svg#stem").faults
    assert (shape.pointer, "pod.svg#pod" in shape.right) == ("/pieces/0/outline", True)


@pytest.mark.parametrize(
    ("at", "words"),
    [
        ([24, 150], "1.0 mm over the left edge"),
        ([376, 150], "1.0 mm over the right edge"),
        ([200, 29], "1.0 mm over the upper edge"),
        ([200, 275], "5.0 mm over the lower edge"),
    ],
)
def test_a_piece_over_the_edge_says_which_and_how_far(at, words):
    """50 x 60 mm round `at`, on a top of 400 x 300 mm."""
    [fault] = check(at=at).faults
    assert fault.pointer == "/pieces/0"
    assert words in fault.detail


def test_a_piece_exactly_at_the_edge_lies_on_the_top():
    """It is no fault, but a warning: the binding will cover it."""
    found = check(at=[25, 150])
    assert found.ready
    assert ["binding" in w.right for w in found.warnings] == [True]


@pytest.mark.parametrize(
    ("size", "edge", "fits"),
    [
        ((90, 110), "satin", True),  # 90 + 2 * (3 + 2) = 100, 110 + 10 = 120: the field exactly
        ((110, 90), "satin", True),  # the same, turned a quarter
        ((90.5, 110), "satin", False),
        ((94, 114), "raw", True),  # a raw edge has no finish beyond it: 94 + 6 = 100
        ((94.5, 114), "raw", False),
    ],
)
def test_a_piece_fits_the_sewing_field_with_its_edge_and_the_margin(size, edge, fits):
    """3 mm are kept free all round, 2 mm are the finish."""
    found = check(*size, edge=edge)
    assert found.ready is fits
    if not fits:
        assert found.faults[0].pointer == "/pieces/0"
        assert "100x120" in found.faults[0].detail
        assert '"hoop"' in found.faults[0].detail


def test_a_piece_too_large_for_a_field_names_the_field_it_needs():
    """130 x 140 mm need 140 x 150 mm; the mat of 150 x 160 mm still takes it, 6 mm free all round."""
    [fault] = check(130, 140).faults
    assert "140 x 150 mm" in fault.right


MAT = [{"name": "mat", "has": ["cutter 150x160 mm"]}]


@pytest.mark.parametrize(
    ("size", "piece", "fits"),
    [
        ((138, 148), {}, True),  # 138 + 12 = 150, 148 + 12 = 160: the mat exactly
        ((148, 138), {}, True),  # the same, turned a quarter
        ((138.5, 148), {}, False),
        ((148, 138), {"fabric": "striped"}, False),  # a cloth with a direction is not turned
        ((148, 138), {"fabric": "striped", "turn": 90}, True),  # as it lies on the top it stands upright
        ((300, 200), {"fabric": "fluff"}, True),  # what is trimmed in place never goes on the mat
    ],
)
def test_a_piece_fits_the_mat_with_its_margin(size, piece, fits):
    """6 mm are kept free all round."""
    found = check(*size, tracks=MAT, **piece)
    assert found.ready is fits
    if not fits:
        assert "cutting mat 150x160" in found.faults[0].detail


def test_turning_and_scaling_count():
    """Turned by 45 degrees a square of 80 mm is 113.1 mm wide (80 times the root of 2); at half scale 56.6."""
    assert not check(80, 80, turn=45).ready
    assert check(80, 80, turn=45, scale="0.5").ready


def test_whose_an_outline_is_should_be_said():
    """A warning, not a fault; and a file nobody uses is one too."""
    found = check(sources=[])
    assert found.ready
    assert "no source" in found.warnings[0].detail
    other = check(files={"pod.svg": drawing(50, 60), "stray.svg": drawing(9, 9)})
    assert ["stray.svg" in w.detail for w in other.warnings] == [True]


def test_what_the_trade_would_look_twice_at_is_a_warning_here_too():
    """A patch of 5 mm can be sewn, and nearly all of it is seam allowance."""
    raw = copy.deepcopy(DOCUMENT)
    raw["top"] = {
        "unit": "grid",
        "rows": [[raw["top"], {"unit": "patch", "size": [5, 300], "fabric": "bean"}]],
    }
    found = check_readiness(read_document(raw), {"pod.svg": drawing(50, 60)})
    assert found.ready
    assert [w.pointer for w in found.warnings] == ["/top/rows/0/1"]


def test_a_piece_too_large_for_its_cloth_with_room_all_round_is_named():
    """A pod 90 by 90 mm takes 120 by 120 mm (12.7 mm all round, up to 10 mm), and 150 by 150 where it is trimmed."""
    raw = copy.deepcopy(DOCUMENT)
    raw["fabrics"]["bean"]["usable_width"] = 119
    raw["tracks"] = [{"name": "mat", "has": ["cutter 150x160 mm"]}]
    [fault] = check_readiness(read_document(raw), {"pod.svg": drawing(90, 90)}).faults
    assert fault.pointer == "/pieces/0"
    assert fault.detail.startswith('the piece "pod" takes 12 cm by 12 cm of "bean", which is 11.9 cm wide')
    raw["fabrics"]["bean"]["usable_width"] = 120
    assert check_readiness(read_document(raw), {"pod.svg": drawing(90, 90)}).faults == ()
    raw["tracks"] = [{"name": "hoop", "has": ["hoop 200x200"]}]
    [trimmed] = check_readiness(read_document(raw), {"pod.svg": drawing(90, 90)}).faults
    assert "15 cm by 15 cm" in trimmed.detail
