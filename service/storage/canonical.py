"""One way to write a JSON value as bytes, so that equal values have equal hashes."""

from __future__ import annotations

import hashlib
import json
from typing import Any


def canonical_json(value: Any, *, keep_order: bool = False) -> bytes:
    """Sorted names, no spaces, UTF-8; after the idea of RFC 8785, numbers as Python writes them.

    With `keep_order` the names stay in the order they have, where that order matters.

    >>> canonical_json({"b": [1, 2.5], "a": "½"}).decode()
    '{"a":"½","b":[1,2.5]}'
    """
    text = json.dumps(
        value, sort_keys=not keep_order, separators=(",", ":"), ensure_ascii=False, allow_nan=False
    )
    return text.encode("utf-8", "surrogatepass")


def digest(value: Any, *, keep_order: bool = False) -> str:
    """The sha256 of a JSON value, as 64 hexadecimal digits."""
    return hashlib.sha256(canonical_json(value, keep_order=keep_order)).hexdigest()
