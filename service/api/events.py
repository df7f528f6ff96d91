"""What happens in a batch, as it happens: server-sent events, or a plain list."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from flask import Response, jsonify, request
from sqlalchemy.orm import Session

from service.api.access import Circle
from service.api.paging import format_time
from service.api.problems import Problem, fault
from service.api.room import Answer, Room
from service.api.schemas.batches import EventList, EventQuery
from service.api.showing import look_again
from service.api.wiring import Wiring, parts
from service.jobs.status import read_batch_state, read_events
from service.storage.batch_state import OPEN
from service.storage.models import Batch, Event
from service.storage.recovery import NotFound

STREAM = "text/event-stream"
LOOK_EVERY_SECONDS = 0.5
PING_EVERY_SECONDS = 15.0
CLOSED_AFTER_SECONDS = 300.0

room = Room("events", __name__, description="What happens in a batch, as it happens.")


@room.route_to(
    "/batches/<id_>/events",
    "GET",
    Circle.STUDIO,
    Answer(200, {"type": "string"}, media_type=STREAM),
    Answer(200, EventList, words="With Accept: application/json, what has happened so far."),
    query=EventQuery,
    refuses=(400, 404, 503),
)
def get_events(query: dict[str, Any], id_: str) -> Any:
    """Follow a batch by server-sent events.

    Each has its number as `id`; `Last-Event-ID` (or `after`) goes on after it. A stream closes when the
    batch has ended, or after five minutes: connect again.
    """
    after = query["after"] if query["after"] is not None else _last_seen()
    with parts().database.reading() as session:
        ended = _has_ended(session, id_)
        rows = [show_event(event) for event in read_events(session, id_, after=after)]
    if request.accept_mimetypes.best_match((STREAM, "application/json")) == "application/json":
        body = {"events": rows, "last": rows[-1]["id"] if rows else after}
        return jsonify(body), look_again(ended=ended)
    if not parts().streams.enter():
        busy = "All places for followers are taken; ask for the batch itself now and then."
        raise Problem(503, busy, headers={"Retry-After": "5"})
    stream = Response(_Stream(parts(), id_, after), mimetype=STREAM)
    stream.headers["Cache-Control"] = "no-store"
    stream.headers["X-Accel-Buffering"] = "no"
    return stream


def show_event(event: Event) -> dict[str, Any]:
    """An event as it stands in an answer."""
    return {
        "id": event.seq,
        "type": event.type,
        "job": event.job_id,
        "at": format_time(event.at),
        "data": event.data,
    }


class _Stream:
    """The lines of a stream. Gives its place back when it is closed, also by a client who left."""

    def __init__(self, wired: Wiring, batch_id: str, after: int) -> None:
        self._wired = wired
        self._lines = _follow(wired, batch_id, after)
        self._open = True

    def __iter__(self) -> Iterator[str]:
        return self

    def __next__(self) -> str:
        return next(self._lines)

    def close(self) -> None:
        """Called by the server in any case, once it is done with the answer."""
        if self._open:
            self._open = False
            self._wired.streams.leave()


def _follow(wired: Wiring, batch_id: str, after: int) -> Iterator[str]:
    yield "retry: 1000\n\n"
    begun, silent = 0.0, 0.0
    while begun < CLOSED_AFTER_SECONDS:
        with wired.database.reading() as session:
            # Asked before the events are read: what ends the batch is then among them.
            ended = _has_ended(session, batch_id)
            rows = [show_event(event) for event in read_events(session, batch_id, after=after)]
        for row in rows:
            after = row["id"]
            yield f"id: {row['id']}\nevent: {row['type']}\ndata: {json.dumps(row, ensure_ascii=False)}\n\n"
        if ended and not rows:
            return
        silent = 0.0 if rows else silent + LOOK_EVERY_SECONDS
        if silent >= PING_EVERY_SECONDS:
            silent = 0.0
            yield ": still here\n\n"
        if not rows:
            wired.sleep(LOOK_EVERY_SECONDS)
            begun += LOOK_EVERY_SECONDS


def _has_ended(session: Session, batch_id: str) -> bool:
    if session.get(Batch, batch_id) is None:
        raise NotFound("batch", batch_id)
    return read_batch_state(session, batch_id) not in OPEN


def _last_seen() -> int:
    text = request.headers.get("Last-Event-ID", "").strip()
    if not text:
        return 0
    if not text.isascii() or not text.isdigit():
        detail = "Last-Event-ID is the number of an event."
        raise Problem(400, detail, errors=[fault(detail, "the `id` of the last event you have")])
    return int(text)
