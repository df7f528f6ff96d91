"""JSON that comes in: read strictly, so that nothing in it is lost or changes its meaning unnoticed."""

from __future__ import annotations

import json
import math
import re
from typing import Any

from flask import Request

from service.api.problems import Problem, fault

RIGHT = "JSON by RFC 8259, in UTF-8"
JSON_TYPES = ("application/json", "application/merge-patch+json")

NOTHING_SIGN = re.compile(rb"(?<!\\)(?:\\\\)*\\u0000")
"""U+0000 as it is written in JSON; a database may not be able to keep it."""


class NotJson(ValueError):
    """A body that is not JSON, or that different readers would read differently."""


def parse_json(data: bytes) -> Any:
    """Read JSON; `NotJson` for anything else, names given twice and numbers that are none included.

    >>> parse_json(b'{"a": 1, "a": 2}')
    Traceback (most recent call last):
    ...
    service.api.bodies.NotJson: the name "a" is given twice in one object
    """
    try:
        value = json.loads(
            data.decode("utf-8"),
            object_pairs_hook=_each_name_once,
            parse_constant=_refuse_constant,
            parse_float=_finite,
        )
        json.dumps(value, ensure_ascii=False).encode("utf-8")
    except UnicodeDecodeError as why:
        raise NotJson(f"the body is not UTF-8 at byte {why.start}") from why
    except UnicodeEncodeError as why:
        raise NotJson("a text holds half of a surrogate pair") from why
    except RecursionError as why:
        raise NotJson("the body is nested too deeply") from why
    except json.JSONDecodeError as why:
        raise NotJson(f"{why.msg} in line {why.lineno}, column {why.colno}") from why
    except ValueError as why:
        raise why if isinstance(why, NotJson) else NotJson("a number has too many digits") from why
    if NOTHING_SIGN.search(data):
        raise NotJson("a text holds the character U+0000")
    return value


def read_body(request: Request) -> Any:
    """The JSON body of a request; 415 for another kind of body, 400 for one that cannot be read."""
    if request.mimetype not in JSON_TYPES:
        sent = request.mimetype or "a body without a Content-Type"
        raise Problem(
            415, f"This takes application/json; {sent} was sent.", headers={"Accept": JSON_TYPES[0]}
        )
    try:
        return parse_json(request.get_data(cache=True))
    except NotJson as why:
        detail = f"The body cannot be read as JSON: {why}."
        raise Problem(400, detail, errors=[fault(detail, RIGHT)]) from why


def read_object(request: Request) -> dict[str, Any]:
    """The JSON object in the body of a request; 422 for any other JSON."""
    body = read_body(request)
    if not isinstance(body, dict):
        detail = "The body is not an object."
        raise Problem(422, detail, name="faults", errors=[fault(detail, "an object in braces {}")])
    return body


def _each_name_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, value in pairs:
        if name in found:
            raise NotJson(f'the name "{name[:80]}" is given twice in one object')
        found[name] = value
    return found


def _refuse_constant(name: str) -> Any:
    raise NotJson(f"{name} is not a number in JSON")


def _finite(text: str) -> float:
    value = float(text)
    if not math.isfinite(value):
        raise NotJson(f"the number {text[:40]} is too large")
    return value
