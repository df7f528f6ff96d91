"""Reads a cloth's problem as it stands in a file of its own: a width, and sizes in whole units of any measure."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from workers.cutting.strip_problem import Problem, Size

# No cloth holds more; beyond it a mistyped number would keep the machine busy for nothing.
MOST_UNITS, MOST_PIECES = 1_000_000, 100_000


class ClothFileError(ValueError):
    """What is wrong in a cloth's file: each fault with its place, as `items/3/w: ...`."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__("; ".join(faults))
        self.faults = faults


@dataclass(frozen=True)
class ClothFile:
    """A cloth's problem and its name; `name` is None if the file does not say."""

    name: str | None
    problem: Problem


def _read_json(text: str) -> Any:
    """What two readers would read alike, or ClothFileError."""
    try:
        return json.loads(text, object_pairs_hook=_each_name_once)
    except (json.JSONDecodeError, RecursionError) as fault:
        raise ClothFileError([f"not JSON: {fault}"]) from None
    except ClothFileError:
        raise
    except ValueError:
        raise ClothFileError(["not JSON: a number of more digits than anybody reads"]) from None


def _each_name_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, value in pairs:
        if name in found:
            raise ClothFileError([f'not JSON: the name "{name[:80]}" is given twice in one object'])
        found[name] = value
    return found


def read_cloth_file(text: str) -> ClothFile:
    """The problem in a file's text, or ClothFileError with every fault in it."""
    raw = _read_json(text)
    if not isinstance(raw, dict):
        raise ClothFileError(["not an object with `usable_width` and `items`"])
    faults: list[str] = []
    where = "usable_width" if "usable_width" in raw else "width"
    width = _whole(raw, where, where, MOST_UNITS, faults)
    turn = _yes_or_no(raw, "turn", False, "turn", faults)
    items = raw.get("items")
    if not isinstance(items, list) or not items:
        faults.append("items: a list of one size or more is missing")
        items = []
    sizes = [_size(item, width, turn, f"items/{i}", faults) for i, item in enumerate(items)]
    if sum(size.count for size in sizes) > MOST_PIECES:
        faults.append(f"items: more than {MOST_PIECES:,} pieces")
    if faults:
        raise ClothFileError(faults)
    name = raw.get("name")
    return ClothFile(name if isinstance(name, str) else None, Problem(width, tuple(sizes)))


def _size(item: Any, width: int, turn: bool, where: str, faults: list[str]) -> Size:
    if not isinstance(item, dict):
        faults.append(f"{where}: not an object with `w`, `h` and `demand`")
        return Size(1, 1, 0)
    before = len(faults)
    size = Size(
        _whole(item, "w", f"{where}/w", MOST_UNITS, faults),
        _whole(item, "h", f"{where}/h", MOST_UNITS, faults),
        _whole(item, "demand", f"{where}/demand", MOST_PIECES, faults),
        _yes_or_no(item, "turn", turn, f"{where}/turn", faults),
    )
    if len(faults) == before and width > 0 and not size.ways(width):
        ways = "either way" if size.may_turn else "as it lies, and it must not turn"
        faults.append(f"{where}: {size.width} by {size.height} does not fit on a cloth {width} wide, {ways}")
    return size


def _whole(raw: dict[str, Any], key: str, where: str, most: int, faults: list[str]) -> int:
    value = raw.get(key)
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= most:
        return value
    said = "missing" if key not in raw else f"{json.dumps(value)[:40]}"
    faults.append(f"{where}: {said}; a whole number from 1 to {most:,} is right")
    return 0


def _yes_or_no(raw: dict[str, Any], key: str, otherwise: bool, where: str, faults: list[str]) -> bool:
    value = raw.get(key, otherwise)
    if isinstance(value, bool):
        return value
    faults.append(f"{where}: {json.dumps(value)[:40]}; true or false is right")
    return otherwise
