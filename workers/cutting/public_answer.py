"""The cutting plan as a viewer gets it: without what lies on the studio's shelf and what the studio paid."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

PRIVATE = frozenset({"stash", "from_stash", "cost", "left_over"})
"""Fields of a cloth, and of the pieces it is sold as, that stay in the studio: what is at home, what is cut from that,
what was paid, and what is worth keeping of the rest."""


def leave_out_private(plan: Mapping[str, Any]) -> dict[str, Any]:
    """The same plan without the studio's own fields.

    >>> leave_out_private({"title": "Leek Row", "fabrics": [{"fabric": "leaf", "cost": 14.06, "buy_pieces": None}]})
    {'title': 'Leek Row', 'fabrics': [{'fabric': 'leaf', 'buy_pieces': None}]}
    """
    return {**plan, "fabrics": [_leave_out(cloth) for cloth in plan["fabrics"]]}


def _leave_out(fields: Mapping[str, Any]) -> dict[str, Any]:
    return {
        name: _leave_out(value) if isinstance(value, Mapping) else value
        for name, value in fields.items()
        if name not in PRIVATE
    }
