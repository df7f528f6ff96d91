"""`batchbee token`: another key."""

from __future__ import annotations

import click

from service.cli.client import Client, with_client


@click.command()
@click.argument("name")
@click.option("--role", type=click.Choice(["maker", "assistant"]), default="assistant", show_default=True)
@click.option("--expires", metavar="MOMENT", help="When it ends, as 2027-12-31T23:59:59Z.")
@with_client
def token(client: Client, name: str, role: str, expires: str | None) -> None:
    """Make a key for NAME and print its secret, which is shown this once."""
    made = client.post("/tokens", json={"name": name, "role": role, "expires": expires})
    click.echo(made["secret"])
    click.echo(
        f"A key for {made['name']} ({made['role']}). It is not shown again; revoke it as {made['id']}.",
        err=True,
    )
