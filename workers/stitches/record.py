"""Writes the three-byte stitch record (.dst): a 512-byte header, three bytes a move, an end record.

Source: the bit table of http://www.achatina.de/sewing/main/DST.HTM; header and limits from the EduTechWiki of the
University of Geneva, "Embroidery format DST". Moves are in tenths of a millimetre, y upward: this module is where the
house's y-down millimetres turn over.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workers.stitches.pieces import Pass, Points
from workers.stitches.settings import StitchSettings

UNITS_PER_MM = 10
LARGEST = 121
"""The longest move of one record on each axis: 81 + 27 + 9 + 3 + 1."""

HEADER_BYTES = 512
STITCH, JUMP, STOP, END = 0, 1, 2, 3
THIRD_BYTE = {STITCH: 0x03, JUMP: 0x83, STOP: 0xC3, END: 0xF3}

X_BITS = {1: (0, 0, 1), 9: (0, 2, 3), 3: (1, 0, 1), 27: (1, 2, 3), 81: (2, 2, 3)}
Y_BITS = {1: (0, 7, 6), 9: (0, 5, 4), 3: (1, 7, 6), 27: (1, 5, 4), 81: (2, 5, 4)}
"""For each weight: the byte, the bit that adds it, the bit that takes it away."""

Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Move:
    """Moves before they become bytes: kinds (n,) and steps (n, 2) in tenths of a millimetre, y upward."""

    kinds: Ints
    steps: Ints


@dataclass(frozen=True)
class Recorded:
    """A stitch file, and for each pass its first and last record (both included, jumps left out)."""

    data: bytes
    ranges: tuple[tuple[int, int], ...]


def balanced_weights(value: int) -> dict[int, int]:
    """The value as a sum of weights 81, 27, 9, 3, 1, each taken with +1, 0 or -1; there is only one way.

    >>> balanced_weights(40), balanced_weights(-12)
    ({81: 0, 27: 1, 9: 1, 3: 1, 1: 1}, {81: 0, 27: 0, 9: -1, 3: -1, 1: 0})
    """
    digits: dict[int, int] = {}
    rest = value
    for weight in (81, 27, 9, 3, 1):
        most_below = (weight - 1) // 2
        digit = 1 if rest > most_below else -1 if rest < -most_below else 0
        digits[weight] = digit
        rest -= digit * weight
    if rest:
        raise ValueError(f"a record moves by at most {LARGEST} tenths of a millimetre, not {value}")
    return digits


def axis_table(bits: dict[int, tuple[int, int, int]]) -> NDArray[np.uint8]:
    """The three bytes of every move -121..121 on one axis, shape (243, 3)."""
    table = np.zeros((2 * LARGEST + 1, 3), dtype=np.uint8)
    for value in range(-LARGEST, LARGEST + 1):
        for weight, digit in balanced_weights(value).items():
            byte, plus, minus = bits[weight]
            if digit:
                table[value + LARGEST, byte] |= 1 << (plus if digit > 0 else minus)
    return table


X_TABLE, Y_TABLE = axis_table(X_BITS), axis_table(Y_BITS)


def encode_moves(moves: Move) -> bytes:
    """The three bytes of each move; a step beyond 121 on an axis is a `ValueError`."""
    if len(moves.steps) and int(np.abs(moves.steps).max()) > LARGEST:
        raise ValueError(f"a record moves by at most {LARGEST} tenths of a millimetre on an axis")
    body = X_TABLE[moves.steps[:, 0] + LARGEST] | Y_TABLE[moves.steps[:, 1] + LARGEST]
    body[:, 2] |= np.array([THIRD_BYTE[k] for k in range(4)], dtype=np.uint8)[moves.kinds]
    return body.tobytes()


def to_units(points: Points) -> Ints:
    """Millimetres, y down, as whole tenths, y up. Absolute places are rounded, so no error adds up."""
    return np.asarray(np.rint(points * np.array([UNITS_PER_MM, -UNITS_PER_MM])), dtype=np.int64)


def split_move(step: Ints, parts: int) -> Ints:
    """A move in equal parts, in whole tenths, adding up exactly."""
    places = np.rint(np.outer(np.arange(parts + 1) / parts, step)).astype(np.int64)
    return np.asarray(np.diff(places, axis=0))


def jump_parts(step: Ints, settings: StitchSettings, *, cut: bool) -> int:
    """Into how many jumps a move is divided: three or more make the machine trim (common practice, no source)."""
    needed = int(np.ceil(np.abs(step).max() / LARGEST))
    far = float(np.hypot(*step)) > settings.trim_over_mm * UNITS_PER_MM
    return max(needed, 3 if cut and far else 1)


def record_passes(passes: tuple[Pass, ...], settings: StitchSettings, *, label: str) -> Recorded:
    """The stitch file of passes in field coordinates (middle of the field at 0, 0), and where each pass stands."""
    kinds: list[Ints] = []
    steps: list[Ints] = []
    ranges: list[tuple[int, int]] = []
    here, count = np.zeros(2, dtype=np.int64), 0

    def add(kind: int, moved: Ints) -> None:
        nonlocal count
        kinds.append(np.full(len(moved), kind, dtype=np.int64))
        steps.append(moved)
        count += len(moved)

    for one in passes:
        units = to_units(one.points)
        to_start = units[0] - here
        if one.joined:
            units = np.vstack([here[None], units])
        elif to_start.any():
            add(JUMP, split_move(to_start, jump_parts(to_start, settings, cut=bool(ranges))))
        sewn = np.diff(units, axis=0)
        sewn = sewn[sewn.any(axis=1)]
        ranges.append((count, count + len(sewn) - 1))
        add(STITCH, sewn)
        here = units[-1]
        if one.then_stop:
            add(STOP, np.zeros((1, 2), dtype=np.int64))
    add(END, np.zeros((1, 2), dtype=np.int64))
    moves = Move(np.concatenate(kinds), np.concatenate(steps))
    return Recorded(format_header(moves, label) + encode_moves(moves), tuple(ranges))


def format_header(moves: Move, label: str) -> bytes:
    """The 512 bytes before the records. ST counts every record, the end record included.

    Extents are from the start, in tenths of a millimetre, without sign; AX and AY are the last place.
    """
    places = np.vstack([np.zeros((1, 2), dtype=np.int64), np.cumsum(moves.steps, axis=0)])
    low, high, last = places.min(axis=0), places.max(axis=0), places[-1]
    name = label.encode("ascii", "replace").decode()[:16]
    fields = [
        f"LA:{name:<16}",
        f"ST:{len(moves.kinds):>7}",
        f"CO:{int((moves.kinds == STOP).sum()):>3}",
        f"+X:{high[0]:>5}",
        f"-X:{-low[0]:>5}",
        f"+Y:{high[1]:>5}",
        f"-Y:{-low[1]:>5}",
        f"AX:{format_signed(int(last[0]))}",
        f"AY:{format_signed(int(last[1]))}",
        f"MX:{format_signed(0)}",
        f"MY:{format_signed(0)}",
        "PD:******",
    ]
    text = "".join(field + "\r" for field in fields).encode("ascii") + b"\x1a"
    return text.ljust(HEADER_BYTES, b" ")


def format_signed(value: int) -> str:
    """A place in six characters, sign first.

    >>> format_signed(-42)
    '-   42'
    """
    return f"{'-' if value < 0 else '+'}{abs(value):>5}"
