"""Open lines inside shapes are kept by name, to be sewn as details; what lies in no shape is left out with a note."""

import pytest

from service.craft.outlines import (
    OutlineNotFound,
    find_detail,
    find_lines,
    flatten_line,
    from_json,
    read_svg,
    to_json,
)

LEAF = '<rect id="leaf" width="80" height="40"/>'
VEIN = '<path id="vein" fill="none" stroke="red" d="M10 20C30 10 50 30 70 20"/>'


def read(*elements):
    body = "".join(elements)
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">{body}</svg>'
    return read_svg(svg.encode(), "leaf.svg")


def line(d, name=""):
    named = f'id="{name}"' if name else ""
    return f'<path {named} fill="none" stroke="red" d="{d}"/>'


def test_a_line_in_a_shape_is_kept_with_its_name_its_shape_and_its_curve():
    """From (10, 20) to (70, 20) on an 80 x 40 mm leaf; a note says what becomes of it."""
    file = read(LEAF, VEIN)
    [vein] = file.lines
    assert (vein.name, vein.shape) == ("vein", "leaf")
    points = flatten_line(vein)
    assert points[0].tolist() == [10, 20] and points[-1].tolist() == [70, 20] and len(points) > 10
    assert any('kept as "vein"' in note for note in file.notes)
    assert [shape.name for shape in file.shapes] == ["leaf"]


def test_a_line_without_a_name_takes_that_of_its_shape_and_names_stay_apart():
    """Shapes, lines: no two alike, so that `file#name` means one thing."""
    file = read(LEAF, line("M5 5L20 5"), line("M5 9L20 9"), line("M5 15L20 15", "leaf"))
    assert [one.name for one in file.lines] == ["leaf-line-1", "leaf-line-2", "leaf-2"]


def test_a_line_belongs_to_the_smallest_shape_round_it():
    """A bed within a plot."""
    file = read(
        LEAF, '<rect id="bed" x="30" y="10" width="20" height="20"/>', line("M32 20L48 20"), line("M2 3L70 3")
    )
    assert [one.shape for one in file.lines] == ["bed", "leaf"]


@pytest.mark.parametrize("d", ["M100 50L120 50", "M70 20L90 20", "M10 10L11 11"])
def test_a_line_beside_the_shapes_over_an_edge_or_too_short_is_left_out_with_a_note(d):
    """Nothing is lost without a word."""
    file = read(LEAF, line(d))
    assert file.lines == () and any("an open line was left out" in note for note in file.notes)


def test_a_line_that_ends_on_the_outline_lies_in_the_shape():
    """Drawn by hand it may end 0.4 mm beyond."""
    assert len(read(LEAF, line("M-0.4 20L80.3 20")).lines) == 1


def test_a_hole_is_not_in_the_shape():
    """A line through the hole of a ring is on no cloth."""
    ring = '<path id="ring" fill-rule="evenodd" d="M0 0H80V80H0zM20 20H60V60H20z"/>'
    assert [one.name for one in read(ring, line("M5 5L70 5", "rim"), line("M25 40L55 40", "air")).lines] == [
        "rim"
    ]


def test_lines_that_close_each_other_are_still_an_outline():
    """Two halves that meet make a shape, as before."""
    file = read(LEAF, line("M100 10H120V30"), line("M100 10V30H120"))
    assert len(file.shapes) == 2 and file.lines == ()


def test_files_stored_before_and_after_are_read_alike():
    """A file without lines is stored as it ever was; one with lines comes back whole."""
    plain, drawn = read(LEAF), read(LEAF, VEIN)
    assert "lines" not in to_json(plain) and from_json(to_json(plain)) == plain
    assert from_json(to_json(drawn)) == drawn


def test_a_detail_finds_shapes_and_lines_and_says_what_there_is():
    """By one spelling for both."""
    files = {"leaf.svg": read(LEAF, VEIN)}
    assert find_detail(files, "leaf.svg#vein").name == "vein"
    assert find_detail(files, "leaf.svg#leaf").name == "leaf" == find_detail(files, "leaf.svg").name
    assert [one.name for one in find_lines(files, "leaf.svg#leaf")] == ["vein"]
    with pytest.raises(OutlineNotFound) as missing:
        find_detail(files, "leaf.svg#stalk")
    assert '"leaf.svg#leaf", "leaf.svg#vein"' in missing.value.right
