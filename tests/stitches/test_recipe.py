import json

import numpy as np
import pytest
import shapely

from service.craft.outlines import Line, Outline, OutlineFile, Ring, to_json
from tests.stitches.independent_reader import read
from tests.stitches.shapes import circle, leek, rectangle, square
from workers.recipe import CannotMake, JobInput
from workers.stitches.reading import read_stitch_file
from workers.stitches.recipe import make_stitches


def outline(name, *rings):
    def ring(points):
        points = [tuple(float(v) for v in p) for p in points]
        return Ring(points[0], tuple(Line(p) for p in points[1:]))

    shape = Outline("shape", tuple(ring(r) for r in rings))
    return to_json(OutlineFile(name, "0" * 64, (shape,)))


OUTLINES = {
    "leek.svg": outline("leek.svg", leek()),
    "bean.svg": outline("bean.svg", circle(12, 90)),
    "plot.svg": outline("plot.svg", square(30)),
    "bed.svg": outline("bed.svg", rectangle(500, 40)),
}


def document(*pieces, tracks=("hoop 130x180",), sources=()):
    return {
        "title": "Leek Row",
        "fabrics": {
            "frost": {"name": "frost", "colour": "#eef1ee", "usable_width": "40"},
            "fleece": {
                "name": "white fleece",
                "colour": "#ffffff",
                "usable_width": "58",
                "cut": "trim in place",
            },
        },
        "top": {"unit": "patch", "size": ["40", "40"], "fabric": "frost"},
        "pieces": [{"fabric": "fleece", "at": ["10", "10"], **piece} for piece in pieces],
        "tracks": [{"name": f"track {i}", "has": [has] if has else []} for i, has in enumerate(tracks)],
        "sources": list(sources),
    }


def make(*pieces, **more):
    return make_stitches(JobInput("stitches", document(*pieces, **more), OUTLINES))


LEEK = {"name": "leek", "outline": "leek.svg#shape", "thread": {"name": "leek green", "colour": "#5f8f4e"}}
BEAN = {"name": "bean", "outline": "bean.svg"}


def test_each_hooping_is_a_stitch_file_a_preview_and_a_report():
    made = make(LEEK)
    assert [(m.name, m.media_type, m.kind, m.public) for m in made] == [
        ("stitch-130x180-1.dst", "application/octet-stream", "stitch file", True),
        ("stitch-130x180-1.svg", "image/svg+xml", "stitch preview", True),
        ("stitch-130x180-1.png", "image/png", "stitch preview", True),
        ("stitch-130x180-1-colours.svg", "image/svg+xml", "colour order", True),
        ("stitch-130x180-1.json", "application/json", "stitch report", True),
    ]
    report = json.loads(made[-1].data)
    assert report["released"] and report["field_mm"] == [130, 180] and report["pieces"] == ["leek"]
    assert report["stitches"] == read(made[0].data).count("stitch")


def test_every_sewing_field_has_hoopings_of_its_own_and_tracks_with_one_field_share_them():
    made = make(LEEK, tracks=("hoop 130x180", "hoop 100x140", "", "hoop 130x180"))
    assert [m.name for m in made if m.kind == "stitch file"] == [
        "stitch-130x180-1.dst",
        "stitch-100x140-1.dst",
    ]


def test_without_a_hoop_or_without_pieces_there_is_nothing_to_make():
    assert make(LEEK, tracks=("",)) == []
    assert make() == []


def test_the_same_input_gives_the_same_bytes():
    assert make(LEEK, BEAN) == make(LEEK, BEAN)


def test_scale_turn_and_mirror_reach_the_needle():
    """Fleece takes an edge of 4 mm and 0.3 mm for pull on both sides: 4.6 mm more than the outline."""
    sides = []
    for more in ({}, {"scale": 0.5}, {"turn": 90}):
        report = json.loads(make({**LEEK, **more})[-1].data)
        sides.append(report["extents_mm"])
    (w, h), half, turned = sides
    assert half == pytest.approx([(w - 4.6) / 2 + 4.6, (h - 4.6) / 2 + 4.6], abs=1.2)
    assert sorted(turned) == pytest.approx(sorted([w, h]), abs=0.3)


def test_what_viewers_must_own_is_sewn_apart_and_stays_in_the_studio():
    sources = [{"name": "bought pattern", "covers": ["bean.svg"], "rights": "viewer must own"}]
    made = make(BEAN, {"name": "plot", "outline": "plot.svg", "at": ["12", "10"]}, sources=sources)
    reports = [json.loads(m.data) for m in made if m.kind == "stitch report"]
    assert [r["pieces"] for r in reports] == [["bean"], ["plot"]]
    assert [m.public for m in made] == [False] * 5 + [True] * 5
    assert all(r["released"] for r in reports)


def test_pieces_in_one_hooping_keep_their_distance_on_the_top():
    report = json.loads(make(BEAN, {"name": "plot", "outline": "plot.svg", "at": ["12", "10"]})[-1].data)
    assert report["pieces"] == ["bean", "plot"]
    assert report["extents_mm"][0] == pytest.approx(12 + 2 * 25.4 + 15 + 4.6, abs=0.2)
    kinds = [(p["piece"], p["kind"]) for p in report["passes"]]
    assert kinds == [
        (n, k) for n in ("bean", "plot") for k in ("placement", "tack-down", "underlay", "finish")
    ]
    assert report["stops"] == 4 and report["trims"] >= 1


def test_a_cloth_trimmed_in_place_is_to_be_trimmed_at_the_second_stop():
    report = json.loads(make(LEEK)[-1].data)
    assert report["at_stops"][1]["do"] == "trim the cloth of the leek close to the tack-down"


def test_progress_is_told_from_nothing_to_all():
    told = []
    job = JobInput(
        "stitches", document(LEEK), OUTLINES, progress=lambda share, words: told.append((share, words))
    )
    make_stitches(job)
    assert told[0][0] == 0 and told[-1][0] == 1 and [s for s, _ in told] == sorted(s for s, _ in told)
    assert any("leek" in words for _, words in told)


def test_a_piece_larger_than_the_field_stops_the_job_with_its_name_and_pointer():
    with pytest.raises(CannotMake, match=r'"bed".*130 x 180 mm.*511 x 51 mm') as refused:
        make(LEEK, {"name": "bed", "outline": "bed.svg"})
    assert refused.value.pointer == "/pieces/1"


def test_an_outline_that_is_not_there_is_named():
    with pytest.raises(CannotMake, match=r"pea\.svg") as refused:
        make({"name": "pea", "outline": "pea.svg"})
    assert refused.value.pointer == "/pieces/0/outline" and refused.value.right


def test_a_document_that_cannot_be_sewn_is_refused_with_its_pointer():
    with pytest.raises(CannotMake) as refused:
        make_stitches(JobInput("stitches", {**document(LEEK), "top": {"unit": "cloud"}}, OUTLINES))
    assert refused.value.pointer.startswith("/top")


def test_a_file_whose_checks_fail_is_made_but_not_released(monkeypatch):
    """Shown with a finish that leaves the raw edge bare."""
    from workers.stitches import passes

    whole = passes.sew_finish
    monkeypatch.setattr(
        passes, "sew_finish", lambda lines, edge, settings: whole(lines, edge, settings)[:300]
    )
    made = make(BEAN)
    report = json.loads(made[-1].data)
    assert report["released"] is False
    assert [m.public for m in made] == [False] * 5
    failed = [c for c in report["checks"] if not c["ok"]]
    assert failed and all(c["where"] for c in failed)


@pytest.mark.parametrize("turn", [0, 30, 90, 215])
def test_a_motif_that_comes_again_names_the_file_that_sews_it_and_how_the_top_lies_then(turn):
    """Held against the needle points: the first file, turned back, is the second on the top."""
    again = {**LEEK, "name": "leek again", "at": ["30", "30"], "turn": turn}
    files = {m.name: m.data for m in make({**LEEK, "turn": 10}, again)}
    first, second = (json.loads(files[f"stitch-130x180-{n}.json"]) for n in (1, 2))
    assert first["same_as"] is None and second["same_as"]["hooping"] == "130x180-1"
    assert any("130x180-1 sews the same" in note for note in second["notes"])
    one, two = (read_stitch_file(files[f"stitch-130x180-{n}.dst"]) for n in (1, 2))
    back = np.radians(-second["same_as"]["top_turned_degrees"])
    own = np.radians(-90.0 if second["turned"] else 0.0)
    sewn = []
    for reading, angle in ((one, back), (two, own)):
        turned = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        points = reading.points_mm[reading.kinds == 0] @ turned.T
        sewn.append(shapely.MultiPoint(points - (points.min(axis=0) + points.max(axis=0)) / 2))
    assert shapely.hausdorff_distance(*sewn) < 1.0


def test_another_thread_or_scale_is_another_motif():
    for more in ({"scale": "9/10"}, {"thread": {"name": "white", "colour": "#ffffff"}}, {"mirror": True}):
        files = {m.name: m.data for m in make(LEEK, {**LEEK, "name": "two", "at": ["30", "30"], **more})}
        assert json.loads(files["stitch-130x180-2.json"])["same_as"] is None
