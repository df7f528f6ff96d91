"""Open lines of a drawing sewn on their piece: where they are drawn, turned and scaled with it, if asked for."""

import json

import numpy as np
import pytest

from service.craft.document import read_document
from service.craft.outlines import read_svg, to_json
from service.craft.readiness import check_readiness
from tests.stitches.test_recipe import document
from workers.recipe import CannotMake, JobInput
from workers.stitches.recipe import make_stitches

SVG = """<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="50mm" viewBox="0 0 90 50">
<path id="leaf" d="M5 25Q45 -15 85 25Q45 65 5 25z"/>
<path id="vein" fill="none" stroke="red" d="M15 25C35 22 55 28 75 25"/>
<path id="side" fill="none" stroke="red" d="M45 25L60 15"/></svg>"""
FILE = read_svg(SVG.encode(), "leaf.svg")


def piece(*details, **more):
    return {"name": "leaf", "outline": "leaf.svg#leaf", "fabric": "frost", "details": list(details), **more}


def make(*details, **more):
    made = make_stitches(JobInput("stitches", document(piece(*details, **more)), {"leaf.svg": to_json(FILE)}))
    return json.loads(made[-1].data)


def ask(name, sew="satin line"):
    return {"sew": sew, "outline": f"leaf.svg#{name}"}


@pytest.mark.parametrize("sew", ["running", "triple run", "satin line"])
@pytest.mark.parametrize("more", [{}, {"turn": 40, "scale": "0.8"}, {"mirror": True}])
def test_a_drawn_line_is_sewn_where_it_is_drawn(sew, more):
    """The check of the decoded file looks along the line as it lies on the piece."""
    report = make(ask("vein", sew), **more)
    assert report["released"]
    looked = next(c for c in report["checks"] if c["name"] == "details are sewn where they are drawn")
    assert looked["ok"] and looked["value"] >= 0.995
    assert [p["kind"] for p in report["passes"]].count("detail") == 1


def test_lines_that_nobody_asks_for_are_not_sewn_and_the_check_says_so():
    """One asked for, one not."""
    assert [p["kind"] for p in make()["passes"]].count("detail") == 0
    project = read_document(document(piece(ask("vein"))))
    found = check_readiness(project, {"leaf.svg": FILE})
    assert found.ready
    [warning] = [w for w in found.warnings if "not sewn" in w.detail]
    assert "leaf.svg#side" in warning.detail and "leaf.svg#vein" not in warning.detail
    assert warning.pointer == "/pieces/0"


def test_a_fill_asks_for_an_area_not_for_a_line():
    """In the check and in the batch, at the same place."""
    with pytest.raises(CannotMake) as refused:
        make(ask("vein", "fill"))
    [fault] = check_readiness(read_document(document(piece(ask("vein", "fill")))), {"leaf.svg": FILE}).faults
    assert refused.value.pointer == fault.pointer == "/pieces/0/details/0/outline"
    assert "open line" in fault.detail and fault.right


def test_veins_beside_each_other_share_a_hooping_with_their_leaf():
    """Both lines after the edge, in the order they are asked for."""
    report = make(ask("vein"), ask("side", "running"))
    assert report["released"] and [p["kind"] for p in report["passes"]][-2:] == ["detail", "detail"]
    assert np.isclose(report["field_mm"], [130, 180]).all()
