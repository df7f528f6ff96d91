"""Twenty-odd complete months with one hole made in each: every hole is found, and said with its place."""

import copy
import json

import pytest

from tests.completeness.conftest import IN_DUTCH, load, look_at, make_files, read_inputs
from workers.completeness import check_track
from workers.handouts.bundle import list_bundle_files, pack_bundle
from workers.recipe import CannotMake

LEEK, BEANS, RHUBARB = "2027-01-leek-row", "2027-02-seed-tray", "2027-03-rhubarb-cushion"
BOTH, HOOP, CUTTER, HAND = "hoop and cutter", "hoop", "cutter", "by hand"


def edit(name, change):
    """A hole made in one of the JSON files."""

    def make(files, bundled, document):
        read = json.loads(files[name])
        change(read)
        files[name] = json.dumps(read).encode()

    return make


def lose(name):
    """A file that never came into the bundle."""

    def make(files, bundled, document):
        bundled.remove(name)

    return make


def without_cut(serves, number=0):
    def change(plan):
        rows = [row for row in plan["cuts"] if row["serves"] == serves]
        plan["cuts"].remove(rows[number])

    return change


def in_cloth(fabric, **fields):
    return lambda plan: next(c for c in plan["fabrics"] if c["fabric"] == fabric).update(fields)


def in_step(ending, **fields):
    def change(read):
        next(s for s in read["steps"] if s["id"].endswith(ending)).update(fields)

    return change


def without_steps(test):
    def change(read):
        kept = [step for step in read["steps"] if not test(step)]
        assert len(kept) < len(read["steps"])
        read["steps"] = kept

    return change


def without_pass(kind):
    return lambda report: report.update(passes=[p for p in report["passes"] if p["kind"] != kind])


def off_the_mat(name):
    def change(report):
        for entry in report["files"]:
            entry["pieces"] = [piece for piece in entry["pieces"] if piece["name"] != name]

    return change


def stalk_templates_alone(files, bundled, document):
    """The templates of a project that lost a shape on the way to the printer."""
    from workers.outlines.templates import make_templates
    from workers.recipe import JobInput

    given, outlines = load(LEEK)
    cut = copy.deepcopy(given)
    cut["pieces"] = [p | {"above": []} for p in cut["pieces"] if p["outline"].endswith("#stalk")]
    job = JobInput(kind="templates", document=cut, outlines=outlines, track=HAND)
    files["templates-by-hand.pdf"] = make_templates(job)[0].data


def owned(files, bundled, document):
    """An outline that turns out to belong to somebody else, after everything was made."""
    document["sources"][0]["rights"] = "viewer must own"


def zero():
    return {"text": "0 in", "inches": 0.0, "mm": 0.0}


def last_cut_not_laid(plan):
    for cloth in plan["fabrics"]:
        for part in (cloth, cloth.get("simple") or {}):
            if cloth["fabric"] == "frost":
                part["strips"] = part["strips"][:1]


CUTS, SEWING, STEPS_HAND = "cutting.json", "sewing.json", "steps-by-hand.json"
HOOP_1 = "stitch-130x180-1"
MUTATIONS = [
    (
        "a size of patches without a cut",
        LEEK,
        HAND,
        edit(CUTS, without_cut("patches", 1)),
        "cut",
        "/blocks/star",
    ),
    (
        "one patch too few",
        LEEK,
        BOTH,
        edit(CUTS, lambda p: p["cuts"][2].update(makes=11)),
        "cut",
        "/blocks/corner patch",
    ),
    ("pieces without a cut", LEEK, HOOP, edit(CUTS, without_cut("pieces")), "cut", "/pieces/0"),
    (
        "no size of the batting",
        BEANS,
        CUTTER,
        edit(CUTS, lambda p: p["finishing"].pop("batting")),
        "cut",
        "/finish/batting",
    ),
    (
        "a cloth without a length",
        RHUBARB,
        HAND,
        edit(CUTS, in_cloth("rose", length=zero())),
        "cloth",
        "/fabrics/rose",
    ),
    (
        "a cloth with nothing to buy",
        BEANS,
        HOOP,
        edit(CUTS, in_cloth("shoot", buy=zero())),
        "cloth",
        "/fabrics/shoot",
    ),
    (
        "a cut that lies in no strip",
        LEEK,
        HAND,
        edit(CUTS, last_cut_not_laid),
        "cloth",
        "cutting.json#/cuts/2",
    ),
    (
        "a cloth not among the materials",
        LEEK,
        HAND,
        edit("materials-by-hand.json", lambda m: m["cloths"].pop(0)),
        "cloth",
        "/fabrics/frost",
    ),
    (
        "a cloth listed without a length",
        RHUBARB,
        BOTH,
        edit("materials-hoop-and-cutter.json", lambda m: m["cloths"][0].update(buy="")),
        "cloth",
        "/fabrics/linen",
    ),
    (
        "no binding among the materials",
        BEANS,
        HAND,
        edit("materials-by-hand.json", lambda m: m["finishing"].remove("binding")),
        "cloth",
        "/finish/binding",
    ),
    ("a stitch file not in the bundle", LEEK, BOTH, lose(f"{HOOP_1}.dst"), "file", "/pieces/0"),
    ("no picture of the stitches in the bundle", LEEK, HOOP, lose(f"{HOOP_1}.png"), "file", "/pieces/0"),
    ("no order of the threads in the bundle", LEEK, BOTH, lose(f"{HOOP_1}-colours.svg"), "file", "/pieces/0"),
    (
        "a hooping that was not released",
        LEEK,
        HOOP,
        edit(f"{HOOP_1}.json", lambda r: r.update(released=False)),
        "file",
        "/pieces/0",
    ),
    (
        "a piece without its edge finish",
        LEEK,
        HOOP,
        edit(f"{HOOP_1}.json", without_pass("finish")),
        "file",
        "/pieces/0",
    ),
    (
        "a piece without its placement line",
        LEEK,
        BOTH,
        edit(f"{HOOP_1}.json", without_pass("placement")),
        "file",
        "/pieces/0",
    ),
    (
        "a piece on no mat",
        BEANS,
        CUTTER,
        edit("cut-files.json", off_the_mat("stem of the top bean")),
        "file",
        "/pieces/0",
    ),
    (
        "one form of a cut file not in the bundle",
        RHUBARB,
        CUTTER,
        lose("cut-stalk-1.dxf"),
        "file",
        "/pieces/0",
    ),
    ("a shape missing among the templates", LEEK, HAND, stalk_templates_alone, "file", "/pieces/0"),
    ("templates not in the bundle", RHUBARB, HAND, lose("templates-by-hand.pdf"), "file", "/pieces/0"),
    (
        "a step naming a file there is not",
        LEEK,
        HAND,
        edit(STEPS_HAND, in_step("finishing.label", files=["label.pdf"])),
        "file",
        "steps-by-hand.json#/steps/",
    ),
    (
        "the handout listing a file there is not",
        LEEK,
        HAND,
        edit("materials-by-hand.json", lambda m: m["files"].append("extra.pdf")),
        "file",
        "materials-by-hand.json#/files",
    ),
    (
        "a stage that no step sews",
        RHUBARB,
        HAND,
        edit(STEPS_HAND, without_steps(lambda s: s["stage"] == "top")),
        "step",
        "sewing.json#/stages/",
    ),
    (
        "a last stage that is not there",
        RHUBARB,
        HAND,
        edit(SEWING, lambda s: s["stages"].pop()),
        "step",
        "/top",
    ),
    (
        "a cloth that no step cuts",
        BEANS,
        HAND,
        edit(STEPS_HAND, without_steps(lambda s: s["id"] == "cutting.cloth.linen")),
        "step",
        "/fabrics/linen",
    ),
    (
        "a piece that no step is about",
        BEANS,
        BOTH,
        edit("steps-hoop-and-cutter.json", without_steps(lambda s: "seed of the left bean" in s["pieces"])),
        "step",
        "/pieces/7",
    ),
    (
        "a binding that no step sews on",
        LEEK,
        CUTTER,
        edit("steps-cutter.json", without_steps(lambda s: ".binding." in s["id"])),
        "step",
        "/finish/binding",
    ),
    (
        "a step listing a tool there is not",
        LEEK,
        HAND,
        edit(STEPS_HAND, in_step("finishing.press", tools=["seam roller"])),
        "tool",
        "steps-by-hand.json#/steps/",
    ),
    (
        "words of a step naming a tool there is not",
        LEEK,
        HAND,
        edit(STEPS_HAND, in_step("finishing.press", text="Open it with the seam ripper.")),
        "tool",
        "steps-by-hand.json#/steps/",
    ),
    (
        "a tool not among the materials",
        BEANS,
        HAND,
        edit("materials-by-hand.json", lambda m: m["tools"].remove("iron")),
        "tool",
        "steps-by-hand.json#/steps/",
    ),
    ("what viewers must own, in a bundle", RHUBARB, BOTH, owned, "file", "/pieces/0"),
]

NAMED = "words of a step naming a tool there is not"
MUTATIONS_IN_DUTCH = [mutation for mutation in MUTATIONS if mutation[1] == LEEK and mutation[0] != NAMED] + [
    (
        NAMED,
        LEEK,
        HAND,
        edit(STEPS_HAND, in_step("finishing.press", text="Maak hem open met het tornmesje.")),
        "tool",
        "steps-by-hand.json#/steps/",
    )
]


def break_month(month, track, mutation):
    files, document = dict(make_files(month, track)), copy.deepcopy(load(month)[0])
    inputs = read_inputs(month, track, files)
    bundled = set(list_bundle_files(inputs, inputs.track))
    mutation(files, bundled, document)
    return check_track(look_at(month, track, files, document=document, bundled=bundled))


@pytest.mark.parametrize(
    ("month", "track", "mutation", "check", "where"),
    [mutation[1:] for mutation in MUTATIONS],
    ids=[mutation[0] for mutation in MUTATIONS],
)
def test_a_hole_is_found_and_said_with_its_place(month, track, mutation, check, where):
    found = break_month(month, track, mutation)
    assert any(finding.check == check and finding.where.startswith(where) for finding in found), list(
        map(str, found)
    )
    assert all(finding.detail and finding.right for finding in found)


@pytest.mark.parametrize(
    ("month", "track", "mutation", "check", "where"),
    [mutation[1:] for mutation in MUTATIONS_IN_DUTCH],
    ids=[mutation[0] for mutation in MUTATIONS_IN_DUTCH],
)
def test_the_holes_of_a_month_are_found_where_its_viewers_read_another_language(
    month, track, mutation, check, where
):
    found = break_month(month + IN_DUTCH, track, mutation)
    assert any(finding.check == check and finding.where.startswith(where) for finding in found), list(
        map(str, found)
    )


def test_at_least_twenty_holes_are_tried_and_every_check_and_kind_of_track_is_among_them():
    assert len({name for name, *_ in MUTATIONS}) >= 20
    assert {m[2] for m in MUTATIONS} == {BOTH, HOOP, CUTTER, HAND}
    assert {m[4] for m in MUTATIONS} == {"cut", "cloth", "file", "step", "tool"}


def test_an_incomplete_track_is_not_packed_and_every_hole_is_in_the_answer():
    files = dict(make_files(LEEK, HAND))
    for _name, _month, _track, mutation, *_ in [MUTATIONS[0], MUTATIONS[27]]:
        mutation(files, set(), {})
    with pytest.raises(CannotMake, match="is not complete, and is not released") as refusal:
        pack_bundle(read_inputs(LEEK, HAND, files))
    assert refusal.value.pointer == "/blocks/star/rows/1/1" or refusal.value.pointer.startswith(
        "/blocks/star"
    )
    assert "seam roller" in refusal.value.detail and "have no cut" in refusal.value.detail
    assert refusal.value.right


def test_a_complete_track_is_packed():
    assert pack_bundle(read_inputs(LEEK, HAND, make_files(LEEK, HAND))).startswith(b"PK")
