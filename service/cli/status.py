"""`batchbee status` and `batchbee retry`: where things stand, and setting a failed job going again."""

from __future__ import annotations

from typing import Any

import click

from service.cli.client import Client, with_client
from service.cli.following import format_progress, name_job

SHOWN = 10


@click.command()
@click.argument("batch", required=False)
@with_client
def status(client: Client, batch: str | None) -> None:
    """Say where a BATCH stands, each job on a line; without one, where the last batches stand."""
    if batch is None:
        _list_batches(client)
        return
    shown = client.get(f"/batches/{batch}")
    click.echo(format_progress(shown))
    for job in shown["jobs"]:
        click.echo(f"  {job['state']:<11}{job['id']}  {name_job(job)}. {job['message']}")


@click.command()
@click.argument("job")
@with_client
def retry(client: Client, job: str) -> None:
    """Set a JOB that failed going again."""
    again = client.post(f"/jobs/{job}/retry")
    name = name_job(again)
    click.echo(
        f"{name[0].upper()}{name[1:]} is tried again. Follow it with: batchbee status {again['batch']}"
    )


def _list_batches(client: Client) -> None:
    batches = client.get("/batches", params={"limit": SHOWN})["batches"]
    if not batches:
        click.echo("There is no batch yet. Make one with: batchbee submit FILE.json OUTLINE.svg")
    for card in batches:
        click.echo(
            f"{card['id']}  {card['state']:<11}{card['created'][:16].replace('T', ' ')}  {_about(card)}"
        )


def _about(card: dict[str, Any]) -> str:
    count = len(card["projects"])
    release = f", out on {card['release']}" if card["release"] else ""
    return f"{count} {'project' if count == 1 else 'projects'}{release}"
