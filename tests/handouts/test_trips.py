"""The list of trips in the handout."""

from __future__ import annotations

from workers.handouts.trips import Trip, list_trips

SEWING = {
    "stages": [{"id": "a", "title": "Half-square triangles"}, {"id": "b", "title": "Row 1 of tray"}],
    "trips": {
        "count": 4,
        "least_proved": True,
        "visits": [
            {"at": "mat", "stages": ["cutting"]},
            {"at": "machine", "stages": ["a"]},
            {"at": "iron", "stages": ["a"]},
            {"at": "machine", "stages": ["b"]},
        ],
    },
}


def test_visits_with_the_same_work_share_a_line() -> None:
    """Four trips on three lines; the first is where everything is cut."""
    listed = list_trips(SEWING)
    assert listed is not None
    assert listed.trips == (
        Trip("1", "Mat", ("Cut all patches",)),
        Trip("2–3", "Machine, iron", ("Half-square triangles",)),
        Trip("4", "Machine", ("Row 1 of tray",)),
    )
    assert listed.words.startswith("The whole top takes 4 trips")
    assert "No order of the work takes fewer" in listed.words


def test_what_is_not_proved_is_not_said() -> None:
    """Without a proof nothing is said about other orders; without visits there is no list."""
    unproved = list_trips(SEWING | {"trips": SEWING["trips"] | {"least_proved": False}})  # type: ignore[operator]
    assert unproved is not None
    assert "fewer" not in unproved.words
    assert list_trips({"stages": []}) is None
