"""What the public may see: one rule, asked by everything that answers without a key.

A project is out from the first moment of its release date, in the time zone of its series, or the studio's
where the series has none. Only the server's clock counts.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

from sqlalchemy.orm import Session

from service.storage.models import Project, Series
from service.studio.keys import Caller


def comes_at(release: date, zone: ZoneInfo) -> datetime:
    """The first moment of a release date, in UTC. Where clocks skip midnight, the moment they do so.

    >>> comes_at(date(2027, 1, 20), ZoneInfo("Europe/Berlin")).isoformat()
    '2027-01-19T23:00:00+00:00'
    """
    return datetime.combine(release, time.min, tzinfo=zone).astimezone(UTC)


def has_come(release: date, zone: ZoneInfo, now: datetime) -> bool:
    """Whether the date has begun. Compared as moments: a clock set back over midnight hides nothing again."""
    return now >= comes_at(release, zone)


def zone_of(session: Session, project: Project, studio_zone: ZoneInfo) -> ZoneInfo:
    """The time zone in which a project's release date begins."""
    series = session.get(Series, project.series_id) if project.series_id else None
    own = series.release.get("timezone") if series is not None else None
    return ZoneInfo(own) if own else studio_zone


def visible(
    session: Session, project: Project | None, caller: Caller | None, *, now: datetime, studio_zone: ZoneInfo
) -> bool:
    """Whether whoever asks may know of a project: the studio always, the public once its date has come."""
    if project is None:
        return False
    if caller is not None:
        return True
    if project.release is None:
        return False
    return has_come(project.release, zone_of(session, project, studio_zone), now)


def seconds_to_next(
    session: Session, projects: Iterable[Project], *, now: datetime, studio_zone: ZoneInfo
) -> int | None:
    """Whole seconds, rounded down, until the next of these projects comes out; None when all are out."""
    waits = [
        (comes_at(project.release, zone_of(session, project, studio_zone)) - now).total_seconds()
        for project in projects
        if project.release is not None
        and not has_come(project.release, zone_of(session, project, studio_zone), now)
    ]
    return max(0, int(min(waits))) if waits else None
