"""What can still be read of a damaged stitch file: everything up to where it was cut off or spoiled, and why."""

from __future__ import annotations

from workers.stitches.reading import Reading, StitchFileError, read_stitch_file
from workers.stitches.record import HEADER_BYTES

END_RECORD = b"\x00\x00\xf3"
CLOSING = b"\x1a"
"""A byte that some writers put after the end record."""


def salvage_stitch_file(data: bytes) -> tuple[Reading, list[str]]:
    """The whole records of a file, and what is wrong with it in words; none where it is sound.

    A file without even a header is a `StitchFileError`: nothing in it can be told.
    """
    try:
        return read_stitch_file(data), []
    except StitchFileError as fault:
        if len(data) < HEADER_BYTES:
            raise
        said = str(fault)
    body, faults = cut_at_end(data[HEADER_BYTES:])
    while True:
        try:
            return read_stitch_file(data[:HEADER_BYTES] + body + END_RECORD), faults or [said]
        except StitchFileError as fault:
            if fault.record is None or 3 * fault.record >= len(body):
                raise
            left = len(body) // 3 - fault.record
            after = f"this and {count(left - 1, 'record')} after it are" if left > 1 else "this one is"
            faults.append(f"{fault}; {after} left out")
            body = body[: 3 * fault.record]


def cut_at_end(body: bytes) -> tuple[bytes, list[str]]:
    """The records before the first end record, and what is wrong with how the file ends."""
    for at in range(0, len(body) - 2, 3):
        if body[at : at + 3] == END_RECORD:
            more = len(body) - at - 3
            follow = "byte follows" if more == 1 else "bytes follow"
            told = f"{more} {follow} the end record: the file was added to"
            faults = [told] if more else []
            return body[:at], [] if body[at + 3 :] == CLOSING else faults
    whole = len(body) // 3
    torn = len(body) % 3
    part = f" and {count(torn, 'byte')} of another" if torn else ""
    told = f"there is no end record: the file was cut off after {count(whole, 'record')}{part}"
    return body[: 3 * whole], [told]


def count(number: int, what: str) -> str:
    """A number with what is counted.

    >>> count(1, "byte"), count(2, "byte")
    ('1 byte', '2 bytes')
    """
    return f"{number} {what}" + ("" if number == 1 else "s")
