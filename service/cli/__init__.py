"""The command line: the same API, from a terminal.

Exit codes: 0 done; 1 refused, with the faults one a line; 2 wrong usage; 3 the service does not answer or
does not know the key; 4 a batch ended with something not made.
"""

from __future__ import annotations

import click

from service.cli.calibrating import calibration_sheet
from service.cli.demo import demo
from service.cli.fetching import fetch
from service.cli.keys import token
from service.cli.openapi import openapi
from service.cli.outlining import outline
from service.cli.outside import add_outside_commands
from service.cli.serving import serve
from service.cli.shopping import shopping
from service.cli.status import retry, status
from service.cli.submitting import submit

__all__ = ["main"]


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
def main() -> None:
    """The back room of a sewing studio: submit projects, follow them, fetch what was made."""


for command in (
    serve,
    submit,
    outline,
    status,
    retry,
    fetch,
    shopping,
    calibration_sheet,
    token,
    openapi,
    demo,
):
    main.add_command(command)
add_outside_commands(main)
