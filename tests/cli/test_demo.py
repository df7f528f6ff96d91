"""What the demo reads before it starts anything."""

import json

import pytest

from service.cli.client import Refused
from service.cli.demo import read_seed, read_series


def test_a_seed_folder_is_read_month_by_month(tmp_path):
    """In the order of the folders' names, each with its own drawings; the series by its file or its folder."""
    for month in ("02-beans", "01-leeks"):
        (tmp_path / month).mkdir()
        (tmp_path / month / "project.json").write_text(json.dumps({"title": month, "release": "2027-01-20"}))
        (tmp_path / month / f"{month}.svg").write_text("<svg/>")
    plan = read_seed(tmp_path)
    assert [(m.name, [o.name for o in m.outlines]) for m in plan] == [
        ("01-leeks", ["01-leeks.svg"]),
        ("02-beans", ["02-beans.svg"]),
    ]
    assert read_series(tmp_path) == {"title": tmp_path.name}
    (tmp_path / "series.json").write_text('{"title": "Year", "rule": "the 20th"}')
    assert read_series(tmp_path)["rule"] == "the 20th"


def test_a_seed_folder_that_is_none_says_what_is_missing(tmp_path):
    """No project; or a project without its date."""
    with pytest.raises(Refused, match="holds no project"):
        read_seed(tmp_path)
    (tmp_path / "01").mkdir()
    (tmp_path / "01" / "project.json").write_text('{"title": "x"}')
    with pytest.raises(Refused, match="01"):
        read_seed(tmp_path)
