"""A slip in one field of a unit hides none in another: both stand in one answer."""

from __future__ import annotations

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults

PATCH = {"unit": "patch", "size": [3, 3], "fabric": "leek"}
RIGHT, LEFT = [[0, 0], [4, 0], [0, 4]], [[4, 0], [4, 4], [0, 4]]


def unit(kind, **fields):
    return {"unit": kind, **fields}


def pointers_of(top):
    cloths = {"leek": {}, "soil": {}}
    with pytest.raises(DocumentFaults) as refused:
        read_document({"title": "Leeks", "measure": "in", "fabrics": cloths, "top": top})
    return {fault.pointer for fault in refused.value.faults}


def strips(**fields):
    both = [{"width": 1, "fabric": "leek"}, {"width": fields.pop("width", 1), "fabric": "soil"}]
    return unit("strip set", **{"strips": both, "length": 24, "cut_into": 3, **fields})


def star(**fields):
    return unit("eight-pointed star", **{"diamonds": ["leek"], "background": "soil", **fields})


def kite(**fields):
    return unit("kite", **{"size": [6, 6], "kite": "leek", "background": "soil", "shoulder": 2, **fields})


def on_point(**fields):
    return unit("on point", **{"rows": [[PATCH] * 2] * 2, "side": "leek", "corner": "soil", **fields})


def halves(first, cloth="leek"):
    patches = [{"points": first, "fabric": cloth}, {"points": LEFT, "fabric": "soil"}]
    return unit("polygons", size=[4, 4], patches=patches)


def flipped(**corners):
    both = {"size": 7, "fabric": "soil", **corners}
    return unit("corner squares", size=[6, 6], fabric="leek", corners=both)


def middle(inside, fabric="leek"):
    return unit("square in a square", inside=inside, fabric=fabric, method="corner squares")


@pytest.mark.parametrize(
    ("top", "pointers"),
    [
        (flipped(fabric="x"), {"/top/corners/size", "/top/corners/fabric"}),
        (middle(PATCH, "x"), {"/top/method", "/top/fabric"}),
        (middle({**PATCH, "size": [3, 4]}), {"/top/method", "/top/inside"}),
        (strips(length="x", width=0), {"/top/length", "/top/strips/1/width"}),
        (strips(length="x", cut_into=0), {"/top/length", "/top/cut_into"}),
        (star(size=[12, 10], background="x"), {"/top/size", "/top/background"}),
        (star(size=[12, 10], diamonds=["x"]), {"/top/size", "/top/diamonds/0"}),
        (kite(kite="x", shoulder=9), {"/top/kite", "/top/shoulder"}),
        (kite(size=[6, 5], shoulder=9), {"/top/size", "/top/shoulder"}),
        (
            unit("hexagons", side=2, rows=[["leek"], ["x"]], edge="soil"),
            {"/top/rows/0", "/top/rows/1/0"},
        ),
        (
            halves([[0, 0], [3, 0], [0, 4]], "x"),
            {"/top/patches/0/fabric", "/top/patches/0", "/top/patches/1"},
        ),
        (halves([[0, 0], [4, 0], [2, 0]], "x"), {"/top/patches/0/fabric", "/top/patches/0/points"}),
        (on_point(side="x"), {"/top", "/top/side"}),
        (on_point(alternate={**PATCH, "size": [4, 4]}, corner="x"), {"/top/alternate", "/top/corner"}),
        (on_point(rows=[[PATCH, "nobody"], [PATCH] * 2]), {"/top", "/top/rows/0/1"}),
        (
            on_point(rows=[["nobody", PATCH]] * 2, alternate={**PATCH, "size": [4, 4]}),
            {"/top/rows/0/0", "/top/alternate"},
        ),
    ],
)
def test_both_faults_are_named(top, pointers):
    assert pointers <= pointers_of(top)


def test_a_cloth_that_is_not_there_is_the_only_fault_of_corners_that_fit():
    assert pointers_of(halves(RIGHT, "x")) == {"/top/patches/0/fabric"}
