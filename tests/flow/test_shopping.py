"""A year's shopping over real HTTP: the demo series in a real server, its list in both forms."""

import csv
import io
import json
import signal
from pathlib import Path

import pytest

from tests.flow.test_stories import client, start_service

pytestmark = [pytest.mark.slow, pytest.mark.timeout(280)]

SEED = Path(__file__).parents[2] / "seed_data"
KITS = 12


@pytest.fixture(scope="module")
def year(tmp_path_factory):
    """The demo series in a service of its own: a client of the maker's, the series, how many projects it has."""
    data = tmp_path_factory.mktemp("year") / "data"
    process, url = start_service(data)
    try:
        with client(url, (data / "maker.token").read_text().strip()) as maker:
            series = maker.post("/api/v1/series", json={"title": "A year in the allotment"}).json()["id"]
            files = sorted(SEED.glob("*/project.json"))
            for file in files:
                document = {**json.loads(file.read_text(encoding="utf-8")), "series": series}
                project = maker.post("/api/v1/projects", json=document).json()["id"]
                for outline in file.parent.glob("*.svg"):
                    sent = {"file": (outline.name, outline.read_bytes())}
                    assert maker.post(f"/api/v1/projects/{project}/outlines", files=sent).status_code == 201
            yield maker, series, len(files)
    finally:
        process.send_signal(signal.SIGTERM)
        process.wait(60)


@pytest.fixture(scope="module")
def answer(year):
    """Twelve kits of everything."""
    maker, series, _ = year
    found = maker.get(f"/api/v1/series/{series}/shopping", params={"kits": KITS})
    assert found.status_code == 200, found.text
    return found


def test_the_whole_year_is_on_the_list(year, answer):
    """Every project in the order of its release, and every cloth at most what its kits take apart."""
    found = answer.json()
    releases = [project["release"] for project in found["projects"]]
    assert (len(releases), releases) == (year[2], sorted(releases))
    assert len({(cloth["name"], cloth["colour"]) for cloth in found["cloths"]}) == len(found["cloths"])
    for cloth in found["cloths"]:
        buys = [cloth[way]["buy"]["inches"] for way in ("apart", "by_project", "at_once")]
        assert buys == sorted(buys, reverse=True)
        assert buys[0] == pytest.approx(KITS * cloth["one_kit"]["buy"]["inches"], abs=1e-3)


def test_a_cloth_of_several_months_is_cheaper_at_once(answer):
    """At least one cloth of the series is used in more than one month, and takes less when bought at once."""
    shared = [cloth for cloth in answer.json()["cloths"] if len(cloth["projects"]) > 1]
    assert any(cloth["saved"]["projects_together"]["buy"]["inches"] > 0 for cloth in shared)


def test_a_month_is_a_part_of_the_year(year, answer):
    """The list of one release says of each project what the year's list says."""
    maker, series, _ = year
    first = answer.json()["projects"][0]
    month = maker.get(
        f"/api/v1/series/{series}/shopping", params={"kits": KITS, "release": first["release"]}
    ).json()
    assert month["projects"] == [first]
    of_year = {
        cloth["name"]: share["kits"]
        for cloth in answer.json()["cloths"]
        for share in cloth["projects"]
        if share["project"] == first["id"] and not cloth["notes"]
    }
    of_month = {cloth["name"]: cloth["projects"][0]["kits"] for cloth in month["cloths"]}
    assert set(of_year) <= set(of_month)
    proved = {name for name in of_year if of_year[name]["proved"] and of_month[name]["proved"]}
    assert proved
    assert all(of_year[name] == of_month[name] for name in proved)


def test_the_table_is_the_same_list(year, answer):
    """A row a cloth, its numbers those of the JSON; unchanged, it is 304."""
    maker, series, _ = year
    path = f"/api/v1/series/{series}/shopping"
    table = maker.get(path, params={"kits": KITS}, headers={"Accept": "text/csv"})
    rows = [row for row in csv.DictReader(io.StringIO(table.text, newline="")) if row["item"] == "cloth"]
    cloths = answer.json()["cloths"]
    assert [float(row["at_once_in"]) for row in rows] == [
        cloth["at_once"]["buy"]["inches"] for cloth in cloths
    ]
    again = maker.get(path, params={"kits": KITS}, headers={"If-None-Match": answer.headers["ETag"]})
    assert again.status_code == 304


def test_strangers_see_no_list(year):
    """Prices and what is not out yet are the studio's."""
    maker, series, _ = year
    with client(str(maker.base_url)) as stranger:
        assert stranger.get(f"/api/v1/series/{series}/shopping").status_code == 401
