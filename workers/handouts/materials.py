"""What a handout tells viewers to have, as data beside the printed page: the check for completeness reads it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from service.craft.language import phrase
from service.craft.tracks import Track
from workers.handouts.cloth_plans import ClothPlan
from workers.handouts.finishing import SAYINGS, FinishingRow


def write_materials(track: Track, fields: Mapping[str, Any]) -> bytes:
    """`materials-<track>.json` from what the handout's page is filled with."""
    listed = {
        "track": track.name,
        "cloths": [_view_cloth(plan) for plan in fields["cloths"]],
        "finishing": list(_name_finishing(fields["finishing"])),
        "tools": list(fields["tools"]),
        "files": [name for note in fields["files"] for name in note.names],
        "bring": [piece.name for piece in fields["brought"]],
    }
    return (json.dumps(listed, ensure_ascii=False, indent=1) + "\n").encode()


def _view_cloth(plan: ClothPlan) -> dict[str, str]:
    return {"fabric": plan.cloth.key, "name": plan.cloth.name, "buy": plan.buy.main}


def _name_finishing(rows: Sequence[FinishingRow]) -> Iterable[str]:
    titles = {phrase(title): part for part, (title, _say) in SAYINGS.items()}
    return (titles[row.title] for row in rows)
