"""`batchbee calibration-sheet`: the sheet that gives pictures of shapes their scale."""

from __future__ import annotations

from pathlib import Path

import click

from service.cli.client import Client, with_client
from service.craft.calibration import SHEETS


@click.command("calibration-sheet")
@click.option(
    "--paper", type=click.Choice([sheet.paper for sheet in SHEETS]), default="A4", show_default=True
)
@click.option("--to", "file", type=click.Path(dir_okay=False, path_type=Path), help="The file to write.")
@with_client
def calibration_sheet(client: Client, paper: str, file: Path | None) -> None:
    """Write the calibration sheet as a PDF to print at 100 %."""
    file = file or Path(f"calibration-sheet-{paper}.pdf")
    file.write_bytes(client.call("GET", "/calibration-sheet", params={"paper": paper}).content)
    click.echo(f"Wrote {file}. Print it at 100 % and measure its square: 50 mm both ways.")
