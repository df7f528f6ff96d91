"""`batchbee outline`: one drawing or picture for a project, with what gives a picture its scale."""

from __future__ import annotations

from pathlib import Path

import click

from service.cli.client import Client, with_client
from service.cli.submitting import FILE, upload_outline


@click.command()
@click.argument("project")
@click.argument("file", type=FILE)
@click.option("--dpi", type=float, help="For a picture: the dots an inch it was scanned at.")
@click.option(
    "--known-length", metavar="LENGTH", help='For a picture: how far two points are apart, "100 mm".'
)
@click.option("--between", metavar="X,Y,X,Y", help="With --known-length: the two points, in pixels.")
@click.option("--page", type=int, help="Of a PDF; the first is 1.")
@click.option(
    "--overlay",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Write the picture with its outlines over it to this file (SVG).",
)
@with_client
def outline(
    client: Client,
    project: str,
    file: Path,
    dpi: float | None,
    known_length: str | None,
    between: str | None,
    page: int | None,
    overlay: Path | None,
) -> None:
    """Upload one drawing or picture FILE to the project with the id PROJECT, and say which shapes are in it.

    A picture needs a scale: --dpi, or --known-length and --between, or the calibration sheet in it.
    """
    given = {"dpi": dpi, "known_length": known_length, "between": between, "page": page}
    fields = {name: str(value) for name, value in given.items() if value is not None}
    read = upload_outline(client, project, file, fields)
    if overlay is not None:
        overlay.write_bytes(
            client.call("GET", f"/projects/{project}/outlines/{read['name']}/overlay").content
        )
        click.echo(f"Wrote {overlay}.", err=True)
