"""Every file of the zoo, read back by the reader that shares no code with the package."""

import numpy as np
import pytest
import shapely

from tests.stitches.independent_reader import read
from tests.stitches.shapes import ZOO

EDGES = ["satin", "zigzag", "blanket", "raw"]
ALL = [(name, edge) for name in ZOO for edge in EDGES]


@pytest.mark.parametrize(("name", "edge"), ALL)
def test_the_header_agrees_with_the_records(write, name, edge):
    data = write(name, edge)[1]
    sewn = read(data)
    xs, ys = zip(*sewn.places, strict=True)
    said = {k: int(v.replace(" ", "")) for k, v in sewn.header.items() if k not in ("LA", "PD")}
    assert len(data) == 512 + 3 * len(sewn.events)
    assert said["ST"] == len(sewn.events)
    assert said["CO"] == sewn.count("stop") == 2
    assert (said["+X"], said["-X"], said["+Y"], said["-Y"]) == (max(xs), -min(xs), max(ys), -min(ys))
    assert (said["AX"], said["AY"]) == sewn.places[-1]
    assert sewn.count("end") == 1 and sewn.events[-1][0] == "end"


@pytest.mark.parametrize(("name", "edge"), ALL)
def test_no_move_is_over_121_and_the_needle_stays_in_the_field(write, name, edge):
    checked, data = write(name, edge)
    sewn = read(data)
    assert max(max(abs(dx), abs(dy)) for _, dx, dy, _, _ in sewn.events) <= 121
    field = checked.hooping.field
    for x, y in sewn.places:
        assert abs(x) <= 10 * (field.width_mm / 2 - 3) + 1
        assert abs(y) <= 10 * (field.height_mm / 2 - 3) + 1


@pytest.mark.parametrize(("name", "edge"), ALL)
def test_between_the_stops_lie_placement_tack_down_and_finish(write, name, edge):
    """Told from the needle points alone: on the outline, inside it, and for closed edges on both sides of it."""
    checked, data = write(name, edge)
    parts = [[]]
    for kind, _, _, x, y in read(data).events:
        if kind == "stop":
            parts.append([])
        elif kind == "stitch":
            parts[-1].append((x / 10, -y / 10))
    placement, tack, finish = (shapely.points(np.array(part)) for part in parts)
    shape = shapely.Polygon(checked.hooping.sewn[0].piece.rings[0], checked.hooping.sewn[0].piece.rings[1:])
    assert shapely.distance(shape.boundary, placement).max() <= 0.2
    assert shape.buffer(0.1).covers(tack).mean() >= 0.99
    if edge in ("satin", "zigzag"):
        assert 0.2 < shape.covers(finish).mean() < 0.8
    assert len(finish) >= 16


@pytest.mark.parametrize("name", ZOO)
def test_y_is_upward_in_the_file_and_downward_in_the_house(write, name):
    checked, data = write(name)
    first = next((x, y) for kind, _, _, x, y in read(data).events if kind == "stitch")
    start = checked.hooping.passes[0].points[1]
    assert (first[0] / 10, -first[1] / 10) == pytest.approx(tuple(start), abs=0.051)


@pytest.mark.parametrize("name", ZOO)
def test_rounding_never_adds_up(write, name):
    """Every needle point of the file is within half a tenth of the planned one, the last like the first."""
    checked, data = write(name)
    planned = np.vstack([p.points for p in checked.hooping.passes])
    tree = shapely.STRtree(shapely.points(planned))
    sewn = np.array([(x / 10, -y / 10) for kind, _, _, x, y in read(data).events if kind == "stitch"])
    _, off = tree.query_nearest(shapely.points(sewn), return_distance=True, all_matches=False)
    assert off.max() <= 0.0708
    assert sewn[-1] == pytest.approx(planned[-1], abs=0.051)


@pytest.mark.parametrize(("name", "edge"), ALL)
def test_all_checks_hold_for_every_shape_and_edge(write, name, edge):
    from workers.stitches.check import check_hooping

    assert [(c.name, c.value, c.where) for c in check_hooping(write(name, edge)[0]) if not c.ok] == []


def test_a_ring_is_trimmed_between_its_outlines(write):
    """Three jumps in a row make machines trim (common practice, no source)."""
    kinds = [event[0] for event in read(write("ring")[1]).events]
    runs = "".join({"jump": "j", "stitch": "s", "stop": "c", "end": "e"}[k] for k in kinds)
    assert sum(len(run) >= 3 for run in runs.lstrip("j").replace("s", " ").replace("c", " ").split()) == 5
    assert write("ring")[0].reading.trims == 5
