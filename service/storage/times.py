"""Time and identity: clocks that are handed in, columns that keep UTC, ids that sort by age."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from datetime import UTC, datetime
from uuid import UUID

from sqlalchemy import DateTime
from sqlalchemy.engine import Dialect
from sqlalchemy.types import TypeDecorator

Clock = Callable[[], datetime]
"""Answers the present moment in UTC. Use cases are given one, so that a test can set the time."""


def utc_now() -> datetime:
    """The real clock; wired in where processes start, never called by a use case."""
    return datetime.now(UTC)


class UtcDateTime(TypeDecorator[datetime]):
    """A moment in UTC. One without a zone is refused: it would be off by the machine's own zone."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """To the database, as UTC."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"{value} has no time zone; times are kept in UTC")
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """From the database; SQLite keeps no zone, so UTC is put back."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


def uuid7(now: datetime, random_bits: Callable[[int], int] = secrets.randbits) -> str:
    """An id of RFC 9562 section 5.7: 48 bits of milliseconds, then chance, so ids sort by age.

    The example of RFC 9562 appendix A.6 (2022-02-22 14:22:22 in New York), from memory of its digits:

    >>> moment = datetime(2022, 2, 22, 19, 22, 22, tzinfo=UTC)
    >>> uuid7(moment, {12: 0xCC3, 62: 0x18C4DC0C0C07398F}.__getitem__)
    '017f22e2-79b0-7cc3-98c4-dc0c0c07398f'
    """
    milliseconds = int(now.timestamp() * 1000) & (2**48 - 1)
    value = milliseconds << 80 | 0x7 << 76 | random_bits(12) << 64 | 0b10 << 62 | random_bits(62)
    return str(UUID(int=value))
