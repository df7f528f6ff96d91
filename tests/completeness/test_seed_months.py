"""The demo months are complete on every track."""

from tests.completeness.conftest import load, look_at, make_files
from workers.completeness import check_track


def test_nothing_is_missing_on_any_track_of_any_demo_month(month, track):
    assert [str(finding) for finding in check_track(look_at(month, track, make_files(month, track)))] == []


def test_each_demo_month_has_the_four_kinds_of_track(month):
    """Hoop and cutter, hoop alone, cutter alone, neither."""
    has = [{item.split()[0] for item in track["has"]} for track in load(month)[0]["tracks"]]
    assert has == [{"hoop", "cutter"}, {"hoop"}, {"cutter"}, set()]
