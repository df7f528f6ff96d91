"""Answers a repeated request as the first one was answered (draft-ietf-httpapi-idempotency-key-header-07)."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import delete, update
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from service.storage.models import Idempotency

KEPT = timedelta(days=7)


class KeyReused(ValueError):
    """The key came before with another request (an answer of 422 by the draft)."""

    def __init__(self, key: str) -> None:
        super().__init__(f"the Idempotency-Key {key!r} was used for another request; take a new key")
        self.key = key


@dataclass(frozen=True)
class Answered:
    """The answer that the first request got."""

    status: int
    body: dict[str, Any]


def recall_or_reserve(
    session: Session, *, token_id: str, key: str, request_hash: str, now: datetime
) -> Answered | None:
    """The earlier answer under this key; None when the request is new, and then the key is taken.

    Call it first in the transaction that does the work and ends with `remember`: a second request with
    the same key waits for that transaction and then gets its answer.
    """
    session.execute(delete(Idempotency).where(Idempotency.created_at < now - KEPT))
    insert = sqlite.insert if session.get_bind().dialect.name == "sqlite" else postgresql.insert
    values = {"token_id": token_id, "key": key, "request_hash": request_hash, "created_at": now}
    taken = session.execute(
        insert(Idempotency).values(values).on_conflict_do_nothing().returning(Idempotency.key)
    ).one_or_none()
    if taken is not None:
        return None
    found = session.get_one(Idempotency, (token_id, key), populate_existing=True)
    if found.request_hash != request_hash:
        raise KeyReused(key)
    return Answered(found.status or 200, found.body or {})


def remember(session: Session, *, token_id: str, key: str, status: int, body: dict[str, Any]) -> None:
    """Keep the answer for repeats of the request."""
    session.execute(
        update(Idempotency)
        .where(Idempotency.token_id == token_id, Idempotency.key == key)
        .values(status=status, body=body)
        .execution_options(synchronize_session=False)
    )
