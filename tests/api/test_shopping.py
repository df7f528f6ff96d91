"""Shopping lists over HTTP: what is asked for, how it is answered, who may."""

import csv
import io
import threading
from dataclasses import replace

import pytest
from werkzeug.http import parse_options_header

from service.api.shopping_csv import guard_cell, write_csv
from service.api.wiring import NAME
from service.craft.faults import Fault
from service.craft.shopping import CannotShop, ShoppingProject
from service.studio import shopping as desks
from service.studio.shopping import NotHere, ShoppingDesk

TABLE = {"Accept": "text/csv"}


@pytest.fixture
def series(studio):
    """A series with two months, its id and its projects."""
    id_ = studio.maker.post("/api/v1/series", json={"title": "A year in the allotment"}).json["id"]
    dates = ("2027-02-19", "2027-01-20")
    projects = [studio.add(title=f"Mat of {on}", series=id_, release=on) for on in dates]
    return id_, projects


class Reckoner:
    """Stands in for what cuts cloth: keeps what it was asked, and answers with its cloths' names."""

    def __init__(self, answer=None):
        self.asked, self.answer = [], answer

    def __call__(self, asked):
        self.asked.append(asked)
        if isinstance(self.answer, Exception):
            raise self.answer
        empty = {name: [] for name in ("cloths", "batting", "fusible", "threads", "notes")}
        cost = dict.fromkeys(
            ("one_kit", "apart", "by_project", "at_once", "saved", "studio", "studio_at_once")
        )
        projects = [
            {"id": p.id, "title": p.title, "release": p.release, "step_outs": []} for p in asked.projects
        ]
        cost = {"complete": True, "price_unknown": [], **cost}
        return {
            "kits": asked.kits,
            "measure": "in",
            "projects": projects,
            **empty,
            "cost": cost,
            "proved": True,
        }


@pytest.fixture
def reckoner(studio):
    """The studio's desk with a reckoner that does no reckoning."""
    made = Reckoner()
    install(studio, made)
    return made


def install(studio, plan, **more):
    wiring = replace(studio.app.extensions[NAME], shopping=ShoppingDesk(plan, **more))
    studio.app.extensions[NAME] = wiring


def test_a_project_is_reckoned_for_so_many_kits(studio):
    """Both of the studio see the same; cloths of patches, of the piece, and what one and ten kits take."""
    project = studio.add()
    answer = studio.assistant.get(f"/api/v1/projects/{project}/shopping?kits=10")
    assert answer.status_code == 200
    assert answer.json == studio.maker.get(f"/api/v1/projects/{project}/shopping?kits=10").json
    assert [cloth["name"] for cloth in answer.json["cloths"]] == ["cream weave", "rhubarb red"]
    for cloth in answer.json["cloths"]:
        one, ten = cloth["one_kit"]["buy"]["inches"], cloth["at_once"]["buy"]["inches"]
        assert one <= ten <= 10 * one == cloth["apart"]["buy"]["inches"]
    assert (answer.json["series"], answer.json["kits"], answer.json["measure"]) == (None, 10, "in")


def test_a_series_is_reckoned_whole_or_for_a_month(studio, series, reckoner):
    """In the order of release; one kit where nothing is said; the outlines go along."""
    id_, (february, january) = series
    whole = studio.maker.get(f"/api/v1/series/{id_}/shopping")
    assert [project["id"] for project in whole.json["projects"]] == [january, february]
    assert (whole.json["series"], whole.json["release"], whole.json["kits"]) == (id_, None, 1)
    month = studio.maker.get(f"/api/v1/series/{id_}/shopping?release=2027-02-19&kits=3")
    assert [project["id"] for project in month.json["projects"]] == [february]
    assert (month.json["release"], month.json["kits"]) == ("2027-02-19", 3)
    assert [sorted(p.outlines) for p in reckoner.asked[0].projects] == [["leaf.svg"], ["leaf.svg"]]


def test_a_series_without_projects_has_an_empty_list(studio):
    """Nothing to buy is an answer; it is reckoned in earnest."""
    id_ = studio.maker.post("/api/v1/series", json={"title": "Next year"}).json["id"]
    answer = studio.maker.get(f"/api/v1/series/{id_}/shopping")
    assert (answer.status_code, answer.json["cloths"], answer.json["proved"]) == (200, [], True)


def test_what_is_not_there_is_said(studio, series):
    """404 for a project, a series, and a date on which nothing of the series comes out, with the dates there are."""
    assert studio.maker.get("/api/v1/projects/none/shopping").status_code == 404
    assert studio.maker.get("/api/v1/series/none/shopping").status_code == 404
    answer = studio.maker.get(f"/api/v1/series/{series[0]}/shopping?release=2027-03-19")
    assert answer.status_code == 404
    [error] = answer.json["errors"]
    assert (error["parameter"], error["right"]) == (
        "release",
        "a date of its projects: 2027-01-20, 2027-02-19",
    )


@pytest.mark.parametrize("kits", ["0", "-1", "10001", "2.5", "two", "", "1e3"])
def test_kits_are_a_whole_number_from_1_to_10000(studio, reckoner, kits):
    """Anything else is 422, with what would be right."""
    project = studio.add()
    answer = studio.maker.get(f"/api/v1/projects/{project}/shopping?kits={kits}")
    assert answer.status_code == 422
    [error] = answer.json["errors"]
    assert (error["parameter"], error["right"]) == ("kits", "a whole number from 1 to 10000")
    assert reckoner.asked == []


@pytest.mark.parametrize(
    ("query", "parameter"),
    [("format=pdf", "format"), ("release=20.1.2027", "release"), ("release=2027-02-30", "release")],
)
def test_other_faults_in_the_query_are_said(studio, series, query, parameter):
    """422 names the parameter and what would be right."""
    answer = studio.maker.get(f"/api/v1/series/{series[0]}/shopping?{query}")
    assert answer.status_code == 422
    [error] = answer.json["errors"]
    assert error["parameter"] == parameter
    assert error["right"]


def test_a_list_holds_so_many_projects(studio, series, monkeypatch):
    """A series of more is listed release by release."""
    monkeypatch.setattr("service.api.shopping.MOST_PROJECTS", 1)
    answer = studio.maker.get(f"/api/v1/series/{series[0]}/shopping")
    assert (answer.status_code, answer.json["errors"][0]["parameter"]) == (422, "release")
    one = studio.maker.get(f"/api/v1/series/{series[0]}/shopping?release=2027-01-20")
    assert one.status_code == 200


def test_the_most_kits_are_reckoned(studio):
    """Ten thousand kits, in one go and in time."""
    project = studio.add()
    answer = studio.maker.get(f"/api/v1/projects/{project}/shopping?kits=10000")
    assert answer.status_code == 200
    assert all(cloth["at_once"]["length"]["inches"] > 10_000 for cloth in answer.json["cloths"])


def test_a_project_that_cannot_be_cut_is_422_with_the_place(studio):
    """Triangles wider than their cloth: the project, the pointer into its document, what would be right."""
    triangles = {"unit": "half-square triangle", "size": ["60", "60"], "fabrics": ["cream", "cream"]}
    top = {"unit": "grid", "rows": [[triangles]]}
    project = studio.add(top=top, pieces=None, sources=None)
    answer = studio.maker.get(f"/api/v1/projects/{project}/shopping")
    assert answer.status_code == 422
    [error] = answer.json["errors"]
    assert (error["project"], error["pointer"]) == (project, "/top/rows/0/0")
    assert "cloth" in error["right"]


def test_every_fault_of_every_project_is_said_at_once(studio, reckoner):
    """As what reckons says them, each with its project."""
    project = studio.add()
    faults = [
        ("p", Fault("/top", "too wide", "wider cloth")),
        ("q", Fault("/fabrics", "no cloth", "a cloth")),
    ]
    reckoner.answer = CannotShop(faults)
    answer = studio.maker.get(f"/api/v1/projects/{project}/shopping")
    assert (answer.status_code, answer.json["detail"]) == (422, "There are 2 faults.")
    assert [(e["project"], e["pointer"]) for e in answer.json["errors"]] == [("p", "/top"), ("q", "/fabrics")]


def test_an_unchanged_list_is_304_and_a_changed_one_is_not(studio):
    """By the sum of its bytes; another form has another one."""
    project = studio.add()
    path = f"/api/v1/projects/{project}/shopping"
    first = studio.maker.get(path)
    tag = first.headers["ETag"]
    again = studio.maker.get(path, headers={"If-None-Match": tag})
    assert (again.status_code, again.data, again.headers["ETag"]) == (304, b"", tag)
    assert "Accept" in first.headers["Vary"]
    table = studio.maker.get(path, headers={"If-None-Match": tag, **TABLE})
    assert (table.status_code, table.headers["ETag"] != tag) == (200, True)
    kept = studio.maker.get(f"/api/v1/projects/{project}")
    changed = studio.maker.patch(
        f"/api/v1/projects/{project}",
        json={"finish": {"binding": {"fabric": "stalk"}}},
        headers={"If-Match": kept.headers["ETag"]},
    )
    assert changed.status_code == 200
    assert studio.maker.get(path, headers={"If-None-Match": tag}).status_code == 200


def test_a_list_is_reckoned_once_while_its_documents_stand(studio, reckoner):
    """Asked twice, in two forms, it is reckoned once; with other kits, another outline or another document anew."""
    project = studio.add()
    path = f"/api/v1/projects/{project}/shopping"
    for query in ("", "?format=csv", "?kits=1"):
        assert studio.maker.get(path + query).status_code == 200
    assert len(reckoner.asked) == 1
    studio.maker.get(f"{path}?kits=2")
    assert len(reckoner.asked) == 2
    studio.upload(project, b'<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9">'
                           b'<rect id="leaf" width="8" height="8"/></svg>')  # fmt: skip
    studio.maker.get(path)
    assert len(reckoner.asked) == 3
    tag = studio.maker.get(f"/api/v1/projects/{project}").headers["ETag"]
    studio.maker.patch(f"/api/v1/projects/{project}", json={"summary": "x"}, headers={"If-Match": tag})
    studio.maker.get(path)
    assert len(reckoner.asked) == 4


@pytest.mark.parametrize(
    ("accept", "media_type"),
    [
        (None, "application/json"),
        ("*/*", "application/json"),
        ("text/csv", "text/csv"),
        ("application/json;q=0.5, text/csv", "text/csv"),
        ("text/csv;q=0.5, application/json", "application/json"),
        ("text/html", "application/json"),
    ],
)
def test_the_form_is_what_is_accepted(studio, reckoner, accept, media_type):
    """The better liked of the two, JSON where neither is named; and the query goes before."""
    project = studio.add()
    headers = {} if accept is None else {"Accept": accept}
    path = f"/api/v1/projects/{project}/shopping"
    assert studio.maker.get(path, headers=headers).mimetype == media_type
    assert studio.maker.get(f"{path}?format=csv", headers=headers).mimetype == "text/csv"
    assert studio.maker.get(f"{path}?format=json", headers=headers).mimetype == "application/json"


def test_the_table_says_what_the_list_says(studio):
    """Read back with the csv module: a row a cloth with lengths in words and numbers, then thread and sums."""
    cloth = {"name": "cream; \"weave\", ½", "colour": "#f3ead2", "usable_width": "42",
             "price_per_length": {"amount": 9, "per": "36"}}  # fmt: skip
    fabrics = {"cream": cloth, "stalk": {"name": "=HYPERLINK(1)", "colour": "#b23a48"}}
    project = studio.add(title="@SUM Mat", fabrics=fabrics)
    path = f"/api/v1/projects/{project}/shopping?kits=4"
    found = studio.maker.get(path).json
    table = studio.maker.get(path, headers=TABLE)
    assert table.headers["Content-Type"] == "text/csv; charset=utf-8"
    assert table.headers["Content-Disposition"] == "attachment; filename=shopping-sum-mat-4.csv"
    assert table.data.count(b"\r\n") == table.data.count(b"\n") == table.text.count("\n")
    rows = list(csv.DictReader(io.StringIO(table.text, newline="")))
    cloths = [row for row in rows if row["item"] == "cloth"]
    assert [row["name"] for row in cloths] == ['cream; "weave", ½', "'=HYPERLINK(1)"]
    for row, said in zip(cloths, found["cloths"], strict=True):
        assert (row["kits"], row["projects"]) == ("4", "'@SUM Mat")
        assert row["at_once"] == said["at_once"]["buy"]["text"]
        assert float(row["at_once_in"]) == said["at_once"]["buy"]["inches"]
        assert float(row["saved_in"]) == said["saved"]["in_all"]["buy"]["inches"]
    assert (
        float(cloths[0]["cost_at_once"]) == found["cloths"][0]["at_once"]["cost"] == found["cost"]["at_once"]
    )
    assert cloths[1]["cost_at_once"] == "price unknown"
    [thread] = [row for row in rows if row["item"] == "thread"]
    assert (thread["name"], float(thread["metres_kits"])) == (
        "white",
        found["threads"][0]["kits_about_metres"],
    )
    assert (rows[-1]["item"], float(rows[-1]["cost_at_once"])) == ("total", found["cost"]["at_once"])
    assert "=HYPERLINK(1)" in rows[-1]["notes"]
    assert all(not cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row.values())


def test_a_title_in_any_script_names_the_table(studio, reckoner):
    """Encoded as RFC 8187 has it."""
    project = studio.add(title="豆の苗")
    answer = studio.maker.get(f"/api/v1/projects/{project}/shopping", headers=TABLE)
    said = parse_options_header(answer.headers["Content-Disposition"])
    assert said == ("attachment", {"filename": "shopping-豆の苗-1.csv"})


def test_what_is_sold_in_pieces_is_counted_in_the_table(studio):
    """The numbers of pieces and what they cost, the cloth having no price by the length; the piece is named."""
    fabrics = {
        "cream": {"name": "cream weave", "colour": "#f3ead2", "sold_as": {"name": "fat quarter", "price": 4}},
        "stalk": {"name": "rhubarb red", "colour": "#b23a48"},
    }
    project = studio.add(fabrics=fabrics)
    path = f"/api/v1/projects/{project}/shopping?kits=8"
    sold = studio.maker.get(path).json["cloths"][0]["in_pieces"]
    rows = list(csv.DictReader(io.StringIO(studio.maker.get(path, headers=TABLE).text, newline="")))
    assert (rows[0]["pieces_one_kit"], rows[0]["pieces_kits"]) == ("1", str(sold["at_once"]["count"]))
    assert rows[0]["cost_at_once"] == f"{4 * sold['at_once']['count']:.2f}" == rows[-1]["cost_at_once"]
    assert rows[0]["notes"].startswith("pieces: fat quarter, 21 in x 18 in")
    assert (rows[1]["pieces_kits"], rows[1]["cost_at_once"]) == ("", "price unknown")


def test_a_metric_table_has_metric_numbers(studio):
    """The columns of numbers are named for the measure; lengths in mm and cm."""
    for measure, per_inch in (("mm", 25.4), ("cm", 2.54)):
        project = studio.add(
            measure=measure, title=f"In {measure}", pieces=None, sources=None, seam_allowance=None
        )
        path = f"/api/v1/projects/{project}/shopping"
        found = studio.maker.get(path).json["cloths"][0]["at_once"]["buy"]
        row = next(csv.DictReader(io.StringIO(studio.maker.get(path, headers=TABLE).text)))
        assert float(row[f"at_once_{measure}"]) == pytest.approx(found["inches"] * per_inch, abs=1e-4)
        assert row["at_once"] == found["text"]


@pytest.mark.parametrize("begins", ["=", "+", "-", "@", "\t", "\r"])
def test_no_cell_is_taken_for_a_formula(begins):
    """What spreadsheets take for one (OWASP, CSV Injection) has an apostrophe before it; numbers stay numbers."""
    assert guard_cell(f"{begins}1") == f"'{begins}1"
    assert guard_cell(f"leek {begins}1") == f"leek {begins}1"
    assert guard_cell(-1.5) == -1.5


def test_a_table_of_nothing_has_its_header():
    """An empty list is one line of names and one of sums."""
    empty = Reckoner()(Asked())
    lines = write_csv(empty).decode().split("\r\n")
    assert lines[0].startswith("item,name,colour,projects,kits,usable_width,one_kit,one_kit_in,")
    assert (len(lines), lines[1].startswith("total,"), lines[2]) == (3, True, "")


class Asked:
    projects, kits = (), 1


def test_lists_wait_for_each_other_and_busy_is_503(studio, monkeypatch):
    """While one is reckoned, another is told when to ask again; the first is answered all the same."""
    begun, go_on = threading.Event(), threading.Event()

    def slow(asked):
        begun.set()
        assert go_on.wait(20)
        return Reckoner()(asked)

    install(studio, slow)
    monkeypatch.setattr(desks, "WAIT_SECONDS", 0.05)
    project = studio.add()
    path = f"/api/v1/projects/{project}/shopping"
    answers = []
    first = threading.Thread(target=lambda: answers.append(studio.client(studio.maker.key).get(path)))
    first.start()
    assert begun.wait(20)
    second = studio.assistant.get(f"{path}?kits=2")
    assert (second.status_code, second.headers["Retry-After"]) == (503, "5")
    go_on.set()
    first.join(20)
    assert answers[0].status_code == 200


def test_a_list_is_told_how_much_time_is_left():
    """By the clock of the desk, from the moment its turn has come."""
    now = [100.0]
    seen = []

    def plan(asked):
        seen.append(asked.seconds_left())
        now[0] += 7
        seen.append(asked.seconds_left())
        return {}

    ShoppingDesk(plan, clock=lambda: now[0]).list_for([ShoppingProject("p", "P", {})], 1)
    assert seen == [desks.SECONDS, desks.SECONDS - 7]


def test_a_list_for_which_time_ran_out_is_kept_for_a_while():
    """It is answered again, and after ten minutes reckoned anew; one that came in time stays."""
    now, slow, made = [0.0], [desks.SECONDS], []

    def plan(asked):
        made.append(asked.kits)
        now[0] += slow[0]
        return {"kits": asked.kits}

    desk = ShoppingDesk(plan, clock=lambda: now[0])
    for wait in (0.0, desks.HURRIED_KEPT_SECONDS - 1, 1.0):
        now[0] += wait
        assert desk.list_for([], 1) == {"kits": 1}
    assert made == [1, 1]
    slow[0] = desks.SECONDS - 1
    for wait in (0.0, 10 * desks.HURRIED_KEPT_SECONDS):
        now[0] += wait
        desk.list_for([], 2)
    assert made == [1, 1, 2]


def test_only_so_many_lists_are_kept(monkeypatch):
    """The one asked for longest ago goes first."""
    monkeypatch.setattr(desks, "KEPT", 2)
    made = []
    desk = ShoppingDesk(lambda asked: made.append(asked.kits) or {"kits": asked.kits})
    for kits in (1, 2, 1, 3, 1, 2):
        assert desk.list_for([], kits) == {"kits": kits}
    assert made == [1, 2, 3, 2]


def test_without_anything_that_reckons_it_is_501(studio, reckoner):
    """An installation without the computing rooms says so."""
    project = studio.add()
    reckoner.answer = NotHere()
    answer = studio.maker.get(f"/api/v1/projects/{project}/shopping")
    assert (answer.status_code, "reckons" in answer.json["detail"]) == (501, True)
