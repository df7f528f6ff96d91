"""Commands that live with the workers. They are found by their entry point: nothing here imports a worker."""

from __future__ import annotations

from importlib.metadata import entry_points

import click

GROUP = "batchbee.commands"
"""The entry point group that names them, in pyproject.toml."""


def add_outside_commands(group: click.Group) -> None:
    """Add every command that the installed distribution names."""
    for entry in entry_points(group=GROUP):
        command = entry.load()
        if isinstance(command, click.Command):
            group.add_command(command, entry.name)
