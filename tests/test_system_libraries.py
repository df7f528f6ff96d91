"""`.ci/system-libraries`: a missing Pango is installed where that is possible, and named where it is not."""

import os
import subprocess
from pathlib import Path

import pytest

SCRIPT = Path(__file__).parents[1] / ".ci" / "system-libraries"
PACKAGES = {"libpango-1.0-0", "libpangoft2-1.0-0"}


@pytest.fixture
def machine(tmp_path):
    """A machine of stand-ins: a python that has Pango once the file `pango` is there, an apt-get that makes it."""

    def command(name, body):
        file = tmp_path / "bin" / name
        file.parent.mkdir(exist_ok=True)
        file.write_text(f"#!/bin/sh\n{body}\n")
        file.chmod(0o755)

    def run(*, user, installs=True, has=False):
        if has:
            (tmp_path / "pango").touch()
        command("python", f'test -e "{tmp_path}/pango"')
        command("id", f"echo {user}")
        work = f'touch "{tmp_path}/pango"' if installs else "exit 100"
        command("apt-get", f'echo "$@" >> "{tmp_path}/asked"\ncase "$*" in *install*) {work};; esac')
        result = subprocess.run(
            ["/bin/sh", SCRIPT, "python"],
            capture_output=True,
            text=True,
            env={**os.environ, "PATH": f"{tmp_path}/bin:/bin:/usr/bin"},
        )
        asked = tmp_path / "asked"
        return result, asked.read_text() if asked.exists() else ""

    return run


def test_nothing_is_done_where_pango_is_there(machine):
    result, asked = machine(user=0, has=True)
    assert (result.returncode, result.stdout + result.stderr, asked) == (0, "", "")


def test_root_gets_it_installed_and_is_told(machine):
    result, asked = machine(user=0)
    assert result.returncode == 0
    assert "installing it" in result.stdout
    assert set(asked.split()) >= PACKAGES


@pytest.mark.parametrize(("user", "installs"), [(1000, True), (0, False)], ids=["not root", "install fails"])
def test_otherwise_the_command_is_named_and_the_set_up_ends(machine, user, installs):
    result, _ = machine(user=user, installs=installs)
    assert result.returncode == 1
    assert "sudo apt-get install" in result.stderr
    assert all(package in result.stderr for package in PACKAGES)
