"""Commands that live with the workers. They are loaded by name: nothing here imports a worker."""

from __future__ import annotations

from importlib import import_module
from importlib.util import find_spec

import click

COMMANDS = {
    "bench": "workers.cutting.bench:bench",
    "inspect": "workers.stitches.inspect:inspect",
}
"""Name of the command -> `module:attribute`, a click command. One that is not there is left out."""


def add_outside_commands(group: click.Group) -> None:
    """Add those of the commands whose module is there."""
    for name, place in COMMANDS.items():
        module, _, attribute = place.partition(":")
        if find_spec(module.rpartition(".")[0]) is None or find_spec(module) is None:
            continue
        command = getattr(import_module(module), attribute)
        if isinstance(command, click.Command):
            group.add_command(command, name)
