"""Small garden projects whose cloth can be reckoned by hand."""

from __future__ import annotations

from typing import Any

from service.craft.shopping import ShoppingAsked, ShoppingProject
from workers.shopping.listing import plan_shopping

Json = dict[str, Any]

FROST: Json = {
    "name": "frost white",
    "colour": "#eef1ee",
    "usable_width": "40",
    "straightening": 0,
    "buying_step": "1/8 yd",
    "price_per_length": {"amount": 12, "per": "36"},
}
"""40 in wide, 12.00 a yard, sold in steps of 4 1/2 in (1.50 each), nothing lost in the wash or at the end."""


def bed(title: str, rows: int, columns: int, cloth: Json | None = None, **more: Any) -> Json:
    """A bed of patches, each cut 10 in square: four to a strip 10 in high across 40 in."""
    patch = {"unit": "patch", "size": ["9 1/2", "9 1/2"], "fabric": "ground"}
    row = {"unit": "grid", "rows": [[patch] * columns]}
    top = {"unit": "grid", "rows": [["row"]] * rows}
    fabrics = {"ground": FROST if cloth is None else cloth}
    return {"title": title, "fabrics": fabrics, "blocks": {"row": row}, "top": top} | more


def shop(*documents: Json, kits: int = 1, seconds: float = 60.0, outlines: Json | None = None) -> Json:
    """The list for some documents, named after their titles."""
    projects = tuple(ShoppingProject(d["title"], d["title"], d, outlines or {}) for d in documents)
    return plan_shopping(ShoppingAsked(projects, kits, lambda: seconds))


def inches(figure: Json) -> float:
    """What is bought, in inches."""
    bought: float = figure["buy"]["inches"]
    return bought
