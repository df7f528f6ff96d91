"""A name for the code that computes: while it stands, a file made from the same input stays good."""

from __future__ import annotations

import hashlib
import platform
from functools import cache
from importlib.metadata import version
from pathlib import Path

ROOT = Path(__file__).parents[2]
COMPUTING = ("service/craft", "service/look", "workers")
"""The folders whose content decides what a recipe makes."""
NOT_COMPUTING = "workers/queue"
LIBRARIES = ("ezdxf", "fonttools", "lxml", "numpy", "pillow", "shapely", "weasyprint")


@cache
def name_code() -> str:
    """The sha256 of every file of the computing rooms and of the versions of the libraries they use."""
    hashed = hashlib.sha256(platform.python_version().encode())
    for library in LIBRARIES:
        hashed.update(f"{library} {version(library)}\n".encode())
    for file in _computing_files():
        hashed.update(f"{file.relative_to(ROOT).as_posix()} {file.stat().st_size}\n".encode())
        hashed.update(file.read_bytes())
    return hashed.hexdigest()


def _computing_files() -> list[Path]:
    files = [file for folder in COMPUTING for file in (ROOT / folder).rglob("*") if file.is_file()]
    queue = ROOT / NOT_COMPUTING
    return sorted(file for file in files if "__pycache__" not in file.parts and queue not in file.parents)
