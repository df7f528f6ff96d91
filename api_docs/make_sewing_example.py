"""Writes `examples/sewing.json`: the sewing plan of the cushion in the demo series, cut down to its pinwheel."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import Any

from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan

PROJECT, STAGE = "2027-03-rhubarb-cushion", "block.pinwheel"
LENGTH = re.compile(r'\{\s+("text": [^\n]+)\s+("inches": [^\n]+)\s+("mm": [^\n]+)\s+\}')
POINT = re.compile(r"\[\s+(-?[\d.]+),\s+(-?[\d.]+)\s+\]")
ELSEWHERE = ("points", "bias_edges", "minutes", "counts", "turn_of_cloth")
"""What the guide shows by itself."""
PLACE = Path(__file__).parent / "examples" / "sewing.json"


def make_example(seed: Path) -> dict[str, Any]:
    """The plan with a single stage and its seams; junctions and trips whole."""
    document = json.loads((seed / PROJECT / "project.json").read_text(encoding="utf-8"))
    plan = json.loads(make_sewing_plan(JobInput("sewing", document))[0].data)
    plan["stages"] = [_without(stage) for stage in plan["stages"] if stage["id"] == STAGE]
    plan["seams"] = [seam for seam in plan["seams"] if seam["stage"] == STAGE]
    return _without(plan)


def _without(value: dict[str, Any]) -> dict[str, Any]:
    return {name: inner for name, inner in value.items() if name not in ELSEWHERE}


def write_example(example: dict[str, Any]) -> str:
    """As text, a length on one line, a point on one."""
    text = LENGTH.sub(r"{\1 \2 \3}", json.dumps(example, ensure_ascii=False, indent=1))
    return POINT.sub(r"[\1, \2]", text) + "\n"


if __name__ == "__main__":
    PLACE.write_text(write_example(make_example(Path(sys.argv[1]))), encoding="utf-8")
