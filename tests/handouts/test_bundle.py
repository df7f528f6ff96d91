"""A bundle holds what its track uses and nothing else, says so in its manifest, and is the same every time."""

import hashlib
import json
import zipfile
from io import BytesIO

import pytest

from workers.handouts.recipe import make_bundle
from workers.recipe import CannotMake

STITCHES = (".dst", ".svg", ".png", "-colours.svg", ".json")
HOOP, HAND = "hoop and cutter", "by hand"
HOOP_FILES = {
    "manifest.json",
    "handout-hoop-and-cutter.pdf",
    "cut-files.json",
    "cut-leaf-1.svg",
    "cut-leaf-1.dxf",
    "cut-test-square.svg",
    "cut-test-square.dxf",
    *(f"stitch-130x180-{n}{ending}" for n in (1, 2) for ending in STITCHES),
}


@pytest.fixture
def files(files):
    return {**files, "handout-hoop-and-cutter.pdf": b"%PDF-hoop", "handout-by-hand.pdf": b"%PDF-hand"}


@pytest.fixture(autouse=True)
def complete(monkeypatch):
    """These few files by hand stand for complete ones: what is missing is looked for in tests/completeness."""
    monkeypatch.setattr("workers.handouts.bundle.check_track", lambda made: [])


def unpack(made):
    with zipfile.ZipFile(BytesIO(made.data)) as archive:
        return {info.filename: archive.read(info) for info in archive.infolist()}


def pack(make_job, track, **changes):
    (made,) = make_bundle(make_job("bundle", track, **changes))
    return made


def change(made, name, **fields):
    return {**made, name: json.dumps({**json.loads(made[name]), **fields}).encode()}


@pytest.mark.parametrize(
    ("track", "names"),
    [(HOOP, HOOP_FILES), (HAND, {"manifest.json", "handout-by-hand.pdf", "templates-by-hand.pdf"})],
)
def test_a_bundle_holds_what_its_track_uses_and_nothing_else(make_job, files, track, names):
    made = pack(make_job, track)
    unpacked = unpack(made)
    assert unpacked.keys() == names
    assert (made.kind, made.media_type, made.public) == ("bundle", "application/zip", True)
    assert all(unpacked[name] == files[name] for name in names - {"manifest.json"})


def test_the_manifest_names_every_other_file_with_size_and_sum(make_job):
    unpacked = unpack(pack(make_job, HOOP))
    manifest = json.loads(unpacked.pop("manifest.json"))
    assert (manifest["project"], manifest["track"], manifest["release"]) == ("Leek Row", HOOP, "2027-01-20")
    # sums held against hashlib over what was unpacked again
    assert {entry["name"]: (entry["size"], entry["sha256"]) for entry in manifest["files"]} == {
        name: (len(data), hashlib.sha256(data).hexdigest()) for name, data in unpacked.items()
    }


def test_two_runs_are_equal_to_the_byte_whatever_order_files_come_in(make_job, files):
    turned = dict(reversed(files.items()))
    assert pack(make_job, HOOP).data == pack(make_job, HOOP, inputs=turned).data


def test_entries_are_sorted_and_carry_one_fixed_date_and_no_extra_field(make_job):
    with zipfile.ZipFile(BytesIO(pack(make_job, HOOP).data)) as archive:
        infos = archive.infolist()
    assert [info.filename for info in infos] == ["manifest.json", *sorted(HOOP_FILES - {"manifest.json"})]
    assert {(info.date_time, info.create_system, info.external_attr, info.extra) for info in infos} == {
        ((1980, 1, 1, 0, 0, 0), 3, 0o644 << 16, b"")
    }


def test_a_hooping_that_failed_its_check_stops_the_bundle_and_is_named(make_job, files):
    failed = change(files, "stitch-130x180-2.json", released=False)
    with pytest.raises(CannotMake, match="hooping 130x180-2 failed its check"):
        pack(make_job, HOOP, inputs=failed)


def test_a_piece_whose_stitch_file_may_not_leave_stops_the_bundle(make_job, files):
    """Where the failed files were held back before, the piece they held is named."""
    left = {name: data for name, data in files.items() if not name.startswith("stitch-130x180-2")}
    with pytest.raises(CannotMake, match="leaf blade has no released stitch file") as refusal:
        pack(make_job, HOOP, inputs=left)
    assert refusal.value.pointer == "/pieces/1"


def test_hoopings_of_what_viewers_must_own_stay_out(make_job, files):
    private = {f"stitch-130x180-3{end}": files[f"stitch-130x180-1{end}"] for end in STITCHES}
    given = change({**files, **private}, "stitch-130x180-3.json", pieces=["watering can"])
    assert unpack(pack(make_job, HOOP, inputs=given)).keys() == HOOP_FILES


def test_hoopings_of_another_sewing_field_stay_out(make_job, files):
    other = {f"stitch-100x100-1{end}": files[f"stitch-130x180-1{end}"] for end in STITCHES}
    assert unpack(pack(make_job, HOOP, inputs={**files, **other})).keys() == HOOP_FILES


def test_cut_files_of_what_viewers_must_own_stay_out(make_job, files):
    listed = json.loads(files["cut-files.json"])
    owned = {**listed["files"][0], "svg": "cut-pot-1.svg", "dxf": "cut-pot-1.dxf"}
    owned["pieces"] = [{"name": "watering can", "count": 1}]
    given = change(
        {**files, "cut-pot-1.svg": b"", "cut-pot-1.dxf": b""},
        "cut-files.json",
        files=[*listed["files"], owned],
    )
    assert unpack(pack(make_job, HOOP, inputs=given)).keys() == HOOP_FILES


def test_a_piece_in_no_cut_file_stops_the_bundle(make_job, files):
    with pytest.raises(CannotMake, match="leaf blade is in no cut file"):
        pack(make_job, HOOP, inputs=change(files, "cut-files.json", files=[]))


@pytest.mark.parametrize("name", ["handout-hoop-and-cutter.pdf", "cut-leaf-1.dxf", "stitch-130x180-1.dst"])
def test_a_file_that_is_not_there_is_named(make_job, files, name):
    left = {key: data for key, data in files.items() if key != name}
    with pytest.raises(CannotMake, match=name):
        pack(make_job, HOOP, inputs=left)


def test_the_project_without_a_release_day_says_so_by_an_empty_one(make_job):
    manifest = json.loads(unpack(pack(make_job, HAND, release=""))["manifest.json"])
    assert manifest["release"] == ""


def test_an_outline_that_nobody_says_the_rights_of_stops_the_bundle_with_its_place(make_job, document):
    document["sources"] = [source for source in document["sources"] if source["rights"] != "own"]
    with pytest.raises(CannotMake, match=r'whose outline "leek\.svg" is') as refusal:
        pack(make_job, HOOP, document=document)
    assert refusal.value.pointer == "/pieces/0/outline" and "rights" in refusal.value.right


def test_a_motif_that_one_file_sews_in_two_places_comes_with_one_file(make_job, files):
    """The second hooping keeps its place in the handout; of its own files the bundle has none."""
    same = {"hooping": "130x180-1", "centre_mm": [50.0, 60.0], "top_turned_degrees": 30.0}
    given = change(files, "stitch-130x180-2.json", same_as=same)
    left_out = {f"stitch-130x180-2{ending}" for ending in STITCHES}
    assert unpack(pack(make_job, HOOP, inputs=given)).keys() == HOOP_FILES - left_out
