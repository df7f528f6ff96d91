"""Reads a stitch file back, trusting nothing: whatever is not a whole, true stitch record is refused in words."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from workers.stitches.pieces import Points
from workers.stitches.record import (
    END,
    HEADER_BYTES,
    JUMP,
    LARGEST,
    STITCH,
    STOP,
    UNITS_PER_MM,
    X_TABLE,
    Y_TABLE,
    Ints,
)

FIELDS = ("LA", "ST", "CO", "+X", "-X", "+Y", "-Y", "AX", "AY", "MX", "MY", "PD")
NUMBERS = ("ST", "CO", "+X", "-X", "+Y", "-Y", "AX", "AY")


class StitchFileError(ValueError):
    """Bytes that are no stitch file: says what is wrong and where. `record` is the first damaged record, if any is."""

    def __init__(self, detail: str, record: int | None = None) -> None:
        super().__init__(detail)
        self.record = record


@dataclass(frozen=True)
class Reading:
    """A stitch file as read: header fields, kinds of records, and the place after each record.

    `places` are tenths of a millimetre from the start, y upward, one row a record.
    """

    header: dict[str, str]
    kinds: Ints
    places: Ints

    @property
    def points_mm(self) -> Points:
        """The place after each record in the house's millimetres, y down."""
        return np.asarray(self.places / np.array([UNITS_PER_MM, -UNITS_PER_MM]))

    @property
    def starts_mm(self) -> Points:
        """The place before each record, millimetres, y down."""
        return np.vstack([np.zeros((1, 2)), self.points_mm[:-1]])

    @property
    def stitch_lengths_mm(self) -> Points:
        """The length of each stitch record in order, millimetres."""
        lengths = np.linalg.norm(self.points_mm - self.starts_mm, axis=1)
        return np.asarray(lengths[self.kinds == STITCH])

    @property
    def trims(self) -> int:
        """Runs of three or more jumps after the first stitch: where machines cut the thread."""
        jump = np.concatenate([[0], (self.kinds == JUMP).astype(int), [0]])
        edges = np.diff(jump)
        begins, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
        sewn = np.flatnonzero(self.kinds == STITCH)
        first = int(sewn[0]) if len(sewn) else len(self.kinds)
        return int(((ends - begins >= 3) & (begins > first)).sum())

    def number(self, field: str) -> int:
        """A number of the header."""
        return int(self.header[field].replace(" ", ""))


def read_stitch_file(data: bytes) -> Reading:
    """A stitch file's records; raises `StitchFileError` for what is cut off, padded or something else."""
    if not data:
        raise StitchFileError("the file is empty")
    if len(data) < HEADER_BYTES + 3:
        raise StitchFileError(
            f"the file has {len(data)} bytes; a stitch file has "
            f"{HEADER_BYTES} in its header and 3 in its end record"
        )
    header = read_header(data[:HEADER_BYTES])
    body = data[HEADER_BYTES:]
    if len(body) % 3 == 1 and body[-1:] == b"\x1a":
        body = body[:-1]
    if len(body) % 3:
        raise StitchFileError(
            f"{len(body)} bytes follow the header, which is no whole number of 3-byte records: "
            "the file was cut off or added to"
        )
    records = np.frombuffer(body, dtype=np.uint8).reshape(-1, 3)
    kinds = read_kinds(records)
    steps = read_steps(records)
    return Reading(header, kinds, np.cumsum(steps, axis=0))


def read_header(raw: bytes) -> dict[str, str]:
    """The header's fields; a missing field, or one that is no number, is a `StitchFileError`."""
    found: dict[str, str] = {}
    for part in raw.split(b"\x1a")[0].split(b"\r"):
        text = part.decode("ascii", "replace")
        if text[2:3] == ":":
            found[text[:2]] = text[3:]
    missing = [name for name in FIELDS if name not in found]
    if missing:
        raise StitchFileError(
            f"the header lacks {', '.join(missing)}: this is no stitch file, or it was damaged"
        )
    for name in NUMBERS:
        try:
            int(found[name].replace(" ", ""))
        except ValueError:
            raise StitchFileError(
                f"the header says {name}:{found[name]!a}, where a whole number belongs"
            ) from None
    return found


def read_kinds(records: Ints | np.ndarray) -> Ints:
    """Stitch, jump, stop or end for each record; exactly one end record, at the end."""
    third = records[:, 2].astype(np.int64)
    wrong = np.flatnonzero(third & 0x03 != 0x03)
    if len(wrong):
        raise StitchFileError(
            f"record {wrong[0]} lacks the two bits every record has: the file is damaged there",
            int(wrong[0]),
        )
    kinds = np.select(
        [third == 0xF3, third & 0xC0 == 0xC0, third & 0xC0 == 0x80, third & 0xC0 == 0],
        [END, STOP, JUMP, STITCH],
        -1,
    )
    strange = np.flatnonzero(kinds < 0)
    if len(strange):
        raise StitchFileError(
            f"record {strange[0]} is no stitch, jump, stop or end ({third[strange[0]]:#04x})",
            int(strange[0]),
        )
    ends = np.flatnonzero(kinds == END)
    if not len(ends):
        raise StitchFileError("there is no end record: the file was cut off")
    if ends[0] != len(kinds) - 1:
        raise StitchFileError(
            f"the end record is number {ends[0]}, but {len(kinds) - 1 - ends[0]} records follow it"
        )
    return kinds


def read_steps(records: np.ndarray) -> Ints:
    """The move of each record in tenths of a millimetre; bytes that no move makes are a `StitchFileError`."""
    motion = records & np.array([0xFF, 0xFF, 0x3C], dtype=np.uint8)
    motion[records[:, 2] == 0xF3] = 0
    steps = np.zeros((len(records), 2), dtype=np.int64)
    for axis, table in enumerate((X_TABLE, Y_TABLE)):
        mask = np.bitwise_or.reduce(table, axis=0)
        keys = table.astype(np.int64) @ np.array([65536, 256, 1])
        order = np.argsort(keys)
        wanted = (motion & mask).astype(np.int64) @ np.array([65536, 256, 1])
        at = np.minimum(np.searchsorted(keys[order], wanted), len(keys) - 1)
        bad = np.flatnonzero(keys[order][at] != wanted)
        if len(bad):
            raise StitchFileError(
                f"record {bad[0]} moves both ways at once: the file is damaged there", int(bad[0])
            )
        steps[:, axis] = order[at] - LARGEST
    return steps
