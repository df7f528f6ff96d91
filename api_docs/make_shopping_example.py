"""Writes `examples/shopping.json`: the demo series at 12.00 a yard, cut down to a cloth of several months."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import Any

from service.craft.outlines import read_svg, to_json
from service.craft.shopping import ShoppingAsked, ShoppingProject
from workers.shopping.listing import plan_shopping

KITS = 12
PRICE = {"amount": 12, "per": "36 in"}
LENGTH = re.compile(r'\{\s+("text": [^\n]+)\s+("inches": [^\n]+)\s+("mm": [^\n]+)\s+\}')
PLACE = Path(__file__).parent / "examples" / "shopping.json"


def read_projects(seed: Path) -> tuple[ShoppingProject, ...]:
    """The projects of a seed folder, named after their folders."""
    return tuple(_read(file) for file in sorted(seed.glob("*/project.json")))


def _read(file: Path) -> ShoppingProject:
    document = json.loads(file.read_text(encoding="utf-8"))
    for cloth in document["fabrics"].values():
        cloth["price_per_length"] = PRICE
    outlines = {f.name: to_json(read_svg(f.read_bytes(), f.name)) for f in sorted(file.parent.glob("*.svg"))}
    return ShoppingProject(file.parent.name, document["title"], document, outlines, document["release"])


def make_example(seed: Path, *, seconds: float = 300.0) -> dict[str, Any]:
    """Twelve kits of the projects that share a cloth, and that cloth alone; one line of each other kind."""
    projects = read_projects(seed)
    found = plan_shopping(ShoppingAsked(projects, 1, lambda: 0.0))
    shared = next(cloth for cloth in found["cloths"] if len(cloth["projects"]) > 1)
    users = {share["project"] for share in shared["projects"]}
    asked = ShoppingAsked(tuple(p for p in projects if p.id in users), KITS, lambda: seconds)
    listed = {"series": "demo", "release": None, **plan_shopping(asked)}
    return listed | {
        "cloths": [cloth for cloth in listed["cloths"] if cloth["name"] == shared["name"]],
        **{kind: listed[kind][:1] for kind in ("batting", "fusible", "threads")},
    }


def write_example(example: dict[str, Any]) -> str:
    """As text, a length on one line."""
    return LENGTH.sub(r"{\1 \2 \3}", json.dumps(example, ensure_ascii=False, indent=1)) + "\n"


if __name__ == "__main__":
    PLACE.write_text(write_example(make_example(Path(sys.argv[1]))), encoding="utf-8")
