"""`batchbee inspect`: what a stitch file holds, and where it is wrong."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from workers.stitches.inspection import inspect_stitch_file
from workers.stitches.reading import StitchFileError

MOST_BYTES = 8_000_000
"""2.6 million records: three days without a stop at 600 stitches a minute."""


@click.command()
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
def inspect(file: Path) -> None:
    """Read a .dst stitch file back and say what is in it. Ends with 1 if it is damaged or its header is untrue."""
    size = file.stat().st_size
    if size > MOST_BYTES:
        raise click.ClickException(
            f"{file.name} has {size:,} bytes and was not read: a stitch file this large would sew for days, "
            f"so it is something else; one of {MOST_BYTES:,} bytes or less is read"
        )
    try:
        found = inspect_stitch_file(file.read_bytes())
    except StitchFileError as fault:
        raise click.ClickException(f"{file.name} cannot be sewn: {fault}") from None
    for line in _lines(file.name, found):
        click.echo(line)
    if found["header_faults"] or found["damage"]:
        raise click.exceptions.Exit(1)


def _lines(name: str, found: dict[str, Any]) -> list[str]:
    width, height = found["extents_mm"]
    told = "what can still be read of it: " if found["damage"] else ""
    lines = [f"{name} cannot be sewn: {damage}" for damage in found["damage"]]
    lines += [
        f"{name}: {told}{found['label'] or 'no label'}",
        f"  {found['stitches']} stitches, {found['stops']} stops, {found['trims']} trims, {found['jumps']} jumps",
        f"  {width:g} by {height:g} mm; stitches from {found['shortest_mm']:g} to {found['longest_mm']:g} mm",
        f"  about {found['thread_m']:g} m of thread and {found['minutes']:g} minutes of sewing",
    ]
    for fault in found["header_faults"]:
        lines.append(f"  header, {fault['field']}: it says {fault['says']}, the stitches say {fault['is']}")
    return lines
