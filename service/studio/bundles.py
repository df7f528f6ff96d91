"""Several projects' bundles in one: each in a folder of its own, the same bytes every time."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Sequence

from service.craft.tracks import slug

EPOCH = (1980, 1, 1, 0, 0, 0)
"""The earliest date a zip can hold: the time of making is no part of what is in it."""
UNIX, PLAIN_FILE = 3, 0o100644 << 16


def join_bundles(bundles: Sequence[tuple[str, bytes]]) -> bytes:
    """One zip from (title, zip) pairs, a folder each, named after the title and in the given order.

    >>> join_bundles([])[:2]
    b'PK'
    """
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as joined:
        for folder, data in zip(name_folders([title for title, _ in bundles]), bundles, strict=True):
            with zipfile.ZipFile(io.BytesIO(data[1])) as bundle:
                for entry in bundle.infolist():
                    joined.writestr(_entry(f"{folder}/{entry.filename}"), bundle.read(entry))
    return out.getvalue()


def name_folders(titles: Sequence[str]) -> list[str]:
    """A folder name for each title, told apart by a number where titles are alike.

    >>> name_folders(["Leek Row", "Beans", "leek row"])
    ['leek-row', 'beans', 'leek-row-2']
    """
    names: list[str] = []
    for title in titles:
        name, number = slug(title), 1
        while (candidate := name if number == 1 else f"{name}-{number}") in names:
            number += 1
        names.append(candidate)
    return names


def _entry(name: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name, EPOCH)
    entry.compress_type = zipfile.ZIP_DEFLATED
    entry.create_system, entry.external_attr = UNIX, PLAIN_FILE
    return entry
