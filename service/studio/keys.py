"""Keys to the API: made from chance, shown once, kept only as the sha256 of their secret."""

from __future__ import annotations

import hashlib
import hmac
import os
import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from sqlalchemy import or_, select, update
from sqlalchemy.orm import Session

from service.storage.models import Role, Token
from service.storage.session import Database
from service.storage.times import uuid7

PREFIX = "bee_"
SECRET_BYTES = 32
SHORTEST_SECRET = 20
"""Of a secret that the studio fixes itself; what we make has 43 characters behind the prefix."""
KEY_FILE = "maker.token"
NOTED_EVERY = timedelta(minutes=5)
"""How exactly the last use is kept: a write for every request would make readers wait."""


@dataclass(frozen=True)
class Caller:
    """Who a request speaks for."""

    token_id: str
    name: str
    role: Role

    @property
    def is_maker(self) -> bool:
        """Whether everything is allowed."""
        return self.role == Role.MAKER


def make_secret(chance: Callable[[int], str] = secrets.token_urlsafe) -> str:
    """A new secret: our prefix and 32 bytes of chance."""
    return PREFIX + chance(SECRET_BYTES)


def hash_secret(secret: str) -> str:
    """What is kept of a secret. It is long and random, so a plain sha256 cannot be turned back by guessing."""
    return hashlib.sha256(secret.encode("utf-8", "replace")).hexdigest()


def add_token(
    session: Session,
    *,
    name: str,
    role: Role,
    secret: str,
    now: datetime,
    expires: datetime | None = None,
) -> Token:
    """Keep a new key; the caller shows the secret, which cannot be asked for again."""
    token = Token(
        id=uuid7(now), name=name, role=role, sha256=hash_secret(secret), created_at=now, expires_at=expires
    )
    session.add(token)
    session.flush()
    return token


def find_caller(database: Database, secret: str, *, now: datetime) -> Caller | None:
    """Who holds this secret; None for an unknown, expired or revoked one."""
    if not secret.startswith(PREFIX):
        return None
    hashed = hash_secret(secret)
    with database.reading() as session:
        token = session.scalar(select(Token).where(Token.sha256 == hashed))
    if token is None or not hmac.compare_digest(token.sha256, hashed) or not _is_good(token, now):
        return None
    if token.last_used_at is None or now - token.last_used_at > NOTED_EVERY:
        _note_use(database, token.id, now)
    return Caller(token.id, token.name, Role(token.role))


def revoke(session: Session, token_id: str, *, now: datetime) -> bool:
    """Make a key worthless; False where there is no such key (any more)."""
    query = update(Token).where(Token.id == token_id, Token.revoked_at.is_(None)).values(revoked_at=now)
    return session.scalar(query.returning(Token.id)) is not None


def ensure_maker_token(
    database: Database,
    folder: Path,
    *,
    now: datetime,
    fixed: str = "",
    chance: Callable[[], str] = make_secret,
) -> Path | None:
    """See to it that there is a maker's key; the file with its secret where one had to be made, else None.

    `fixed` is a secret the studio chose itself: it becomes a maker's key and no file is written.
    """
    if fixed:
        check_fixed(fixed)
    with database.writing() as session:
        if fixed:
            if session.scalar(select(Token.id).where(Token.sha256 == hash_secret(fixed))) is None:
                add_token(session, name="maker", role=Role.MAKER, secret=fixed, now=now)
            return None
        unexpired = or_(Token.expires_at.is_(None), Token.expires_at > now)
        good = select(Token.id).where(Token.role == Role.MAKER, Token.revoked_at.is_(None), unexpired)
        if session.scalar(good.limit(1)) is not None:
            return None
        secret = chance()
        # The file comes first: a key that is kept but was never written down would be lost for good.
        place = _write_secret(folder / KEY_FILE, secret)
        add_token(session, name="maker", role=Role.MAKER, secret=secret, now=now)
    return place


def check_fixed(secret: str) -> None:
    """A `ValueError` where a secret that the studio chose is too easy to guess or has the wrong form."""
    if not secret.startswith(PREFIX) or len(secret) < SHORTEST_SECRET or any(c.isspace() for c in secret):
        raise ValueError(
            f"BATCHBEE_MAKER_TOKEN begins with {PREFIX}, has {SHORTEST_SECRET} characters or more and no spaces"
        )


def _is_good(token: Token, now: datetime) -> bool:
    return token.revoked_at is None and (token.expires_at is None or now < token.expires_at)


def _note_use(database: Database, token_id: str, now: datetime) -> None:
    with database.writing() as session:
        session.execute(update(Token).where(Token.id == token_id).values(last_used_at=now))


def _write_secret(file: Path, secret: str) -> Path:
    file.parent.mkdir(parents=True, exist_ok=True)
    part = file.with_suffix(".part")
    part.unlink(missing_ok=True)
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "w", encoding="ascii") as out:
        out.write(secret + "\n")
        out.flush()
        os.fsync(out.fileno())
    part.replace(file)
    return file
