import json

import numpy as np
import pytest

from tests.stitches.independent_reader import read
from workers.stitches.check import check_hooping
from workers.stitches.report import build_report, format_report


@pytest.fixture
def report(write, settings):
    def make(name, edge="satin"):
        checked, data = write(name, edge)
        built = build_report(
            checked.hooping, checked.reading, checked.ranges, check_hooping(checked), [], settings
        )
        return json.loads(format_report(built)), read(data)

    return make


def test_the_report_has_the_fields_of_the_project_document(report):
    made, _ = report("square")
    assert {
        "field_mm", "extents_mm", "stitches", "stops", "trims", "colours", "minutes", "passes", "checks", "released",
    } <= set(made)  # fmt: skip
    assert set(made["colours"][0]) == {"name", "colour", "top_m", "bobbin_m"}
    assert all({"kind", "piece", "from", "to"} == set(p) for p in made["passes"])
    assert all({"name", "ok", "where", "value"} <= set(c) for c in made["checks"])


@pytest.mark.parametrize("name", ["square", "ring", "leek", "tiny"])
def test_counts_and_extents_are_those_of_the_file(report, name):
    made, sewn = report(name)
    stitches = [i for i, event in enumerate(sewn.events) if event[0] == "stitch"]
    touched = np.array([sewn.places[i + 1] for i in stitches] + [sewn.places[i] for i in stitches]) / 10
    assert made["stitches"] == len(stitches)
    assert made["stops"] == sewn.count("stop") == len(made["at_stops"])
    assert made["extents_mm"] == pytest.approx(np.ptp(touched, axis=0).tolist())


def test_thread_is_the_way_on_the_cloth_and_six_tenths_down_and_up_a_stitch(report):
    made, sewn = report("square")
    way = sum(np.hypot(dx, dy) / 10 + 0.6 for kind, dx, dy, _, _ in sewn.events if kind == "stitch")
    assert made["colours"][0]["top_m"] == pytest.approx(way / 1000, abs=0.005)


def test_minutes_are_at_the_stated_speed(report):
    """250 stitches at 600 a minute take 25 s (derived)."""
    made, _ = report("leek")
    assert made["stitches_a_minute"] == 600
    assert made["minutes"] == pytest.approx(made["stitches"] / 600, abs=0.05)


@pytest.mark.parametrize("name", ["square", "ring"])
def test_passes_name_their_first_and_last_record_and_take_in_every_stitch(report, name):
    made, sewn = report(name)
    claimed = [i for p in made["passes"] for i in range(p["from"], p["to"] + 1)]
    assert claimed == [i for i, event in enumerate(sewn.events) if event[0] == "stitch"]


def test_the_report_warns_of_the_needle_where_cloth_is_laid_and_trimmed(report):
    assert "needle stands still" in report("square")[0]["caution"]


def test_the_stops_stand_at_their_records_with_what_to_do(report):
    made, sewn = report("square")
    for stop in made["at_stops"]:
        assert sewn.events[stop["record"]][0] == "stop"
    assert "lay the square" in made["at_stops"][0]["do"] and "trim" in made["at_stops"][1]["do"]
