"""`batchbee inspect`: a sound file is described, a damaged one is named."""

import json

import pytest
from click.testing import CliRunner

from service.cli import main
from service.craft.outlines import read_svg, to_json
from workers.recipe import JobInput
from workers.stitches.recipe import make_stitches

DOCUMENT = {
    "title": "Pea",
    "fabrics": {"green": {"colour": "#7ba05b"}},
    "top": {"unit": "patch", "size": ["6", "6"], "fabric": "green"},
    "pieces": [{"name": "pea", "outline": "pea.svg", "fabric": "green", "at": ["3", "3"]}],
    "tracks": [{"name": "hoop", "has": ["hoop 100x100"]}],
}
PEA = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">'
    b'<circle cx="20" cy="20" r="15"/></svg>'
)


@pytest.fixture(scope="module")
def made():
    outlines = {"pea.svg": to_json(read_svg(PEA, "pea.svg"))}
    files = make_stitches(JobInput(kind="stitches", document=DOCUMENT, outlines=outlines))
    return {file.name: file.data for file in files}


def inspect(folder, data):
    file = folder / "pea.dst"
    file.write_bytes(data)
    return CliRunner().invoke(main, ["inspect", str(file)])


def test_a_sound_file_is_described_as_its_report_has_it(made, tmp_path):
    report = json.loads(made["stitch-100x100-1.json"])
    result = inspect(tmp_path, made["stitch-100x100-1.dst"])
    assert result.exit_code == 0
    width, height = report["extents_mm"]
    assert f"{report['stitches']} stitches, {report['stops']} stops" in result.output
    assert f"{width:g} by {height:g} mm" in result.output


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (lambda d: d[:-7], "cut off after"),
        (lambda d: d[:2000], "496 records"),
        (lambda d: d + b"\0" * 400, "400 bytes follow the end record"),
        (lambda d: d[:1500] + b"\xff\xff\xff" + d[1503:], "left out"),
        (lambda d: d[:300], "cannot be sewn"),
        (lambda d: b"leek " * 300, "cannot be sewn"),
        (lambda d: d.replace(b"CO:  2", b"CO:  7", 1), "it says 7, the stitches say 2"),
    ],
    ids=["cut short", "half gone", "padded", "spoiled inside", "half a header", "text", "untrue header"],
)
def test_a_damaged_file_is_named_with_what_is_wrong(made, tmp_path, spoil, words):
    result = inspect(tmp_path, spoil(made["stitch-100x100-1.dst"]))
    assert result.exit_code == 1
    assert words in result.output
