"""Reading one field after the other, and going on after a fault, so that one answer holds them all.

Every method gives the value read, or None where it could not be read and a fault was noted.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Collection, Mapping
from fractions import Fraction
from typing import Any

from service.craft.fabric import Fabric
from service.craft.faults import Fault, describe, escape_token, show, suggest
from service.craft.measure import NotALength, parse_length
from service.craft.measure.lengths import RIGHT
from service.craft.measure.slips import read_negative, right_length

LONGEST_LENGTH = Fraction(1000)
"""Inches; 25 m. Longer is a slip of the pen, and would only cost time further on."""

LONGEST_FIELD = 40
MOST_UNKNOWN = 50
"""Unknown fields of one object that are looked at for a slip of the pen."""

LONGEST_NAME = 200
LONGEST_TEXT = 20_000

COLOUR = re.compile(r"#[0-9a-fA-F]{6}")
PLAIN_NUMBER = re.compile(r"[+-]?\d{1,12}((\.\d{1,20})?(e-?\d{1,2})?|/0{0,2}[1-9]\d{0,11})", re.ASCII)
MARGIN_OF_MEANING = 0.75

MOST_UNREAD = 20
"""Fields nobody knows that are named in the check."""

MOST_NAMED = 12
"""Known fields that are named beside an unknown one."""


def at(pointer: str, *steps: str | int) -> str:
    """The JSON pointer some steps further in."""
    return pointer + "".join(f"/{escape_token(str(s))}" for s in steps)


class Reader:
    """Reads fields, notes faults. `measure` and `fabrics` are set as soon as they have been read.

    `unread` names fields that nobody knows: no faults, but whoever wrote them should hear that nothing came of them.
    """

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        self.unread: list[Fault] = []
        self.measure = "in"
        self.fabrics: dict[str, Fabric] = {}
        self.fabric_keys: Collection[str] = ()

    def fault(self, pointer: str, detail: str, right: str = "") -> None:
        """Note one fault."""
        self.faults.append(Fault(pointer, detail, right))

    def mapping(self, raw: Any, pointer: str, what: str, *, like: str = "") -> Mapping[str, Any] | None:
        """An object, or None; `like` is an example of one."""
        if isinstance(raw, Mapping):
            return raw
        example = f", for example {like}" if like else ""
        self.fault(pointer, f"{what} is {describe(raw)}", f"an object in braces {{}}{example}")
        return None

    def sequence(self, raw: Any, pointer: str, what: str, *, least: int = 0) -> list[Any] | None:
        """A list of at least so many, or None."""
        if isinstance(raw, list) and len(raw) >= least:
            return raw
        short = "is empty" if raw == [] else "is too short"
        wrong = short if isinstance(raw, list) else f"is {describe(raw)}"
        self.fault(
            pointer,
            f"{what} {wrong}",
            "a list in brackets []" + (f" with {least} or more entries" if least else ""),
        )
        return None

    def texts(self, raw: Any, pointer: str, what: str) -> tuple[str, ...]:
        """A list of texts; what is not text is a fault and left out."""
        listed = self.sequence(raw, pointer, what) or []
        for i, entry in enumerate(listed):
            if not isinstance(entry, str):
                self.fault(at(pointer, i), f"an entry of {what} is {describe(entry)}", "some text")
        return tuple(entry for entry in listed if isinstance(entry, str))

    def known_fields(self, raw: Mapping[str, Any], pointer: str, fields: Collection[str]) -> None:
        """A field that looks like a known one misspelt is a fault; any other unknown one is noted in `unread`."""
        unknown = [key for key in raw if key not in fields and len(str(key)) <= LONGEST_FIELD]
        for key in unknown[:MOST_UNKNOWN]:
            close = difflib.get_close_matches(str(key), fields, n=1, cutoff=MARGIN_OF_MEANING)
            if close and close[0] not in raw:
                self.fault(at(pointer, key), f'there is no field "{key}" here', f'"{close[0]}"')
            elif len(self.unread) < MOST_UNREAD:
                names = sorted({*fields} - {"unit"})
                known = ", ".join([*names[:MOST_NAMED], *(["…"] if len(names) > MOST_NAMED else [])])
                detail = f'there is no field "{key}" here, and nothing is made of it'
                self.unread.append(Fault(at(pointer, key), detail, f"leave it out, or one of: {known}"))

    def length(self, raw: Any, pointer: str, what: str, *, zero: bool = False) -> Fraction | None:
        """A length in inches, more than nothing unless `zero` is allowed."""
        if raw is None:
            self.fault(pointer, f"{what} is missing", RIGHT)
            return None
        value = read_negative(raw, self.measure)
        try:
            value = parse_length(raw, self.measure) if value is None else value
        except NotALength as why:
            self.fault(pointer, f"{what}: {why}", right_length(raw, self.measure))
            return None
        if value > LONGEST_LENGTH:
            self.fault(pointer, f"{what} is longer than 25 m", "a length that fits in a sewing room")
            return None
        if value < 0 or (value == 0 and not zero):
            self.fault(
                pointer,
                f"{what} is {'zero' if value == 0 else 'less than nothing'}",
                "zero, or a length above it" if zero else "a length above zero",
            )
            return None
        return value

    def optional_length(
        self,
        raw: Mapping[str, Any],
        key: str,
        pointer: str,
        what: str,
        default: Fraction,
        *,
        zero: bool = False,
    ) -> Fraction:
        """A length that may be left out; the default stands where it is absent or faulty."""
        if raw.get(key) is None:
            return default
        value = self.length(raw[key], at(pointer, key), what, zero=zero)
        return default if value is None else value

    def size(
        self, raw: Mapping[str, Any], pointer: str, key: str = "size"
    ) -> tuple[Fraction, Fraction] | None:
        """A finished size [width, height] in inches."""
        pair = raw.get(key)
        if not isinstance(pair, list) or len(pair) != 2:
            self.fault(
                at(pointer, key) if key in raw else pointer,
                f'the finished size "{key}" is {"missing" if pair is None else "not a pair"}',
                '[width, height], for example ["3", "3 1/2"]',
            )
            return None
        width = self.length(pair[0], at(pointer, key, 0), "the width")
        height = self.length(pair[1], at(pointer, key, 1), "the height")
        return None if width is None or height is None else (width, height)

    def fabric(self, raw: Mapping[str, Any], key: str, pointer: str, what: str) -> str | None:
        """The key of a cloth in `fabrics`."""
        if key not in raw:
            self.fault(
                pointer,
                f'"{key}" is missing, the cloth of {what}',
                suggest("", self.fabric_keys) if self.fabric_keys else "a cloth",
            )
            return None
        return self.fabric_name(raw[key], at(pointer, key), what)

    def fabric_name(self, raw: Any, pointer: str, what: str) -> str | None:
        """A cloth's key given by itself."""
        if isinstance(raw, str) and raw in self.fabric_keys:
            return raw
        self.fault(
            pointer,
            f"{what} cannot be cut from {show(raw)}, which is not among the fabrics",
            self._right_cloth(raw if isinstance(raw, str) else ""),
        )
        return None

    def _right_cloth(self, word: str) -> str:
        """Which cloth was meant: by its key, or by the name it has in words."""
        if not self.fabric_keys:
            return 'a cloth of its own in "fabrics", for example {"frost": {"name": "frost white"}}'
        by_name = {fabric.name.casefold(): key for key, fabric in self.fabrics.items()}
        key = by_name.get(word.casefold())
        return suggest(word, self.fabric_keys) if key is None else f'"{key}", as it is called in "fabrics"'

    def choice(
        self, raw: Mapping[str, Any], key: str, pointer: str, choices: Collection[str], default: str
    ) -> str:
        """One of some words; the default where it is left out or faulty."""
        value = raw.get(key, default)
        if value in choices and isinstance(value, str):
            return value
        self.fault(
            at(pointer, key),
            f'"{key}" is {show(value)}',
            suggest(value if isinstance(value, str) else "", choices),
        )
        return default

    def text(
        self,
        raw: Mapping[str, Any],
        key: str,
        pointer: str,
        *,
        default: str | None = None,
        longest: int = LONGEST_TEXT,
    ) -> str | None:
        """Text; without a default it must be there."""
        value = raw.get(key, default)
        if isinstance(value, str) and (value.strip() or default is not None) and len(value) <= longest:
            return value
        where = at(pointer, key) if key in raw else pointer
        if isinstance(value, str) and len(value) > longest:
            self.fault(where, f'"{key}" is {len(value)} characters long', f"{longest} at most")
        else:
            self.fault(
                where, f'"{key}" is {"empty" if isinstance(value, str) else describe(value)}', "some text"
            )
        return None

    def name(self, raw: Mapping[str, Any], key: str, pointer: str) -> str | None:
        """A short text that must be there."""
        return self.text(raw, key, pointer, longest=LONGEST_NAME)

    def colour(self, raw: Mapping[str, Any], pointer: str, default: str = "#c8c8c8") -> str:
        """An sRGB colour `#rrggbb`."""
        value = raw.get("colour", default)
        if isinstance(value, str) and COLOUR.fullmatch(value):
            return value.lower()
        self.fault(
            at(pointer, "colour"),
            f"the colour is {show(value)}",
            'six hexadecimal digits, for example "#5f8f4e"',
        )
        return default

    def flag(self, raw: Mapping[str, Any], key: str, pointer: str, *, default: bool = False) -> bool:
        """True or false."""
        value = raw.get(key, default)
        if isinstance(value, bool):
            return value
        self.fault(at(pointer, key), f'"{key}" is {describe(value)}', "true or false")
        return default

    def number(
        self,
        raw: Mapping[str, Any],
        key: str,
        pointer: str,
        *,
        default: Fraction,
        least: Fraction,
        most: Fraction,
    ) -> Fraction:
        """A plain number within bounds, also as text ("12.50", "4/3")."""
        if raw.get(key) is None:
            return default
        value = raw[key]
        shown = value.strip() if isinstance(value, str) else show(value)
        if not isinstance(value, bool) and PLAIN_NUMBER.fullmatch(shown) and least <= Fraction(shown) <= most:
            return Fraction(shown)
        self.fault(
            at(pointer, key),
            f'"{key}" is {show(value)}',
            f"a number from {float(least):g} to {float(most):g}",
        )
        return default
