import numpy as np
import pytest
import shapely

from tests.stitches.shapes import ZOO, circle, leaf, square, star
from workers.stitches.check import check_hooping
from workers.stitches.findings import Checked
from workers.stitches.guides import make_guide
from workers.stitches.hooping import plan_hoopings
from workers.stitches.passes import sew_piece
from workers.stitches.reading import read_stitch_file
from workers.stitches.record import record_passes
from workers.stitches.settings import Field


def stepped(step):
    """A rectangle with a step of this height half way along its upper side."""
    return np.array([[0, 0], [25, 0], [25, step], [50, step], [50, 30], [0, 30.0]])


def jagged(seed):
    """Forty corners at random angles, 18 to 22 mm from the middle: neighbours may stand almost in one line."""
    rng = np.random.default_rng(seed)
    angle = np.sort(rng.uniform(0, 2 * np.pi, 40))
    radius = rng.uniform(18, 22, 40)
    return np.stack([radius * np.cos(angle), radius * np.sin(angle)], axis=1)


@pytest.fixture
def failing(piece, settings):
    def find(ring, edge):
        sewn = sew_piece(piece("bean", (ring,), edge=edge), settings)
        hooping = plan_hoopings([sewn], Field(100, 100), settings)[0]
        recorded = record_passes(hooping.passes, settings, label="bean")
        checked = Checked(hooping, read_stitch_file(recorded.data), recorded.ranges, settings)
        return [(check.name, check.value) for check in check_hooping(checked) if not check.ok]

    return find


@pytest.mark.parametrize("name", ZOO)
def test_the_guide_leaves_shapes_of_sewable_detail_where_they_are(name):
    ring = ZOO[name][0]
    guide = shapely.LinearRing(make_guide(ring, degrees=30).ring)
    assert guide.hausdorff_distance(shapely.LinearRing(ring)) < 0.15


@pytest.mark.parametrize(("ring", "corners"), [(square(), 4), (star(), 10), (leaf(), 2), (circle(), 0)])
def test_real_corners_stay_corners_at_their_place(ring, corners):
    guide = make_guide(ring, degrees=30)
    assert len(guide.corners) == corners
    for corner in guide.corners:
        assert np.linalg.norm(ring - guide.ring[corner], axis=1).min() < 1e-9


def test_a_small_step_is_eased_and_a_large_one_keeps_its_corners():
    assert [len(make_guide(stepped(step), degrees=30).corners) for step in (0.5, 4.0)] == [4, 6]


@pytest.mark.parametrize("edge", ["satin", "zigzag", "blanket", "raw"])
@pytest.mark.parametrize("step", [0.2, 0.5, 0.8, 1.2, 2.0, 4.0])
def test_a_step_of_any_height_in_the_outline_passes_every_check(failing, step, edge):
    assert failing(stepped(step), edge) == []


@pytest.mark.parametrize("edge", ["satin", "zigzag"])
@pytest.mark.parametrize("seed", range(8))
def test_jagged_outlines_pass_every_check(failing, seed, edge):
    assert failing(jagged(seed), edge) == []


@pytest.mark.parametrize("width", [0.6, 1.5, 3.0])
@pytest.mark.parametrize("edge", ["satin", "zigzag", "blanket", "raw"])
def test_a_slit_in_the_outline_passes_every_check(failing, width, edge):
    slit = np.array(
        [[0, 0], [20, 0], [20, 15], [20 + width, 15], [20 + width, 0], [40, 0], [40, 30], [0, 30.0]]
    )
    assert failing(slit, edge) == []
