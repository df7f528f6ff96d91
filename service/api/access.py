"""Who may call what. Every route names one of three circles; there is no route without one."""

from __future__ import annotations

from enum import Enum

from flask import g, request

from service.api.problems import Problem
from service.api.wiring import now, parts
from service.studio.keys import Caller, find_caller

CHALLENGE = 'Bearer realm="batchbee"'


class Circle(Enum):
    """Who may call a route."""

    ANYONE = "anyone"
    STUDIO = "the studio: maker and assistant"
    MAKER = "the maker alone"


def admit(circle: Circle) -> None:
    """Let the present request in, or refuse it: 401 without a good key, 403 with one that does not suffice.

    A key that is not good is refused even where none is needed: whoever sends one means to be known.
    """
    g.caller = _identify()
    if circle is Circle.ANYONE:
        return
    if g.caller is None:
        raise _ask("This needs a key. Send it as: Authorization: Bearer bee_…")
    if circle is Circle.MAKER and not g.caller.is_maker:
        raise Problem(
            403,
            "Only the maker may do this; this key is an assistant's.",
            headers={"WWW-Authenticate": f'{CHALLENGE}, error="insufficient_scope"'},
        )


def caller() -> Caller | None:
    """Who the present request speaks for; None for the public."""
    found: Caller | None = g.get("caller")
    return found


def known_caller() -> Caller:
    """Who the present request speaks for, in a route that is not for everybody."""
    found = caller()
    if found is None:
        raise _ask("This needs a key.")
    return found


def _identify() -> Caller | None:
    header = request.headers.get("Authorization", "")
    if not header:
        return None
    scheme, _, secret = header.partition(" ")
    found = find_caller(parts().database, secret.strip(), now=now()) if scheme.lower() == "bearer" else None
    if found is None:
        raise _ask("This key is not known, was revoked or has expired.", error="invalid_token")
    return found


def _ask(detail: str, *, error: str = "") -> Problem:
    challenge = f'{CHALLENGE}, error="{error}"' if error else CHALLENGE
    return Problem(401, detail, headers={"WWW-Authenticate": challenge})
