"""When a release is out: held against the IANA time zone database, moment by moment."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.studio.embargo import comes_at, has_come

ZONES = st.sampled_from(
    ["UTC", "Europe/London", "America/New_York", "Pacific/Auckland", "Pacific/Apia", "America/St_Johns",
     "Asia/Beirut", "America/Havana", "Africa/Cairo", "Pacific/Kiritimati"]
)  # fmt: skip
DATES = st.dates(date(2000, 1, 1), date(2037, 12, 31))


@given(ZONES, DATES, st.integers(-200_000, 200_000))
def test_once_out_it_stays_out_and_never_comes_early(zone, on, seconds):
    """Out exactly from its first moment on; while it is not out, no clock on a wall there shows the day yet.

    The wall is asked with the zone's own rules, for the moment in question.
    """
    place = ZoneInfo(zone)
    now = comes_at(on, place).astimezone(UTC) + timedelta(seconds=seconds)
    assert has_come(on, place, now) == (seconds >= 0)
    if seconds < -7200:
        assert now.astimezone(place).date() < on


@pytest.mark.parametrize(
    ("zone", "on", "first"),
    [
        # In winter New York is five hours behind UTC, in summer four; Kiritimati is fourteen ahead.
        ("America/New_York", date(2027, 1, 20), datetime(2027, 1, 20, 5, tzinfo=UTC)),
        ("America/New_York", date(2027, 7, 20), datetime(2027, 7, 20, 4, tzinfo=UTC)),
        ("Pacific/Kiritimati", date(2027, 1, 20), datetime(2027, 1, 19, 10, tzinfo=UTC)),
        # Clocks in Beirut went from 23:59 to 1:00 in the night to 27 March 2022: the day began at 1:00.
        ("Asia/Beirut", date(2022, 3, 27), datetime(2022, 3, 26, 22, tzinfo=UTC)),
    ],
)
def test_the_first_moment_of_a_day(zone, on, first):
    """Offsets as the IANA time zone database has them."""
    assert comes_at(on, ZoneInfo(zone)) == first
    assert has_come(on, ZoneInfo(zone), first)
    assert not has_come(on, ZoneInfo(zone), first - timedelta(microseconds=1))
