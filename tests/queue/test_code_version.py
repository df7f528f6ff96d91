"""The name of the code changes with every file that computes, and with nothing else."""

from pathlib import Path

import pytest

from workers.queue import code_version


@pytest.fixture
def name_code(tmp_path, monkeypatch):
    """Names a small tree in place of the real one."""
    monkeypatch.setattr(code_version, "ROOT", tmp_path)
    for file in ("service/craft/a.py", "service/look/b.css", "workers/cutting/c.py", "workers/queue/d.py"):
        write(tmp_path / file, "1")
    return code_version.name_code.__wrapped__


def write(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text)


@pytest.mark.parametrize("file", ["service/craft/a.py", "service/look/b.css", "workers/cutting/new.html"])
def test_a_changed_or_new_computing_file_changes_the_name(name_code, tmp_path, file):
    before = name_code()
    write(tmp_path / file, "2")
    assert name_code() != before


@pytest.mark.parametrize(
    "file", ["workers/queue/d.py", "service/api/e.py", "workers/cutting/__pycache__/c.pyc"]
)
def test_other_files_do_not(name_code, tmp_path, file):
    before = name_code()
    write(tmp_path / file, "2")
    assert name_code() == before


def test_the_real_tree_has_computing_files():
    files = {file.relative_to(code_version.ROOT).as_posix() for file in code_version._computing_files()}
    assert {"service/craft/tracks.py", "workers/recipe.py"} <= files
