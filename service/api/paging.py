"""Pages of a collection: a cursor, and the `Link` header (RFC 8288) that leads on."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any
from urllib.parse import urlencode

from flask import request
from sqlalchemy import Select
from sqlalchemy.orm import InstrumentedAttribute, Session


def read_page(
    session: Session,
    query: Select[Any],
    id_column: InstrumentedAttribute[str],
    asked: Mapping[str, Any],
    *,
    newest_first: bool = False,
) -> tuple[Sequence[Any], str | None]:
    """The entries of one page, and the cursor of the next. Ids sort by age, so they are the cursor."""
    if asked["cursor"]:
        query = query.where(id_column < asked["cursor"] if newest_first else id_column > asked["cursor"])
    order = id_column.desc() if newest_first else id_column.asc()
    rows = session.scalars(query.order_by(order).limit(asked["limit"] + 1)).all()
    shown = rows[: asked["limit"]]
    more = len(rows) > len(shown)
    return shown, getattr(shown[-1], id_column.key) if more else None


def page_answer(
    name: str, rows: Sequence[Any], show: Callable[[Any], dict[str, Any]], cursor: str | None
) -> tuple[dict[str, Any], dict[str, str]]:
    """The body of a page and its headers."""
    headers = {}
    if cursor:
        kept = {**request.args.to_dict(), "cursor": cursor}
        headers["Link"] = f'<{request.path}?{urlencode(kept)}>; rel="next"'
    return {name: [show(row) for row in rows], "next": cursor}, headers


def format_time(moment: Any) -> str | None:
    """A moment as RFC 3339 in UTC, to the second of its fraction; None stays None."""
    return moment.isoformat().replace("+00:00", "Z") if moment is not None else None
