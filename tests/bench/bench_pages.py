"""Every page of the series' handouts on A4, on Letter and in large print: what is on it lies inside its margins.

Run by hand: python tests/bench/bench_pages.py [FOLDER [MONTH...]]. Measured on the pages as another library reads them:
letters beyond the margins, letters upon letters, pages that are nearly empty. With FOLDER the PDFs are left there.
"""

from __future__ import annotations

import sys
from collections import defaultdict
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
from service.craft.document import read_document
from service.jobs.plan import plan_jobs
from tests.bench.bench_month import SEED, load, make
from workers.recipe import MadeFile

FORMATS = {"Letter": {"paper": "Letter"}, "A4": {"paper": "A4"}, "large": {"paper": "A4", "print": "large"}}
MARGIN_PT = 15 * 72 / 25.4
"""The narrowest margin of any format (workers/handouts/papers.py)."""

SLACK_PT = 1.0
FOOT_PT = 22 * 72 / 25.4
LEAST_FILLED = 0.2
"""A page that is left before a fifth of its height is nearly empty: our own judgement."""

UPON = 0.35
"""So much of the narrower of two letters may lie under the other: kerning. Ligatures with f share one box, and the
line of a fraction leans over its figures."""

Box = tuple[float, float, float, float]


def print_handouts(month: str, words: dict[str, str]) -> dict[str, bytes]:
    """The handouts of a month's tracks, on the paper and in the print said."""
    document, outlines = load(month)
    document["tracks"] = [{**track, **words} for track in document["tracks"]]
    made: dict[Any, list[MadeFile]] = {}
    for job in plan_jobs(read_document(document)):
        if job.name.kind in ("colourways", "run sheet", "bundle"):
            made[job.name] = []
        else:
            made[job.name] = make(job, document, outlines, made)
    return {
        file.name: file.data
        for name, files in made.items()
        if name.kind == "handout"
        for file in files
        if file.name.endswith(".pdf")
    }


def list_letters(page: Any) -> list[tuple[str, Box]]:
    """Every letter that shows, with its box in points: left, bottom, right, top."""
    text = page.get_textpage()
    letters = (
        (text.get_text_range(i, 1), text.get_charbox(i, loose=False)) for i in range(text.count_chars())
    )
    return [(letter, box) for letter, box in letters if letter.strip() and box[2] > box[0]]


def list_faults(page: Any) -> list[str]:
    """What is wrong on a page, in words."""
    width, height = page.get_size()
    letters = list_letters(page)
    beyond = "".join(
        letter
        for letter, (left, bottom, right, top) in letters
        if left < MARGIN_PT - SLACK_PT
        or right > width - MARGIN_PT + SLACK_PT
        or top > height - MARGIN_PT
        or bottom < 15
    )
    upon = find_upon([(letter, box) for letter, box in letters if box[1] > FOOT_PT])
    return [
        words
        for words in (beyond and f"beyond the margin: {beyond[:40]}", upon and f"upon: {upon[:40]}")
        if words
    ]


def find_upon(letters: list[tuple[str, Box]]) -> str:
    """The letters that lie upon others."""
    rows: dict[int, list[tuple[str, Box]]] = defaultdict(list)
    for letter, box in letters:
        rows[round(box[1] / 3)].append((letter, box))
    found = ""
    for row in rows.values():
        row.sort(key=lambda item: item[1][0])
        for (one, a), (other, b) in pairwise(row):
            if one == "f" or "/" in one + other or "⁄" in one + other:
                continue
            shared = min(a[2], b[2]) - max(a[0], b[0])
            high = min(a[3], b[3]) - max(a[1], b[1])
            if shared > UPON * min(a[2] - a[0], b[2] - b[0]) and high > 0.5 * min(a[3] - a[1], b[3] - b[1]):
                found += one + other + " "
    return found


def measure_filled(page: Any) -> float:
    """How far down the page, between its margins, anything stands: 0 to 1."""
    picture = np.asarray(page.render(scale=0.5, grayscale=True).to_numpy()).squeeze()
    inside = picture[int(MARGIN_PT / 2) : -int(FOOT_PT / 2)]
    rows = np.flatnonzero(inside.min(axis=1) < 200)
    return float(rows[-1] + 1) / len(inside) if len(rows) else 0.0


def main() -> None:
    """Print all, and every page that is not as it should be."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else None
    months = sys.argv[2:] or sorted(path.name for path in SEED.iterdir() if (path / "project.json").is_file())
    pages = faults = 0
    for style, words in FORMATS.items():
        for month in months:
            for name, data in print_handouts(month, words).items():
                if folder:
                    folder.mkdir(parents=True, exist_ok=True)
                    (folder / f"{month}-{style}-{name}").write_bytes(data)
                document = pypdfium2.PdfDocument(data)
                for number in range(len(document)):
                    pages += 1
                    said = list_faults(document[number])
                    filled = measure_filled(document[number])
                    if filled < LEAST_FILLED and number < len(document) - 1:
                        said.append(f"{filled:.0%} filled")
                    faults += bool(said)
                    if said:
                        print(f"{month} {style} {name} page {number + 1}: {'; '.join(said)}", flush=True)
                document.close()
    print(f"{pages} pages, {faults} with a fault")


if __name__ == "__main__":
    main()
