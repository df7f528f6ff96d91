"""A month of the demo series with its four tracks, every job made twice: CPU seconds, and whether the bytes agree.

Run by hand: python tests/bench/bench_month.py [MONTH]. Seconds are of one core (`time.process_time`); the
second run has what a process keeps by then.
"""

from __future__ import annotations

import hashlib
import json
import sys
import time
from importlib import import_module
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from service.craft.document import read_document
from service.craft.outlines import read_svg, to_json
from service.jobs.plan import JobName, PlannedJob, plan_jobs
from workers.queue.recipes import TABLE, find_recipe
from workers.recipe import JobInput, MadeFile

SEED = Path(__file__).resolve().parents[2] / "seed_data"
MONTH = "2027-01-leek-row"
RUNS = 2

Made = dict[JobName, list[MadeFile]]


def load(month: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """A month's document and its outlines, as they are submitted."""
    folder = SEED / month
    outlines = {p.name: to_json(read_svg(p.read_bytes(), p.name)) for p in sorted(folder.glob("*.svg"))}
    return json.loads((folder / "project.json").read_text()), outlines


def make(job: PlannedJob, document: dict[str, Any], outlines: dict[str, Any], made: Made) -> list[MadeFile]:
    """One job of the plan, from what the jobs it waits for made."""
    inputs = {file.name: file.data for name in job.waits_for for file in made[name]}
    given = JobInput(job.name.kind, document, outlines, inputs, job.name.track, "2027-01-20")
    return find_recipe(TABLE, job.name.kind)(given)


def run(document: dict[str, Any], outlines: dict[str, Any]) -> tuple[Made, dict[JobName, float]]:
    """All jobs of the project in order, and the CPU seconds of each."""
    made: Made = {}
    seconds: dict[JobName, float] = {}
    for job in plan_jobs(read_document(document)):
        start = time.process_time()
        made[job.name] = make(job, document, outlines, made)
        seconds[job.name] = time.process_time() - start
    return made, seconds


def digest(made: Made) -> str:
    """One sum over every file made, by name."""
    files = sorted((file.name, file.data) for some in made.values() for file in some)
    return hashlib.sha256(b"".join(name.encode() + data for name, data in files)).hexdigest()


def main() -> None:
    """Make the month, twice, and print what each job took."""
    document, outlines = load(sys.argv[1] if len(sys.argv) > 1 else MONTH)
    for path in TABLE.values():  # what is imported is not counted
        import_module(path.partition(":")[0])
    runs = [run(document, outlines) for _ in range(RUNS)]
    for name in runs[0][1]:
        times = "  ".join(f"{seconds[name]:6.2f}" for _, seconds in runs)
        print(f"{name.kind:12} {name.track or '':18} {times}")
    print(f"{'together':31} {'  '.join(f'{sum(seconds.values()):6.2f}' for _, seconds in runs)}")
    print("the bytes agree" if len({digest(made) for made, _ in runs}) == 1 else "THE BYTES DIFFER")


if __name__ == "__main__":
    main()
