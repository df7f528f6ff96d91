"""The file store keeps a file whole or not at all, under the sha256 of what it is."""

import errno
import hashlib
import os
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from service.storage.files import FileStore, MissingObject, StoreFull


def everything_below(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*") if path.is_file()]


def test_what_is_put_can_be_read_under_its_sha256(store):
    """sha256 of "abc": FIPS 180-2 appendix B.1."""
    kept = store.put(b"abc")
    assert kept.sha256 == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert kept.size == 3
    assert store.read(kept.sha256) == b"abc"
    assert store.path(kept.sha256).relative_to(store.folder).parts == ("ba", kept.sha256)


def test_equal_bytes_are_kept_once_even_by_many_at_a_time(store):
    with ThreadPoolExecutor(8) as threads:
        kept = set(threads.map(store.put, [b"leek" * 1000] * 32))
    assert len(kept) == 1
    assert len(everything_below(store.folder)) == 1


def test_a_full_disk_is_said_clearly_and_leaves_nothing(store, monkeypatch):
    def full(_handle):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    (store.folder / "ba").mkdir(parents=True)
    with pytest.raises(StoreFull, match=r"no room in .* 3 bytes"):
        store.put(b"abc")
    assert everything_below(store.folder) == []


@pytest.mark.slow
@pytest.mark.skipif(os.geteuid() != 0, reason="a small disk can only be made by root")
def test_a_disk_that_is_really_full_leaves_nothing(tmp_path):
    """A file system of 64 kB, made for this test, cannot hold 1 MB; a small file still fits after it."""
    import subprocess

    small = tmp_path / "small"
    small.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", small], capture_output=True)
    if mounted.returncode:
        pytest.skip("file systems cannot be mounted here")
    try:
        store = FileStore(small)
        with pytest.raises(StoreFull):
            store.put(b"x" * 1_000_000)
        assert everything_below(small) == []
        assert store.read(store.put(b"fits").sha256) == b"fits"
    finally:
        subprocess.run(["umount", small], check=True)


def test_an_interrupted_write_leaves_no_name_and_is_cleared_away(store, monkeypatch):
    """As after a kill: the part is there, the name is not."""
    monkeypatch.setattr(Path, "unlink", lambda *_, **__: None)
    monkeypatch.setattr(Path, "replace", lambda *_: (_ for _ in ()).throw(KeyboardInterrupt))
    with pytest.raises(KeyboardInterrupt):
        store.put(b"abc")
    monkeypatch.undo()
    with pytest.raises(MissingObject):
        store.read(hashlib.sha256(b"abc").hexdigest())
    assert store.clear_parts() == 1
    assert everything_below(store.folder) == []


def test_a_file_changed_on_the_disk_is_not_handed_out(store):
    kept = store.put(b"abc")
    store.path(kept.sha256).write_bytes(b"abd")
    with pytest.raises(MissingObject, match="changed on the disk"):
        store.read(kept.sha256)


def test_a_truncated_file_is_written_anew(store):
    kept = store.put(b"abc")
    store.path(kept.sha256).write_bytes(b"")
    assert not store.has(kept.sha256, size=3)
    with pytest.raises(MissingObject, match="0 bytes long, not 3"):
        store.path(kept.sha256, size=3)
    store.put(b"abc")
    assert store.read(kept.sha256) == b"abc"


@pytest.mark.parametrize("name", ["", "../../etc/passwd", "A" * 64, "0" * 63, "0" * 64 + "\n"])
def test_a_name_that_is_no_sha256_reaches_no_file(store, name):
    with pytest.raises(MissingObject):
        store.path(name)
