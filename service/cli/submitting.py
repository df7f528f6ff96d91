"""`batchbee submit`: a project file and its drawings, all the way to a batch."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click

from service.api.bodies import NotJson, parse_json
from service.cli.client import Client, Refused, format_fault, with_client
from service.cli.following import check_all_made, follow

FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


@click.command()
@click.argument("file", type=FILE)
@click.argument("outlines", nargs=-1, type=FILE)
@click.option("--series", help="The id of the series it belongs to.")
@click.option("--release", metavar="DATE", help="The date it comes out, as 2027-01-20.")
@click.option("--follow/--no-follow", "following", default=True, help="Wait until everything is made.")
@with_client
def submit(
    client: Client,
    file: Path,
    outlines: tuple[Path, ...],
    series: str | None,
    release: str | None,
    following: bool,
) -> None:
    """Store the project FILE (or change the one with its title), upload its OUTLINES, and submit it."""
    project = store_project(client, read_project(file), series=series, release=release)
    for outline in outlines:
        upload_outline(client, project["id"], outline)
    check_ready(client, project["id"])
    batch = submit_batch(client, {"projects": [project["id"]]})
    click.echo(batch["id"])
    if following:
        check_all_made(follow(client, batch["id"]))
        click.echo(
            f"Everything is made. Fetch it with: batchbee fetch --project {project['id']} --to FOLDER",
            err=True,
        )


def read_project(file: Path) -> dict[str, Any]:
    """The project document in a file; `Refused` with where it cannot be read."""
    try:
        document = parse_json(file.read_bytes())
    except NotJson as why:
        raise Refused({"detail": f"{file} cannot be read as JSON: {why}."}) from why
    except OSError as why:
        raise Refused({"detail": f"{file} cannot be read: {why.strerror}."}) from why
    if not isinstance(document, dict):
        raise Refused({"detail": f"{file} is not a project: it does not hold an object in braces {{}}."})
    return document


def store_project(
    client: Client, document: dict[str, Any], *, series: str | None = None, release: str | None = None
) -> dict[str, Any]:
    """Store a document, in place of the project with the same title where there is one."""
    known = _find_known(client, document, series)
    beside = {"series": series, "release": release}
    body = {**document, **{name: value for name, value in beside.items() if value is not None}}
    if known is None:
        made: dict[str, Any] = client.post("/projects", json=body)
        click.echo(f'Stored "{made["title"]}" as {made["id"]}.', err=True)
        return made
    # Where it is filed stays unless somebody says otherwise.
    body = {"series": known["series"], "release": known["release"], **body, "id": known["id"]}
    path = f"/projects/{known['id']}"
    tag = client.call("GET", path).headers["ETag"]
    changed: dict[str, Any] = client.call("PUT", path, json=body, headers={"If-Match": tag}).json()
    click.echo(
        f'Changed "{changed["title"]}" ({changed["id"]}), now revision {changed["revision"]}.', err=True
    )
    return changed


def upload_outline(
    client: Client, project_id: str, file: Path, fields: Mapping[str, str] | None = None
) -> dict[str, Any]:
    """Upload one drawing or picture and say which shapes are in it. `fields` give a picture its scale."""
    send = {"file": (file.name, file.read_bytes())}
    try:
        read: dict[str, Any] = client.post(f"/projects/{project_id}/outlines", files=send, data=fields)
    except Refused as why:
        raise Refused({"detail": f"{file}: {why.message}", "errors": why.errors}) from why
    shapes = ", ".join(f"{s['name']} ({s['width']['text']} x {s['height']['text']})" for s in read["shapes"])
    click.echo(f"Read {file.name}: {shapes}.", err=True)
    for note in read["notes"]:
        click.echo(f"  note: {note}", err=True)
    return read


def check_ready(client: Client, project_id: str) -> None:
    """Say what to look at; `Refused` with what stands in the way."""
    check = client.get(f"/projects/{project_id}/check")
    for warning in check["warnings"]:
        click.echo(f"  look at {format_fault(warning)}", err=True)
    if not check["ready"]:
        raise Refused({"detail": "The project is not ready for a batch.", "errors": check["faults"]})


def submit_batch(client: Client, body: dict[str, Any]) -> dict[str, Any]:
    """Submit once, whatever the network does: a repeat with the same key makes no second batch."""
    headers = {"Idempotency-Key": str(uuid.uuid4())}
    made: dict[str, Any] = client.post("/batches", json=body, headers=headers)
    count = len(made["jobs"])
    click.echo(f"Submitted: {count} {'thing' if count == 1 else 'things'} to make.", err=True)
    return made


def _find_known(client: Client, document: dict[str, Any], series: str | None) -> dict[str, Any] | None:
    """The stored project that is meant: by its id, else by its title; never one of another series."""
    if isinstance(document.get("id"), str):
        card: dict[str, Any] = client.get(f"/projects/{document['id']}")
        return card
    title = document.get("title")
    if not isinstance(title, str) or not title.strip():
        return None
    alike = client.get("/projects", params={"title": title.strip()})["projects"]
    wanted = series or document.get("series")
    found: list[dict[str, Any]] = [c for c in alike if wanted is None or c["series"] in (wanted, None)]
    if len(found) > 1:
        ids = ", ".join(card["id"] for card in found)
        words = f'There are {len(found)} projects called "{title}" ({ids}).'
        raise Refused({"detail": f"{words} Write the `id` of the one you mean into the file."})
    return found[0] if found else None
