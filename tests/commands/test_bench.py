"""`batchbee bench cloth`: figures for each file, faults named with their place, the rest done all the same."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from service.cli import main

CLOTH = {
    "name": "beans",
    "usable_width": 100,
    "items": [{"w": 30, "h": 20, "demand": 7, "turn": True}, {"w": 100, "h": 5, "demand": 2}],
}
STORED = Path(__file__).parents[1] / "cutting" / "cloth.json"


def bench(*arguments):
    return CliRunner().invoke(main, ["bench", "cloth", *map(str, arguments)])


def written(folder, name, what):
    file = folder / name
    file.write_text(what if isinstance(what, str) else json.dumps(what))
    return file


def test_one_json_line_a_file_with_the_figures_in_the_files_own_units(tmp_path):
    """Seven of 30 by 20: all standing take 2 strips of 30; five standing and two lying 30 + 20. The 5s lie alone."""
    done = bench("--json", written(tmp_path, "a.json", CLOTH), STORED)
    assert done.exit_code == 0
    first, second = map(json.loads, done.stdout.splitlines())
    seconds = first.pop("seconds")
    assert 0 <= seconds < 60
    assert {
        key: first[key] for key in ("name", "length", "lower_bound", "proved", "per_size_rule", "strips")
    } == {
        "name": "beans",
        "length": 60,
        "lower_bound": 60,
        "proved": True,
        "per_size_rule": 70,
        "strips": 4,
    }
    assert (second["name"], second["length"], second["per_size_rule"], second["fit_rule"]) == (
        "fabric-00",
        2911,
        3054,
        2930,
    )


def test_a_turn_for_the_whole_file_and_a_plain_width_are_read_too(tmp_path):
    """Two of 10 by 40 on 50 wide: turned they lie under each other, 20 high, instead of standing 40 high."""
    items = [{"w": 10, "h": 40, "demand": 2}]
    lying = written(tmp_path, "lying.json", {"width": 50, "turn": True, "items": items})
    standing = written(tmp_path, "standing.json", {"width": 50, "items": items})
    lines = [json.loads(line) for line in bench("--json", lying, standing).stdout.splitlines()]
    assert [(line["name"], line["length"]) for line in lines] == [("lying", 20), ("standing", 40)]


def test_a_table_ends_with_the_mean_figures(tmp_path):
    done = bench(written(tmp_path, "a.json", CLOTH))
    assert done.exit_code == 0
    assert "beans" in done.stdout
    assert "1 cloths: 1 proved; gap to the bound 0.000% in the mean" in done.stdout
    assert "less than strips size by size 14.29%" in done.stdout


@pytest.mark.parametrize(
    ("what", "said"),
    [
        ("{", "not JSON"),
        ("[" * 100_000, "not JSON"),
        ("[]", "not an object"),
        ('{"width": 9, "width": 8, "items": []}', 'not JSON: the name "width" is given twice in one object'),
        ('{"width": ' + "9" * 5000 + "}", "not JSON: a number of more digits than anybody reads"),
        ({"items": CLOTH["items"]}, "width: missing"),
        ({**CLOTH, "usable_width": 0}, "usable_width: 0;"),
        ({**CLOTH, "usable_width": 10.5}, "usable_width: 10.5;"),
        ({**CLOTH, "items": []}, "items: a list"),
        ({"width": 9, "items": [{"w": 3, "h": 3, "demand": 0}]}, "items/0/demand: 0; a whole number from 1"),
        ({"width": 9, "items": [{"w": -3, "h": 3, "demand": 1}]}, "items/0/w: -3;"),
        ({"width": 9, "items": [{"w": 3, "h": "3", "demand": 1}]}, 'items/0/h: "3";'),
        ({"width": 9, "items": [{"w": 3, "h": 3, "demand": True}]}, "items/0/demand: true;"),
        ({"width": 9, "items": [{"w": 3, "h": 3, "demand": 1, "turn": "no"}]}, 'items/0/turn: "no";'),
        (
            {"width": 9, "items": [{"w": 10, "h": 11, "demand": 1, "turn": True}]},
            "items/0: 10 by 11 does not fit",
        ),
        ({"width": 9, "items": [{"w": 10, "h": 1, "demand": 1}]}, "it must not turn"),
        ({"width": 9, "items": [5]}, "items/0: not an object"),
        ({"width": 9, "items": [{"w": 1, "h": 1, "demand": 90000}] * 2}, "items: more than 100,000 pieces"),
    ],
)
def test_a_fault_is_named_with_file_and_place_and_the_other_files_are_done(tmp_path, what, said):
    broken, sound = written(tmp_path, "broken.json", what), written(tmp_path, "sound.json", CLOTH)
    done = bench("--json", broken, sound)
    assert done.exit_code == 1
    assert f"broken.json: {said}" in done.stderr or (
        said in done.stderr and "broken.json: items/0" in done.stderr
    )
    assert json.loads(done.stdout)["name"] == "beans"


def test_every_fault_of_a_file_is_said_at_once(tmp_path):
    items = [{"w": 0, "h": 3}, {"w": 3, "h": -1, "demand": 2}]
    done = bench(written(tmp_path, "broken.json", {"width": 9, "items": items}))
    assert [line.split(": ")[1] for line in done.stderr.splitlines()] == [
        "items/0/w",
        "items/0/demand",
        "items/1/h",
    ]


def test_files_that_are_not_there_or_not_text_are_named(tmp_path):
    noise = tmp_path / "noise.json"
    noise.write_bytes(b"\xff\xfe\x00")
    done = bench("--json", tmp_path / "gone.json", noise, tmp_path, STORED)
    assert done.exit_code == 1
    assert [line.split(": ")[0].rsplit("/", 1)[-1] for line in done.stderr.splitlines()] == [
        "gone.json",
        "noise.json",
        tmp_path.name,
    ]
    assert json.loads(done.stdout)["proved"]


def test_no_time_at_all_still_gives_figures(tmp_path):
    [line] = bench("--json", "--seconds", "0", STORED).stdout.splitlines()
    figures = json.loads(line)
    assert figures["lower_bound"] <= figures["length"] == figures["fit_rule"]
