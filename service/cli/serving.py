"""`batchbee serve`: the whole service from one command."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import click

from service.settings import BadSetting, Settings
from service.storage.migrate import migrate
from service.storage.session import Database
from service.storage.times import utc_now
from service.studio.keys import ensure_maker_token
from service.supervise import Supervisor

PORT = 8350


@click.command()
@click.option(
    "--data",
    type=click.Path(path_type=Path),
    help="The folder that keeps everything. [env: BATCHBEE_DATA; ./data]",
)
@click.option("--host", help="Where to listen. [env: BATCHBEE_HOST; 127.0.0.1]")
@click.option(
    "--port",
    envvar="BATCHBEE_PORT",
    type=click.IntRange(1, 65535),
    default=PORT,
    show_default=True,
    help="The port.",
)
def serve(data: Path | None, host: str | None, port: int) -> None:
    """Serve the API and compute what is submitted, until Ctrl-C."""
    try:
        settings = settings_for(data, host, port)
        _prepare_key(settings)
    except (BadSetting, ValueError) as why:
        raise click.UsageError(str(why)) from why
    sys.exit(Supervisor(settings, _say).run())


def settings_for(data: Path | None, host: str | None, port: int) -> Settings:
    """The settings of the environment, and what the command line says instead."""
    settings = Settings.from_env()
    if data is not None:
        own_database = settings.database_url == Settings.for_folder(settings.data).database_url
        chosen = Settings.for_folder(data.absolute())
        settings = replace(
            settings,
            data=chosen.data,
            database_url=chosen.database_url if own_database else settings.database_url,
        )
    return replace(settings, host=host or settings.host, port=port)


def _prepare_key(settings: Settings) -> None:
    """See to it that there is a maker's key, and say where."""
    database = Database(settings.database_url)
    try:
        settings.data.mkdir(parents=True, exist_ok=True)
        migrate(database)
        written = ensure_maker_token(database, settings.data, now=utc_now(), fixed=settings.maker_token)
    except OSError as why:
        raise click.ClickException(f"The data folder {settings.data} cannot be used: {why}") from why
    finally:
        database.close_idle()
    if written is not None:
        _say(f"The maker's key was written to {written}; keep it to yourself.")


def _say(words: str) -> None:
    click.echo(words, err=True)
