"""What viewers read: complete for every track, in the right order, without what may not leave."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable
from itertools import accumulate, groupby
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.tracks import Track
from workers.sewing.names import label
from workers.sewing.steps.hazards import FULL, SHORT
from workers.sewing.steps.piecing import WAYS
from workers.sewing.steps.terms import EXPLANATIONS

Sewn = Callable[..., SimpleNamespace]
Steps = list[dict[str, Any]]

TRACKS = [
    {"name": "hoop and cutter", "has": ["hoop 130x180", "cutter 12x12"], "reading": "new to piecing"},
    {"name": "hoop", "has": ["hoop 100x100"]},
    {"name": "cutter", "has": ["cutter 12x12"]},
    {"name": "by hand", "has": [], "reading": "new to applique"},
]
PIECES = [
    {"name": "leaf", "outline": "leaf.svg", "fabric": "leaf", "at": ["4", "3"], "above": ["leek"]},
    {"name": "leek", "outline": "leek.svg#stalk", "fabric": "fleece", "at": ["4", "2"]},
    {"name": "bean", "outline": "bean.svg", "fabric": "soil", "at": ["5", "5"], "edge": "blanket"},
    {"name": "root", "outline": "root.svg", "fabric": "soil", "at": ["5", "7"], "edge": "raw"},
]
SOURCES = [{"name": "a bought sheet of beans", "covers": ["bean.svg"], "rights": "viewer must own"}]
FINISH = {"binding": {"fabric": "soil"}, "backing": {"fabric": "frost"}, "batting": {}}
PARTS = [
    {"title": "Piecing", "covers": ["cutting", "piecing"]},
    {"title": "Applique", "covers": ["applique", "finishing"]},
]


@pytest.fixture
def month(units: SimpleNamespace, sewn: Sewn) -> SimpleNamespace:
    """A whole project with four tracks."""
    raw = units.document(
        units.bordered(units.nine_patch(), {"width": "1", "fabric": "soil"}),
        pieces=PIECES,
        sources=SOURCES,
        finish=FINISH,
        tracks=TRACKS,
        parts=PARTS,
    )
    return sewn(raw)


def find(steps: Steps, step_id: str) -> dict[str, Any]:
    return next(step for step in steps if step["id"] == step_id)


def about(steps: Steps, piece: str) -> list[str]:
    """What is done for a piece, in order."""
    stem = f"applique.piece.{piece}."
    return [step["id"].removeprefix(stem) for step in steps if step["id"].startswith(stem)]


def test_every_stage_of_every_kind_is_taught_and_measured_once(any_top: dict[str, Any], sewn: Sewn) -> None:
    """Each stage has its steps together and in order, one of them with the size of the stage."""
    made = sewn(any_top)
    (steps,) = made.steps.values()
    order = list(dict.fromkeys(step["stage"] for step in steps if step["stage"]))
    assert order == [stage["id"] for stage in made.plan["stages"]]
    sizes = {step["stage"]: step["size"] for step in steps if step["size"]}
    assert sizes == {stage["id"]: stage["size"] for stage in made.plan["stages"]}
    assert sum(step["size"] is not None for step in steps) == len(made.plan["stages"])


def test_every_kind_of_work_is_met_by_some_top(any_top: dict[str, Any], sewn: Sewn) -> None:
    """No kind of work is without a way of teaching it."""
    assert {stage["kind"] for stage in sewn(any_top).plan["stages"]} <= WAYS.keys()


def test_ids_are_given_once(month: SimpleNamespace) -> None:
    """The maker's own wording finds its step by the id."""
    for steps in month.steps.values():
        ids = [step["id"] for step in steps]
        assert len(ids) == len(set(ids))


def test_chapters_stand_in_working_order_under_their_parts(month: SimpleNamespace) -> None:
    """Cutting and piecing in the first part, applique and finishing in the second."""
    for steps in month.steps.values():
        assert list(dict.fromkeys((step["part"], step["chapter"]) for step in steps)) == [
            ("Piecing", "cutting"),
            ("Piecing", "piecing"),
            ("Applique", "applique"),
            ("Applique", "finishing"),
        ]


def test_every_piece_has_its_way_on_every_track(month: SimpleNamespace) -> None:
    """Hoop: three passes, and trimming where the piece was not cut before. Else cut or traced, laid, stitched."""
    steps = month.steps
    assert about(steps["hoop and cutter"], "leaf") == [
        *("placement", "hoop-off", "peel", "lay", "fuse", "hoop-on", "tack-down", "finish")
    ]
    assert about(steps["hoop"], "leaf") == [
        *("placement", "lay", "tack-down", "hoop-off", "trim", "hoop-on", "finish")
    ]
    assert (
        about(steps["cutter"], "leaf") == about(steps["by hand"], "leaf") == ["peel", "lay", "fuse", "finish"]
    )


def test_pieces_are_cut_cloth_by_cloth_before_any_is_sewn(month: SimpleNamespace) -> None:
    """On the mat: web and cut. By hand: trace, web, cut. With a hoop alone nothing is cut before."""
    steps = month.steps
    cut = {
        track: [
            s["id"].removeprefix("applique.cloth.") for s in made if s["id"].startswith("applique.cloth.")
        ]
        for track, made in steps.items()
    }
    assert (
        cut["hoop and cutter"]
        == cut["cutter"]
        == [*("leaf.web", "leaf.mat", "leaf.cut", "soil.web", "soil.mat", "soil.cut")]
    )
    assert cut["by hand"][:3] == ["leaf.trace", "leaf.web", "leaf.cut"]
    assert cut["hoop"] == []
    for track in ("hoop and cutter", "cutter", "by hand"):
        ids = [step["id"] for step in steps[track]]
        sewn = [
            i for i, name in enumerate(ids) if name.endswith((".placement", ".lay")) and ".piece." in name
        ]
        assert max(i for i, name in enumerate(ids) if name.endswith((".web", ".trace"))) < min(sewn)


@pytest.fixture
def beds(units: SimpleNamespace, sewn: Sewn) -> SimpleNamespace:
    """Three leaves and two leeks, each kind sewn in one way; the third leaf is turned and has its own thread."""
    leaves = [
        {"name": f"{nth} leaf", "outline": "leaf.svg", "fabric": "leaf", "at": [x, "3"]}
        for nth, x in (("first", "2 3/16"), ("second", "4"), ("third", "6"))
    ]
    leaves[2] |= {"turn": -25, "thread": {"name": "moss", "colour": "#4d6b3a"}}
    leeks = [
        {"name": f"{nth} leek", "outline": "leek.svg", "fabric": "fleece", "at": [x, "5 1/2"]}
        for nth, x in (("first", "2"), ("second", "4"))
    ]
    return sewn(units.document(units.nine_patch(), pieces=[*leaves, *leeks], tracks=TRACKS, finish=FINISH))


def test_no_piece_goes_without_its_step_its_place_and_its_files(beds: SimpleNamespace) -> None:
    """Taught once in full, then named one by one: where each lies, in what thread, from which file."""
    places = {"first leaf": "2 7/16 in", "second leaf": "4 1/4 in", "third leaf": "6 1/4 in"}
    places |= {"first leek": "2 1/4 in", "second leek": "4 1/4 in"}
    for track, steps in beds.steps.items():
        for piece, across in places.items():
            own = [s for s in steps if s["id"].startswith(f"applique.piece.{label(piece)}.")]
            said = " ".join(step["text"] for step in own)
            assert f"the {piece}" in said
            assert f"lies {across} from the left cut edge" in said, (track, piece)
            assert all(step["pieces"] == [piece] for step in own)
            if "hoop" in track or "leek" in piece:
                assert [name for step in own for name in step["files"]]
        again = find(steps, f"applique.piece.{label('third leaf')}.sew")
        assert "in the same way as the first leaf" in again["text"]
        assert "moss thread" in again["text"]
        assert ("25 degrees anticlockwise" in again["text"]) is ("hoop" not in track)
    for track in ("hoop and cutter", "cutter", "by hand"):
        cut = [s for s in beds.steps[track] if s["id"].startswith("applique.cloth.leaf.")]
        said = " ".join(step["text"] for step in cut)
        assert said.count("all 3 pieces: first leaf, second leaf and third leaf") == 1
        assert all(step["pieces"] == ["first leaf", "second leaf", "third leaf"] for step in cut)


def test_cut_and_laid_pieces_are_spoken_of_as_the_track_has_them(beds: SimpleNamespace) -> None:
    """No hoop without a hoop, no mat without a cutting machine, no template where there is one."""
    for track, steps in beds.steps.items():
        said = " ".join(
            s["text"] + s["why"] + s["caution"] for s in steps if s["chapter"] == "applique"
        ).lower()
        assert ("hoop" in said) is ("hoop" in track)
        assert ("machine's mat" in said) is ("cutter" in track)
        assert ("template" in said) is ("hoop" not in track)


def test_a_caution_is_said_in_full_once_and_shortly_once_a_group(beds: SimpleNamespace) -> None:
    """In a chapter each full caution stands once and first; a short one never twice under one heading or stage."""
    for steps in beds.steps.values():
        for chapter in dict.fromkeys(step["chapter"] for step in steps):
            inside = [step for step in steps if step["chapter"] == chapter]
            for hazard, full in FULL.items():
                where = [i for i, step in enumerate(inside) if full in step["caution"]]
                assert len(where) <= 1
                short = [i for i, step in enumerate(inside) if SHORT.get(hazard, "none") in step["caution"]]
                runs = [
                    len(list(run)) for _, run in groupby(inside, key=lambda s: s["stage"] or s["heading"])
                ]
                ends = list(accumulate(runs))
                groups = [bisect_right(ends, i) for i in short]
                assert len(groups) == len(set(groups))
                assert not short or where[0] < short[0]
    cutting = [step for step in beds.steps["hoop"] if step["chapter"] == "cutting"]
    # the iron and the rotary cutter at the start, scissors where the cloth for pieces is cut
    said = [step["id"] for step in cutting if step["caution"]]
    assert said == ["cutting.prepare", "cutting.straighten", "cutting.pieces"]


def test_long_lengths_are_what_a_tape_shows_and_never_short(units: SimpleNamespace, sewn: Sewn) -> None:
    """The way round this top ends in sixteenths; the binding is rounded up to an eighth."""
    top = units.bordered(units.nine_patch(), {"width": "33/128", "fabric": "soil"})
    made = sewn(units.document(top, finish=FINISH))
    (steps,) = made.steps.values()
    found = re.search(r"at least (\d+) (\d)/(2|4|8) in long", find(steps, "finishing.binding.join")["text"])
    assert found
    whole, numerator, denominator = map(int, found.groups())
    finished = made.plan["finished"]
    around = 2 * (finished["width"]["inches"] + finished["height"]["inches"]) + 12
    assert around * 8 % 1 != 0
    assert 0 < whole + numerator / denominator - around < 1 / 8


def test_cloth_to_trim_in_place_is_never_cut_before(month: SimpleNamespace) -> None:
    """On no track is fluffy cloth cut on a mat: it is laid over its line, tacked down, trimmed."""
    in_hoop = ["placement", "lay", "tack-down", "hoop-off", "trim", "hoop-on", "finish"]
    by_machine = ["draw", "placement", "lay", "pin", "tack-down", "trim", "finish"]
    for steps in month.steps.values():
        drawn = about(steps, "leek")
        assert drawn == (by_machine if drawn[0] == "draw" else in_hoop)
        assert not any("fleece" in step["id"] for step in steps if step["chapter"] == "cutting")


def test_pieces_come_from_the_lowest_up(month: SimpleNamespace) -> None:
    """The leaf lies above the leek, though the document names it first."""
    for steps in month.steps.values():
        ids = [step["id"] for step in steps]
        assert ids.index("applique.piece.leek.finish") < ids.index("applique.piece.leaf.lay")


def test_files_are_named_by_the_track_that_has_them(month: SimpleNamespace) -> None:
    """Stitch files by sewing field, cut files by cloth, templates by track; nobody is sent to another track's file."""
    named = {
        track: {name for step in steps for name in step["files"]} for track, steps in month.steps.items()
    }
    assert named["hoop and cutter"] == {"stitch-130x180-*", "cut-leaf-*", "cut-soil-*"}
    assert named["hoop"] == {"stitch-100x100-*"}
    assert named["cutter"] == {"cut-leaf-*", "cut-soil-*", "templates-cutter.pdf"}
    assert named["by hand"] == {"templates-by-hand.pdf"}


def test_what_viewers_must_own_names_no_file_and_says_what_to_bring(month: SimpleNamespace) -> None:
    """The bean comes from a bought sheet: first what to bring, then the same way with one's own pattern."""
    for steps in month.steps.values():
        bean = [step for step in steps if step["id"].startswith("applique.piece.bean.")]
        assert bean[0]["id"].endswith(".bring")
        assert "a bought sheet of beans" in bean[0]["text"]
        assert all(step["files"] == [] for step in bean)
        assert not any(re.search(r"cut-soil|templates-|stitch-\d", step["text"]) for step in bean)


def test_cautions_stand_where_it_can_hurt(month: SimpleNamespace) -> None:
    """Cutter, iron, needle, hoop and fumes, each where it first comes up in a chapter, with whose rules count."""
    hoop = month.steps["hoop"]
    for step_id, words in {
        "cutting.prepare": ("Hot iron",),
        "cutting.straighten": ("Rotary cutter",),
        "piecing.seam-test.cut": ("Rotary cutter",),
        "piecing.seam-test.sew": ("Needle",),
        "piecing.seam-test.press": ("Hot iron",),
        "applique.hoop": ("Moving hoop",),
        "finishing.square": ("Rotary cutter",),
    }.items():
        caution = find(hoop, step_id)["caution"]
        assert all(word in caution for word in words), step_id
    for chapter in ("cutting", "piecing", "applique", "finishing"):
        first = next(s["caution"] for s in hoop if s["chapter"] == chapter and s["caution"])
        assert "instructions of the makers" in first
        assert "rules of the place" in first
    for piece in ("leaf", "leek", "bean", "root"):
        own = [
            s
            for s in hoop
            if s["id"].startswith(f"applique.piece.{piece}.") and s["heading"] != "Bring your own"
        ]
        assert any("hoop" in step["caution"] for step in own)
    assert "fumes" in find(month.steps["by hand"], "applique.cloth.leaf.web")["caution"]


def test_the_maker_s_own_wording_stands_beside_the_computed_text(units: SimpleNamespace, sewn: Sewn) -> None:
    """Both are there; a step without wording has no such field."""
    raw = units.document(units.nine_patch(), tracks=TRACKS)
    wording = {"by hand": {"finishing.label": "Write who it is for."}}
    made = sewn(raw, wording=wording)
    label = find(made.steps["by hand"], "finishing.label")
    assert label["wording"] == "Write who it is for."
    assert label["text"].startswith("Sew a label")
    assert "wording" not in find(made.steps["hoop"], "finishing.label")


def test_words_are_a_teacher_s(month: SimpleNamespace, any_top: dict[str, Any], sewn: Sewn) -> None:
    """No exclamation mark; every step says what to do, and why to those who have not done it before, in sentences;
    none is longer than a breath or two.
    """
    told = [
        (Track(track["name"], (), track.get("reading", "")), step)
        for made, tracks in ((month, TRACKS), (sewn(any_top), any_top.get("tracks", [])))
        for track in tracks
        for step in made.steps[track["name"]]
    ]
    assert len(told) > 100
    for track, step in told:
        for text in [step["text"]] + [step["why"]] * bool(step["why"] or not track.has_done(step["chapter"])):
            assert text, step["id"]
            assert text[0].isupper(), text
            assert text.endswith((".", "100 mm.")), text
            assert "!" not in text
            assert "  " not in text
        assert all(len(sentence.split()) <= 40 for sentence in re.split(r"[.;:] ", step["text"])), step[
            "text"
        ]


def test_a_term_is_explained_where_it_is_first_used(month: SimpleNamespace) -> None:
    """Each term once a track, in the step that uses it first, wherever piecing is new."""
    for track in (track for track in TRACKS if track.get("reading") != "new to applique"):
        steps = month.steps[track["name"]]
        explained = [entry["term"] for step in steps for entry in step["terms"]]
        assert len(explained) == len(set(explained))
        assert {"press", "nest", "border", "binding"} <= set(explained)
        nests = [i for i, step in enumerate(steps) if re.search(r"\bnests?\b", step["text"] + step["why"])]
        where = [i for i, step in enumerate(steps) if "nest" in [entry["term"] for entry in step["terms"]]]
        assert where == nests[:1]
    assert all(meaning.endswith(".") for _, meaning in EXPLANATIONS.values())


def test_a_project_without_pieces_has_no_applique(units: SimpleNamespace, sewn: Sewn) -> None:
    """Nothing is hooped for nothing, and nothing bound that the document does not bind."""
    for steps in sewn(units.document(units.nine_patch(), tracks=TRACKS)).steps.values():
        assert {step["chapter"] for step in steps} == {"cutting", "piecing", "finishing"}
        assert not any(step["files"] for step in steps)
        assert [s["id"] for s in steps if s["chapter"] == "finishing"] == [
            "finishing.press",
            "finishing.threads",
            "finishing.label",
        ]


def test_a_metric_document_speaks_metric(units: SimpleNamespace, sewn: Sewn) -> None:
    """No length in inches is left in any sentence, title or size."""
    unit = units.half("frost", "leaf", side="80")
    top = units.bordered(
        units.grid([unit, units.patch("soil", "80", "80")]), {"width": "25", "fabric": "leaf"}
    )
    made = sewn(units.document(top, measure="mm", pieces=[PIECES[1] | {"at": ["40", "40"]}], finish=FINISH))
    texts = [step["text"] + step["why"] for steps in made.steps.values() for step in steps]
    texts += [stage["title"] + stage["makes"] for stage in made.plan["stages"]]
    texts += [stage["size"]["low"]["width"]["text"] for stage in made.plan["stages"]]
    assert not [text for text in texts if re.search(r"\d in\b", text)]
    assert any("7.5 mm" in text for text in texts)


@pytest.mark.parametrize(
    ("method", "count", "pairs"),
    [("two at a time", 5, "3 pairs"), ("four at a time", 5, "2 pairs"), ("eight at a time", 5, "1 pair")],
)
def test_half_square_triangles_are_made_in_batches(
    units: SimpleNamespace, sewn: Sewn, method: str, count: int, pairs: str
) -> None:
    """As many pairs of squares as are needed, rounded up."""
    top = units.grid([units.half("frost", "leaf", method=method)] * count)
    (steps,) = sewn(units.document(top)).steps.values()
    (pair,) = [step for step in steps if step["id"].endswith(".pair")]
    assert f"You need {pairs} for {count} units" in pair["text"]


def test_a_corner_square_is_sewn_beside_its_line(units: SimpleNamespace, sewn: Sewn) -> None:
    """A needle's width to the corner side of the diagonal: the turn of cloth. Common practice, no source."""
    (steps,) = sewn(units.document(units.nine_patch())).steps.values()
    sew = next(
        step
        for step in steps
        if step["id"].startswith("piecing.corner-squares") and step["id"].endswith("sew")
    )
    assert "needle's width towards the corner" in sew["text"]
    mark = next(step for step in steps if step["id"].endswith(".mark"))
    assert "20 squares of leek green" in mark["text"]


def test_where_seams_do_not_nest_a_step_says_what_helps(units: SimpleNamespace, sewn: Sewn) -> None:
    """Pieces of one strip set on each other: no side serves, so the seams are pressed open and pinned through."""
    piece = units.strips(("frost", "2"), ("soil", "2"), ("leaf", "2"))
    made = sewn(units.document(units.grid([piece], [piece], [piece])))
    (steps,) = made.steps.values()
    (turn,) = [step for step in steps if step["id"].endswith(".turn-seams")]
    assert turn["stage"] == "top"
    assert turn["text"].startswith("At 4 crossings")
    assert "pin through both seam lines" in turn["text"]
    assert len(made.plan["junctions"]["not_nesting"]) == 4
    assert {seam["press"] for seam in made.plan["seams"] if seam["stage"] != "top"} == {"open"}


def test_copies_pressed_in_two_ways_are_counted_and_laid_in_turn(units: SimpleNamespace, sewn: Sewn) -> None:
    """Three equal blocks in a row: two are pressed one way, one the other, and a step says how they are laid."""
    block = units.grid([units.patch("frost")], [units.patch("leaf")])
    (steps,) = sewn(units.document(units.grid(["b", "b", "b"]), {"b": block})).steps.values()
    said = {step["id"]: step["text"] for step in steps}
    assert said["piecing.block.b.press"].startswith(
        "In 2 of the 3, for pile 1, press the seam towards row 2. "
        "In the last one, for pile 2, press the seam towards row 1."
    )
    assert said["piecing.block.b.piles"].startswith(
        "Put them on two piles, each with its number on a slip of paper: "
        "pile 1 holds the 2 pressed towards row 2; pile 2 holds the one pressed towards row 1."
    )
    assert said["piecing.top.in-turn"].startswith(
        "Take the blocks (b) from their two piles: for places 1 and 3, counted from the left, from pile 1 (pressed "
        "towards row 2); for place 2 from pile 2 (pressed towards row 1)."
    )


def test_nesting_is_given_as_a_reason_only_where_seams_meet(units: SimpleNamespace, sewn: Sewn) -> None:
    """The rows of the nine patch meet in its joins; the seams of the border meet nothing."""
    border = {"width": "1", "fabric": "soil"}
    (steps,) = sewn(units.document(units.bordered(units.nine_patch(), border))).steps.values()
    presses = [step for step in steps if step["id"].endswith(".press") and step["stage"]]
    nest = {
        step["id"].removeprefix("piecing.").removesuffix(".press"): "nest" in step["why"] for step in presses
    }
    assert [nests for stage, nests in nest.items() if ".row." in stage] == [True, True]
    assert [nests for stage, nests in nest.items() if stage.startswith("top") and "row" not in stage][
        -2:
    ] == [False] * 2


def test_cloth_for_pieces_alone_is_cut_with_scissors_by_those_who_have_no_machine_for_it(
    month: SimpleNamespace,
) -> None:
    """The fleece is trimmed in place, so it stays off every mat; other cloths are cut whole for a machine's mat."""
    for track, steps in month.steps.items():
        said = next((step for step in steps if step["id"] == "cutting.pieces"), None)
        assert said is not None, track
        assert "With scissors" in said["text"] and "as the cutting order says" in said["text"]
        assert "fleece" in said["text"]
        assert "Scissors" in said["caution"]
