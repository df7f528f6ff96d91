"""The demo months are complete on every track, in English and in Dutch."""

from tests.completeness.conftest import IN_DUTCH, load, look_at, make_files
from workers.completeness import check_track


def test_nothing_is_missing_on_any_track_of_any_demo_month(month, track):
    assert [str(finding) for finding in check_track(look_at(month, track, make_files(month, track)))] == []


def test_nothing_is_missing_where_the_viewers_of_a_month_read_another_language(track):
    month = f"2027-03-rhubarb-cushion{IN_DUTCH}"
    assert [str(finding) for finding in check_track(look_at(month, track, make_files(month, track)))] == []


def test_each_demo_month_has_the_four_kinds_of_track(month):
    """Hoop and cutter, hoop alone, cutter alone, neither."""
    has = [{item.split()[0] for item in track["has"]} for track in load(month)[0]["tracks"]]
    assert has == [{"hoop", "cutter"}, {"hoop"}, {"cutter"}, set()]
