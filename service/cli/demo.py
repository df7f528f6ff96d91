"""`batchbee demo`: the whole job on a folder of projects, on a service of its own."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import click

from service.cli.client import Client, NoService, Refused, find_key
from service.cli.fetching import fetch_release
from service.cli.following import check_all_made, follow
from service.cli.submitting import check_ready, read_project, store_project, submit_batch, upload_outline

READY_SECONDS = 90.0
END_SECONDS = 60.0
LOG_LINES = 20


@dataclass(frozen=True)
class Month:
    """One project of the seed folder."""

    name: str
    document: dict[str, Any]
    outlines: tuple[Path, ...]


@click.command()
@click.option("--seed", required=True, type=click.Path(exists=True, file_okay=False, path_type=Path))
@click.option("--to", "folder", required=True, type=click.Path(file_okay=False, path_type=Path))
@click.option("--months", type=click.IntRange(1), help="Only the first so many projects.")
def demo(seed: Path, folder: Path, months: int | None) -> None:
    """Submit every project of a seed folder as one series, and leave the bundles in a folder.

    The seed folder has a folder a month: project.json, and its drawings as *.svg. Its series.json says what
    the series is called.
    """
    begun = time.monotonic()
    plan = read_seed(seed)[:months]
    _say(begun, f"Starting a service of its own for {len(plan)} projects of {seed}.")
    with serving() as client:
        _say(begun, "It is ready.")
        series = client.post("/series", json=read_series(seed))
        dates = sorted({_store(client, month, series["id"], begun) for month in plan})
        # all at once, as a studio does it: the workers then never wait for the last job of a month
        batches = {on: submit_batch(client, {"series": series["id"], "release": on}) for on in dates}
        for on, batch in batches.items():
            _say(begun, f"What comes out on {on}:")
            check_all_made(follow(client, batch["id"]))
        for on in dates:
            for file in fetch_release(client, on, folder / on):
                click.echo(file)
    _say(begun, f"Done. The bundles are in {folder.absolute()}.")


def read_seed(seed: Path) -> list[Month]:
    """The projects of a seed folder in the order of their folders' names."""
    files = sorted(seed.glob("*/project.json"))
    if not files:
        raise Refused(
            {"detail": f"{seed} holds no project: a folder a month with a project.json is expected."}
        )
    found = [Month(f.parent.name, read_project(f), tuple(sorted(f.parent.glob("*.svg")))) for f in files]
    undated = [month.name for month in found if not isinstance(month.document.get("release"), str)]
    if undated:
        raise Refused({"detail": f"No `release` date is written in project.json of: {', '.join(undated)}."})
    return found


def read_series(seed: Path) -> dict[str, Any]:
    """The series of a seed folder: what series.json says, else its title after the folder."""
    file = seed / "series.json"
    return read_project(file) if file.is_file() else {"title": seed.resolve().name}


@contextmanager
def serving() -> Iterator[Client]:
    """A service in a temporary folder on a free port; gone when the block ends."""
    with TemporaryDirectory(prefix="batchbee-demo-") as place:
        data, log, port = Path(place) / "data", Path(place) / "serve.log", _free_port()
        command = [sys.executable, "-m", "service.cli", "serve", "--data", str(data), "--port", str(port)]
        with log.open("wb") as out:
            process = subprocess.Popen(command, stdout=out, stderr=out)  # noqa: S603  # our own command, no shell
        client = None
        try:
            _wait_until_ready(f"http://127.0.0.1:{port}", process, log)
            client = Client(f"http://127.0.0.1:{port}", find_key("", data))
            yield client
        finally:
            if client is not None:
                client.close()
            _end(process)


def _store(client: Client, month: Month, series: str, begun: float) -> str:
    _say(begun, f"{month.name}: {month.document.get('title')}")
    project = store_project(client, month.document, series=series)
    for outline in month.outlines:
        upload_outline(client, project["id"], outline)
    check_ready(client, project["id"])
    return str(project["release"])


def _wait_until_ready(url: str, process: subprocess.Popen[bytes], log: Path) -> None:
    deadline = time.monotonic() + READY_SECONDS
    asker = Client(url)
    try:
        while time.monotonic() < deadline and process.poll() is None:
            try:
                asker.call("GET", "/readyz")
                return
            except (NoService, Refused):
                time.sleep(0.2)
    finally:
        asker.close()
    last = "\n".join(log.read_text(errors="replace").splitlines()[-LOG_LINES:])
    raise NoService(f"The service did not come up. Its last words:\n{last}")


def _end(process: subprocess.Popen[bytes]) -> None:
    process.send_signal(signal.SIGTERM)
    try:
        process.wait(END_SECONDS)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def _say(begun: float, words: str) -> None:
    click.echo(f"{time.monotonic() - begun:6.1f} s  {words}", err=True)
