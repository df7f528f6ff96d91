"""Settings from the document, and safe ones for cloth and thread where it asks for nothing."""

import json

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.stitching import CHOICES, SETTINGS
from tests.stitches.test_recipe import BEAN, document, make
from workers.stitches.choosing import choose_settings, thread_mm


def settings_of(fabric="frost", edge="satin", common=None, **stitching):
    raw = document(
        {**BEAN, "fabric": fabric, "edge": edge, **({"stitching": stitching} if stitching else {})}
    )
    if common:
        raw["stitching"] = common
    project = read_document(raw)
    return choose_settings(project.pieces[0], project.fabrics[fabric])


def test_plain_cotton_and_pile_have_safe_settings_of_their_own():
    """Width 4 mm: hoopnfloat.blogspot.com. Pull 0.2 and 0.3 mm: common practice, no source."""
    cotton, fleece = settings_of("frost"), settings_of("fleece")
    assert (cotton.width_mm, cotton.pull_mm, cotton.tack_down) == (3.5, 0.2, "running")
    assert (fleece.width_mm, fleece.pull_mm, fleece.tack_down) == (4.0, 0.3, "double")


def test_what_a_piece_asks_for_goes_before_what_the_document_asks_for():
    chosen = settings_of(common={"width": "5 mm", "stitch": "2 mm"}, width="3 mm")
    assert (chosen.width_mm, chosen.running_mm) == (3.0, 2.0)


@pytest.mark.parametrize(("weight", "thick"), [(40, 0.4), (60, 0.327), (30, 0.462)])
def test_finer_thread_lies_thinner_and_closer(weight, thick):
    """40 wt is 0.4 mm and covers fully at 0.4 mm (E. Campbell; emborado.de); the cross-section goes with the weight."""
    chosen = settings_of(thread_weight=weight)
    assert chosen.thread_mm == pytest.approx(thick, abs=0.001)
    assert chosen.spacing_mm == pytest.approx(thick, abs=0.006)
    assert thread_mm(40) == 0.4


@pytest.mark.parametrize("key", SETTINGS)
def test_a_setting_out_of_bounds_is_a_fault_with_its_place_and_what_would_be_right(key):
    raw = document({**BEAN, "stitching": {key: "500 mm" if "weight" not in key and key != "inside" else 500}})
    with pytest.raises(DocumentFaults) as refused:
        read_document(raw)
    (fault,) = refused.value.faults
    assert fault.pointer == f"/pieces/0/stitching/{key}" and "from" in fault.right


@pytest.mark.parametrize("key", CHOICES)
def test_a_choice_nobody_knows_is_a_fault(key):
    with pytest.raises(DocumentFaults) as refused:
        read_document({**document(BEAN), "stitching": {key: "feathers"}})
    assert [f.pointer for f in refused.value.faults] == [f"/stitching/{key}"]


@pytest.mark.parametrize("tack_down", CHOICES["tack_down"][0])
@pytest.mark.parametrize("edge", ["satin", "zigzag", "blanket", "raw", "triple run"])
def test_every_edge_with_every_tack_down_passes_its_check(edge, tack_down):
    made = make({**BEAN, "edge": edge, "stitching": {"tack_down": tack_down}})
    report = json.loads(made[-1].data)
    assert report["released"], [c for c in report["checks"] if not c["ok"]]


@pytest.mark.parametrize("underlay", CHOICES["underlay"][0])
def test_every_underlay_passes_its_check_and_stands_in_the_report(underlay):
    report = json.loads(make({**BEAN, "stitching": {"underlay": underlay}})[-1].data)
    assert report["released"], [c for c in report["checks"] if not c["ok"]]
    assert ("underlay" in [p["kind"] for p in report["passes"]]) == (underlay != "none")


@pytest.mark.parametrize("width", ["2.5 mm", "5 mm", "7 mm", "10 mm"])
def test_edges_from_narrow_to_wide_pass_their_check(width):
    report = json.loads(make({**BEAN, "scale": 2, "stitching": {"width": width}})[-1].data)
    assert report["released"], [c for c in report["checks"] if not c["ok"]]
