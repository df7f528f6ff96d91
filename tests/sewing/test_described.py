"""`api_docs/sewing.md` and its example against plans made now."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from api_docs.make_sewing_example import ELSEWHERE, PLACE, make_example, write_example

ROOT = Path(__file__).parents[2]


def test_the_example_is_the_plan_as_it_is_made_today() -> None:
    """Written anew from the seed data, it is the same to the byte; `make docs` writes it."""
    assert PLACE.read_text(encoding="utf-8") == write_example(make_example(ROOT / "seed_data"))


def names_in(value: Any) -> Iterator[str]:
    """Every field name in a JSON value."""
    if isinstance(value, dict):
        for name, inner in value.items():
            if name not in ELSEWHERE:
                yield name
                yield from names_in(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from names_in(inner)


def test_every_field_is_described(units: SimpleNamespace, sewn: Callable[..., SimpleNamespace]) -> None:
    """Of plans with spun and open seams, two ways of pressing, junctions that fail and spare triangles."""
    described = set(re.findall(r"`([a-z_]+)`", (ROOT / "api_docs" / "sewing.md").read_text(encoding="utf-8")))
    piece = units.strips(("frost", "3"), ("soil", "3"))
    spare = units.corners(leg="3/2") | {"spare_triangles": True}
    tops = [
        units.grid(["b", "b"], ["b", "b"]),
        units.grid([piece], [piece]),
        units.quarters("frost", "leaf", "frost", "leaf"),
        spare,
    ]
    used: set[str] = set()
    for top in tops:
        used |= set(names_in(sewn(units.document(top, {"b": units.odd_block()})).plan))
    assert {"other_ways", "halves", "why", "visits"} <= used
    assert used - described - {"text", "inches", "mm"} == set()


def test_the_fields_of_spare_triangles_are_those_of_a_plan(
    units: SimpleNamespace, sewn: Callable[..., SimpleNamespace]
) -> None:
    """Neither one too few nor one that no plan has."""
    page = (ROOT / "api_docs" / "sewing.md").read_text(encoding="utf-8")
    (row,) = re.findall(r"^\| `spare` \| (.*) \|$", page, re.MULTILINE)
    corners = units.corners(side="7", leg="3 1/2") | {"spare_triangles": True}
    (stage,) = sewn(units.document(corners)).plan["stages"]
    assert set(re.findall(r"`([a-z_]+)`", row)) == set(stage["spare"])


def test_the_example_shows_a_spun_seam() -> None:
    """Its halves make up the seam."""
    (seam,) = json.loads(PLACE.read_text(encoding="utf-8"))["seams"]
    assert seam["press"] == "spun"
    assert [seam["halves"][0]["line"][0], seam["halves"][1]["line"][1]] == seam["line"]
