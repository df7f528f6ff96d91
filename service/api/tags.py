"""ETags of rows: a tag is the row's id and revision, so it changes with every change and never comes back."""

from __future__ import annotations

from typing import Any, Protocol

from service.api.problems import Problem
from service.api.room import Room


class Tagged(Protocol):
    """A row that counts its revisions."""

    @property
    def id(self) -> Any:
        """Its id."""
        ...

    @property
    def revision(self) -> Any:
        """How often it was written."""
        ...


def set_tag(room: Room, row: Tagged) -> None:
    """Send the row's tag; answers 304 to who has it already."""
    room.set_etag([row.id, row.revision])


def check_tag(room: Room, row: Tagged) -> None:
    """Refuse with 412 who means to change an older state of the row."""
    room.check_etag([row.id, row.revision])


def found(row: Any, what: str, id_: str) -> Any:
    """The row; 404 where there is none."""
    if row is None:
        raise Problem(404, f"There is no {what} with the id {id_}.")
    return row
