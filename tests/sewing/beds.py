"""A square whose border is longer than its cloth is wide: what long strips and their minutes are tried on."""

from __future__ import annotations

from typing import Any

Raw = dict[str, Any]


def bed(side: str, cut: str = "least cloth", **more: Any) -> Raw:
    """A square of `side` with a border of soil, which is 20 in wide; leaf is wide enough for all."""
    middle = {"unit": "patch", "size": [side, side], "fabric": "leaf"}
    border = {"width": "2", "fabric": "soil", "corners": "butted", "cut": cut}
    return {
        "title": "Bean bed",
        "fabrics": {
            "leaf": {"name": "leek green", "usable_width": "60"},
            "soil": {"name": "soil brown", "usable_width": "20"},
        },
        "top": {"unit": "bordered", "inside": middle, "borders": [border]},
        "tracks": [{"name": "by hand", "has": []}],
    } | more
