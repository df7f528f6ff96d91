"""`batchbee shopping`: what to buy, as lines to read or as a table."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

import click

from service.api.schemas.common import DATE_RIGHT
from service.cli.client import Client, with_client
from service.craft.cutting_choices import YARD
from service.craft.measure import format_inches
from service.craft.shopping import MOST_KITS

SHOP_FRACTION = Fraction(1, 8)
"""Of a yard: what shops cut by."""
UNKNOWN = "price unknown"
NEEDS_SECONDS = 90.0
"""A whole series may wait for another list, and then takes its own time."""


@click.command()
@click.option("--project", metavar="ID", help="For one project.")
@click.option("--series", metavar="ID", help="For every project of a series.")
@click.option("--release", metavar="DATE", help=f"With --series: for one release alone; {DATE_RIGHT}.")
@click.option(
    "--kits", type=click.IntRange(1, MOST_KITS), default=1, show_default=True, help="How many kits."
)
@click.option("--csv", "as_table", is_flag=True, help="As a table for a spreadsheet (CSV).")
@with_client
def shopping(
    client: Client, project: str | None, series: str | None, release: str | None, kits: int, as_table: bool
) -> None:
    """Say what to buy for a number of kits, what buying at once saves, and the studio's own beside it."""
    if (project is None) == (series is None):
        raise click.UsageError("Say --project ID or --series ID.")
    if release is not None and series is None:
        raise click.UsageError("--release goes with --series.")
    path = f"/projects/{project}/shopping" if project is not None else f"/series/{series}/shopping"
    asked = {"kits": str(kits), "format": "csv" if as_table else "json"}
    if release is not None:
        asked["release"] = release
    answer = client.call("GET", path, params=asked, timeout=NEEDS_SECONDS)
    if as_table:
        click.echo(answer.text, nl=False)
        return
    for line in list_lines(answer.json()):
        click.echo(line)


def list_lines(found: Mapping[str, Any]) -> Iterator[str]:
    """A list as lines to read."""
    titles = {project["id"]: project["title"] for project in found["projects"]}
    kits = found["kits"]
    yield f"{', '.join(titles.values())}: {kits} {'kit' if kits == 1 else 'kits'}"
    for cloth in found["cloths"]:
        yield from _say_cloth(cloth, titles)
    for batting in found["batting"]:
        sold = batting["sold_as"]
        packet = f" (a packet called {sold['name']})" if sold else ""
        size = f"{batting['width']['text']} by {batting['height']['text']}"
        yield f"batting for {titles[batting['project']]}: {size}{packet}"
    for web in found["fusible"]:
        yield (
            f"fusible web for {titles[web['project']]}, {web['width']['text']} wide: {web['one_kit']['text']} a kit"
            f" ({', '.join(web['tracks'])})"
        )
    for thread in found["threads"]:
        yield f"thread {thread['name']}: about {thread['one_kit_about_metres']:g} m a kit"
    yield from _say_cost(found["cost"])
    yield from (f"Note: {note}" for note in found["notes"])


def _say_cloth(cloth: Mapping[str, Any], titles: Mapping[str, str]) -> Iterator[str]:
    saved = cloth["saved"]["in_all"]
    yield f"{cloth['name']}: buy {_say(cloth['at_once'])}"
    yield f"  one viewer {_say(cloth['one_kit'])}; the studio {_say(cloth['studio']['by_project'])}"
    if cloth["in_pieces"]:
        sold = cloth["in_pieces"]
        yield f"  or in pieces ({sold['name']}): {_count(sold['at_once'])}; one viewer {_count(sold['one_kit'])}"
    if cloth["studio"]["after_stash"]:
        yield f"  the studio, when what is at home is cut first: {_say(cloth['studio']['after_stash'])}"
    if saved["buy"]["inches"]:
        yield f"  bought kit by kit {_say(cloth['apart'])}: buying at once saves {_say(saved)}"
    if len(cloth["projects"]) > 1:
        names = ", ".join(titles[share["project"]] for share in cloth["projects"])
        yield f"  for {names}"
    yield from (f"  {note}" for note in cloth["notes"])


def _say(bought: Mapping[str, Any]) -> str:
    cost = "" if bought["cost"] is None else f" for {bought['cost']:.2f}"
    return f"{say_length(bought['buy'])}{cost}"


def say_length(length: Mapping[str, Any]) -> str:
    """A length to buy, with the yards a shop cuts it in beside the inches.

    >>> say_length({"text": "22 1/2 in", "inches": 22.5}), say_length({"text": "60 cm", "inches": 23.622047})
    ('22 1/2 in (5/8 yd)', '60 cm')
    """
    yards = Fraction(str(length["inches"])) / YARD
    if not yards or (yards / SHOP_FRACTION).denominator != 1:
        return str(length["text"])
    return f"{length['text']} ({format_inches(yards).removesuffix(' in')} yd)"


def _count(bought: Mapping[str, Any]) -> str:
    cost = "" if bought["cost"] is None else f" for {bought['cost']:.2f}"
    return f"{bought['count']}{cost}"


def _say_cost(cost: Mapping[str, Any]) -> Iterator[str]:
    if cost["at_once"] is not None:
        yield f"Together {cost['at_once']:.2f}; one viewer {cost['one_kit']:.2f}; the studio {cost['studio']:.2f}."
    if not cost["complete"]:
        yield f"{UNKNOWN.capitalize()}, and in no sum: {', '.join(cost['price_unknown'])}"
