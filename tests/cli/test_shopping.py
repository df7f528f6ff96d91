"""`batchbee shopping`, over real HTTP."""

import csv
import io

from service.cli.shopping import list_lines, say_length

PRICED = {
    "cream": {"name": "cream weave", "colour": "#f3ead2", "usable_width": "42",
              "price_per_length": {"amount": 9, "per": "36"}},
    "stalk": {"name": "rhubarb red", "colour": "#b23a48", "usable_width": 42},
}  # fmt: skip


def test_a_list_is_lines_to_read(terminal):
    """What to buy of each cloth, for a viewer and for the studio, the sums, and what is in none of them."""
    project = terminal.studio.add(fabrics=PRICED)
    found = terminal.studio.maker.get(f"/api/v1/projects/{project}/shopping?kits=20").json
    done = terminal.run("shopping", "--project", project, "--kits", 20)
    assert done.exit_code == 0, done.output
    lines = done.stdout.splitlines()
    cream = found["cloths"][0]
    assert lines[0] == "Rhubarb Mat: 20 kits"
    buy, cost = say_length(cream["at_once"]["buy"]), cream["at_once"]["cost"]
    assert lines[1] == f"cream weave: buy {buy} for {cost:.2f}"
    assert " yd)" in buy
    assert any("buying at once saves" in line for line in lines)
    assert lines[-1] == "Price unknown, and in no sum: rhubarb red"


def test_pieces_and_what_is_at_home_are_said(terminal):
    """How many pieces, for all and for one; what is left for the studio to buy, which is nothing here."""
    cream = {**PRICED["cream"], "sold_as": {"name": "fat quarter", "price": 4},
             "stash": [{"width": "20", "length": "20", "count": 1}]}  # fmt: skip
    project = terminal.studio.add(fabrics={**PRICED, "cream": cream})
    lines = terminal.run("shopping", "--project", project).stdout.splitlines()
    assert "  or in pieces (fat quarter): 1 for 4.00; one viewer 1 for 4.00" in lines
    assert "  the studio, when what is at home is cut first: 0 in for 0.00" in lines


def test_a_series_is_listed_whole_or_for_a_month(terminal):
    """Both projects, or the one of the date."""
    series = terminal.studio.maker.post("/api/v1/series", json={"title": "Year"}).json["id"]
    for on in ("2027-01-20", "2027-02-19"):
        terminal.studio.add(title=f"Mat of {on}", series=series, release=on)
    whole = terminal.run("shopping", "--series", series)
    assert whole.stdout.startswith("Mat of 2027-01-20, Mat of 2027-02-19: 1 kit\n")
    assert "  for Mat of 2027-01-20, Mat of 2027-02-19" in whole.stdout.splitlines()
    month = terminal.run("shopping", "--series", series, "--release", "2027-02-19")
    assert month.stdout.startswith("Mat of 2027-02-19: 1 kit\n")


def test_a_table_goes_to_standard_output_as_it_came(terminal):
    """The same bytes as over the API, for a spreadsheet."""
    project = terminal.studio.add()
    done = terminal.run("shopping", "--project", project, "--csv")
    sent = terminal.studio.maker.get(f"/api/v1/projects/{project}/shopping?format=csv").data
    assert done.stdout_bytes == sent
    rows = list(csv.DictReader(io.StringIO(done.stdout_bytes.decode(), newline="")))
    assert rows[0]["name"] == "cream weave"


def test_wrong_usage_has_code_2_and_refusals_1(terminal):
    """One of project and series; a release goes with a series; a project that is not there is said."""
    for words in ((), ("--project", "a", "--series", "b"), ("--project", "a", "--release", "2027-01-20"),
                  ("--project", "a", "--kits", "0")):  # fmt: skip
        assert terminal.run("shopping", *words).exit_code == 2
    missing = terminal.run("shopping", "--project", "none")
    assert (missing.exit_code, "no project" in missing.stderr) == (1, True)
    stranger = terminal.run("shopping", "--project", "none", key="")
    assert (stranger.exit_code, "key" in stranger.stderr) == (3, True)


def test_notes_and_things_beside_cloth_are_lines_too():
    """Batting with its packet, web by its tracks, thread by the metre, and what could not be counted."""
    length = {"text": "4 in", "inches": 4.0, "mm": 101.6}
    found = {
        "kits": 2, "projects": [{"id": "p", "title": "Leek Row"}], "cloths": [],
        "batting": [{"project": "p", "width": length, "height": length, "sold_as": {"name": "craft"}},
                    {"project": "p", "width": length, "height": length, "sold_as": None}],
        "fusible": [{"project": "p", "width": length, "one_kit": length, "tracks": ["by hand", "cutter"]}],
        "threads": [{"name": "white", "one_kit_about_metres": 9.5}],
        "cost": {"at_once": None, "complete": True}, "notes": ["Leek Row: not counted: leaf"],
    }  # fmt: skip
    assert list(list_lines(found)) == [
        "Leek Row: 2 kits",
        "batting for Leek Row: 4 in by 4 in (a packet called craft)",
        "batting for Leek Row: 4 in by 4 in",
        "fusible web for Leek Row, 4 in wide: 4 in a kit (by hand, cutter)",
        "thread white: about 9.5 m a kit",
        "Note: Leek Row: not counted: leaf",
    ]
