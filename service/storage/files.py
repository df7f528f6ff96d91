"""The file store: bytes under the sha256 of what they are, written whole or not at all."""

from __future__ import annotations

import errno
import hashlib
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from uuid import uuid4

NAME = re.compile(r"[0-9a-f]{64}\Z")
PART = ".part"
FULL = (errno.ENOSPC, errno.EDQUOT)


class StoreFull(OSError):
    """There is no room left for a file; nothing of it was kept."""

    def __init__(self, folder: Path, size: int) -> None:
        super().__init__(
            errno.ENOSPC, f"no room in {folder} for a file of {size} bytes; free some space and retry"
        )


class MissingObject(LookupError):
    """A file that the database knows is not in the store, or is not what it was."""


@dataclass(frozen=True)
class StoredObject:
    """What was put in the store: its name there, and its size in bytes."""

    sha256: str
    size: int


class FileStore:
    """Files under `folder/objects/ab/ab12…`. Putting the same bytes twice keeps them once."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "objects"

    def put(self, data: bytes) -> StoredObject:
        """Keep `data`; it is on the disk when this returns. `StoreFull` when it does not fit."""
        sha256 = hashlib.sha256(data).hexdigest()
        target = self._place(sha256)
        if not _holds(target, len(data)):
            try:
                _write_whole(target, data)
            except OSError as why:
                if why.errno in FULL:
                    raise StoreFull(self.folder, len(data)) from why
                raise
        return StoredObject(sha256, len(data))

    def path(self, sha256: str, *, size: int | None = None) -> Path:
        """Where the file lies; `MissingObject` when it is not there or not `size` bytes long."""
        place = self._place(sha256)
        if not place.is_file():
            raise MissingObject(f"the stored file {sha256} is missing from {self.folder}")
        if size is not None and place.stat().st_size != size:
            raise MissingObject(f"the stored file {sha256} is {place.stat().st_size} bytes long, not {size}")
        return place

    def has(self, sha256: str, *, size: int) -> bool:
        """Whether the file is there in full length."""
        return _holds(self._place(sha256), size)

    def read(self, sha256: str) -> bytes:
        """The bytes, held against their name: a file that was changed on the disk is `MissingObject`."""
        data = self.path(sha256).read_bytes()
        if hashlib.sha256(data).hexdigest() != sha256:
            raise MissingObject(f"the stored file {sha256} was changed on the disk; restore it from a copy")
        return data

    def clear_parts(self) -> int:
        """Remove what interrupted writes left behind; only while no writer runs. How many there were."""
        left = list(self.folder.glob(f"*/*{PART}"))
        for part in left:
            part.unlink(missing_ok=True)
        return len(left)

    def _place(self, sha256: str) -> Path:
        if not NAME.match(sha256):
            raise MissingObject(f"{sha256!r} is not the name of a stored file")
        return self.folder / sha256[:2] / sha256


def _holds(place: Path, size: int) -> bool:
    try:
        return place.stat().st_size == size
    except FileNotFoundError:
        return False


def _write_whole(target: Path, data: bytes) -> None:
    """A reader sees the whole file or none: the name is given last, after the bytes are on the disk."""
    if not target.parent.is_dir():
        target.parent.mkdir(parents=True, exist_ok=True)
        _sync_folder(target.parent.parent)
    with _part_beside(target) as part:
        with part.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.replace(target)
    _sync_folder(target.parent)


@contextmanager
def _part_beside(target: Path) -> Iterator[Path]:
    part = target.parent / f"{uuid4().hex}{PART}"
    try:
        yield part
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def _sync_folder(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
