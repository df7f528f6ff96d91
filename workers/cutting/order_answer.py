"""The cutting order as it stands in `cutting.json`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from workers.cutting.order import OrderLine


def answer_order(lines: Sequence[OrderLine]) -> list[dict[str, Any]]:
    """Every action with its number; `strip` is the first strip it is about, null where it is about none."""
    return [
        {
            "number": number,
            "fabric": line.fabric,
            "action": line.action,
            "text": line.text,
            "strip": line.strips[0] if line.strips else None,
            "strips": list(line.strips),
            "cuts": [{"cut": cut, "count": count} for cut, count in line.cuts],
            "keep_folded": line.keep_folded,
        }
        for number, line in enumerate(lines, start=1)
    ]
