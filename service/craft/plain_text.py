"""Text that can be stored and printed: what JSON lets through and neither a file nor a database takes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from service.craft.faults import Fault, escape_token

RIGHT = "text without control characters, in whole Unicode characters"


def is_plain(text: str) -> bool:
    r"""Whether text holds no halves of characters (lone surrogates) and no control characters but tab and line end.

    >>> is_plain("3½ leeks\n"), is_plain("\ud800"), is_plain("a\x00b")
    (True, False, False)
    """
    return not any("\ud800" <= c <= "\udfff" or (c < " " and c not in "\t\n\r") for c in text)


def find_unprintable(raw: Any) -> Iterator[Fault]:
    """A fault for every text in a JSON value that is not plain. Depth does not matter: nothing calls itself."""
    waiting: list[tuple[str, Any]] = [("", raw)]
    while waiting:
        pointer, value = waiting.pop()
        if isinstance(value, str) and not is_plain(value):
            yield Fault(pointer, "the text holds a character that can be neither stored nor printed", RIGHT)
        elif isinstance(value, Mapping):
            if not all(isinstance(key, str) and is_plain(key) for key in value):
                yield Fault(
                    pointer, "a field's name holds a character that can be neither stored nor printed", RIGHT
                )
                continue
            waiting += [(f"{pointer}/{escape_token(key)}", inner) for key, inner in value.items()]
        elif isinstance(value, list):
            waiting += [(f"{pointer}/{i}", inner) for i, inner in enumerate(value)]
