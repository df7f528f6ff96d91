"""`batchbee fetch`: what was made, into a folder, every byte checked."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Any

import click

from service.cli.client import Client, Refused, with_client


@click.command()
@click.option("--project", metavar="ID", help="Every file of a project.")
@click.option("--release", metavar="DATE", help="The bundles of a release date, as 2027-01-20.")
@click.option("--track", help="With --release: the bundle of this track alone.")
@click.option(
    "--to", "folder", required=True, type=click.Path(file_okay=False, path_type=Path), help="Where to."
)
@with_client
def fetch(client: Client, project: str | None, release: str | None, track: str | None, folder: Path) -> None:
    """Download what was made and check each file against its sha256."""
    if (project is None) == (release is None):
        raise click.UsageError("Say --project ID or --release DATE.")
    if track is not None and release is None:
        raise click.UsageError("--track goes with --release.")
    if release is not None:
        fetched = fetch_release(client, release, folder, track=track)
    else:
        fetched = fetch_project(client, str(project), folder)
    for file in fetched:
        click.echo(file)
    click.echo(
        f"{len(fetched)} {'file' if len(fetched) == 1 else 'files'} in {folder}, all checked.", err=True
    )


def fetch_project(client: Client, project_id: str, folder: Path) -> list[Path]:
    """Every newest file of a project."""
    artifacts = client.get(f"/projects/{project_id}/artifacts")["artifacts"]
    if not artifacts:
        raise Refused(
            {"detail": "Nothing is made yet for this project. Submit it first: batchbee submit FILE.json"}
        )
    return [
        _keep(client, f"/artifacts/{a['id']}/content", folder / _safe_name(a["name"]), a["sha256"])
        for a in artifacts
    ]


def fetch_release(client: Client, on: str, folder: Path, *, track: str | None = None) -> list[Path]:
    """The bundles of a release date: of one track, or of every track that is made."""
    release = client.get(f"/releases/{on}")
    tracks = [t for t in release["tracks"] if track in (None, t["name"], t["slug"])]
    if not tracks:
        names = ", ".join(f'"{t["name"]}"' for t in release["tracks"])
        raise Refused({"detail": f'There is no track "{track}" on {on}; there are {names}.'})
    missing = [t["name"] for t in tracks if not t["ready"]]
    if missing:
        names = ", ".join(f'"{name}"' for name in missing)
        raise Refused(
            {"detail": f"Not made yet on {on}: {names}. Submit the project, or see batchbee status."}
        )
    return [
        _keep(client, t["href"], folder / _safe_name(f"bundle-{t['slug']}.zip"), _known_sum(t))
        for t in tracks
    ]


def _known_sum(track: dict[str, Any]) -> str | None:
    """The checksum told beforehand; several bundles in one zip have theirs in the ETag alone."""
    return track["bundles"][0]["sha256"] if len(track["bundles"]) == 1 else None


def _keep(client: Client, path: str, target: Path, sha256: str | None) -> Path:
    """Download one file; it takes its name only once its sum is right. One that is there already stays."""
    if sha256 and target.is_file() and hashlib.sha256(target.read_bytes()).hexdigest() == sha256:
        return target
    answer = client.download(path)
    expected = sha256 or answer.headers.get("ETag", "").strip('"')
    found = hashlib.sha256(answer.content).hexdigest()
    if found != expected:
        raise Refused({"detail": f"{target.name} came with the sum {found}, not {expected}. Fetch it again."})
    target.parent.mkdir(parents=True, exist_ok=True)
    part = target.with_name(f"{target.name}.part")
    part.write_bytes(answer.content)
    part.replace(target)
    return target


def _safe_name(name: str) -> str:
    """A file name alone: never a path, whatever the service says."""
    if name in ("", ".", "..") or set(name) & set("/\\\0"):
        raise Refused({"detail": f"The service named a file {name!r}, which cannot be a file here."})
    return name
