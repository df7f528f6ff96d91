"""`batchbee openapi`: writes the reference of the API."""

from __future__ import annotations

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import click

from service.api.document import write_document
from service.app import create_app
from service.settings import Settings

PLACE = Path("api_docs") / "openapi.json"


@click.command()
@click.option(
    "--to", "file", type=click.Path(dir_okay=False, path_type=Path), default=PLACE, show_default=True
)
@click.option("--check", is_flag=True, help="Write nothing; fail where the file is not current.")
def openapi(file: Path, check: bool) -> None:
    """Write the OpenAPI document, made from the routes."""
    with TemporaryDirectory() as folder:
        text = write_document(create_app(Settings.for_folder(Path(folder))))
    if check:
        current = file.is_file() and file.read_text(encoding="utf-8") == text
        click.echo(f"{file} is {'current' if current else 'not current: run batchbee openapi'}.", err=True)
        sys.exit(0 if current else 1)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")
    click.echo(f"Wrote {file}.", err=True)
