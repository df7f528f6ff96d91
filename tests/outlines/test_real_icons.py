"""Twelve icons of a free set, as it ships them (MIT licence, beside them), pass through to the cut files."""

from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from service.craft.outlines import flatten
from service.craft.tracing import TracingAsked
from tests.outlines.icons_to_cut import SIDE_MM, cut_all, read_icons
from tests.outlines.tracing.drawn import encode
from workers.outlines.tracing import trace_picture

ICONS = sorted((Path(__file__).parent / "icons").glob("*.svg"))


def test_every_shape_of_every_icon_is_cut_once():
    """None is refused, none lost, none cut twice; each file of the report is there as SVG and as DXF."""
    read, refused = read_icons(ICONS)
    assert (len(read), refused) == (12, {})
    wanted = [f"{file.name} {shape.name}" for file in read for shape in file.shapes]
    assert sorted(cut_all(read)) == sorted(wanted)


@pytest.mark.parametrize("name", ["heart-fill.svg", "star-half.svg", "cup-hot-fill.svg"])
def test_an_icon_that_is_painted_and_traced_has_its_area_again(name):
    """Painted black on white by another hand (Pillow's polygons), at 300 dots an inch."""
    [file], _ = read_icons([path for path in ICONS if path.name == name])
    scale = 300 / 25.4
    side = round(SIDE_MM * scale)
    image = Image.new("L", (side + 80, side + 80), 255)
    draw = ImageDraw.Draw(image)
    for shape in file.shapes:
        for ring, colour in zip(shape.rings, [0] + [255] * len(shape.rings), strict=False):
            draw.polygon([(x * scale + 40, y * scale + 40) for x, y in flatten(ring)], fill=colour)
    traced = trace_picture(TracingAsked(encode(image), name, dpi=300)).file
    area = sum(shape.area_mm2 for shape in file.shapes)
    assert sum(shape.area_mm2 for shape in traced.shapes) == pytest.approx(area, rel=0.01)
