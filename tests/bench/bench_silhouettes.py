"""How many silhouettes of general-purpose packages pass from picture or glyph to cut files, and how many are put right.

Run by hand: python tests/bench/bench_silhouettes.py

scikit-image's sample pictures with a dark shape on light paper and three sheets of its random blobs; every character of
Latin-1 in every font file that ships here. Nothing is fetched.
"""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path

os.environ["OPENBLAS_NUM_THREADS"] = "1"
sys.path.insert(0, str(Path(__file__).parents[2]))

from service.craft.outlines import OutlineFile
from tests.outlines.icons_to_cut import cut_all
from tests.outlines.silhouettes import FONTS, SAMPLES, blobs, draw, letters_of, trace, write

PICTURES = {"horse.png": 50, "phantom.png": 60, "text.png": 60, "page.png": 60, "coins.png": 60}
LETTERS_A_FILE = 24
SECONDS_A_JOB = 20
LETTER, PUT_RIGHT = re.compile(r'id="(letter-\d+)"'), "put right"


def read_pictures() -> list[OutlineFile]:
    """The samples and the blobs, traced."""
    files = [trace((SAMPLES / name).read_bytes(), name, dpi) for name, dpi in PICTURES.items()]
    return files + [trace(draw(blobs(seed)), f"blobs-{seed}.png", 50) for seed in (7, 8, 9)]


def count_put_right(file: OutlineFile) -> int:
    """The letters of a drawing, or the drawing itself, whose outline was changed on the way."""
    letters = {found[1] for note in file.notes if (found := LETTER.search(note)) and PUT_RIGHT in note}
    return len(letters) or sum(PUT_RIGHT in note for note in file.notes)


def report(what: str, files: list[OutlineFile], drawn: int) -> None:
    """One line for some drawings, which hold so many things drawn."""
    wanted = {f"{file.name} {shape.name}" for file in files for shape in file.shapes}
    cut = {name for file in files for name in cut_all([file], SECONDS_A_JOB)}
    right = sum(map(count_put_right, files))
    print(
        f"{what}: {drawn} drawn, {len(wanted)} shapes, {right} put right ({right / drawn:.0%}), "
        f"{len(cut)} shapes cut, {len(wanted - cut)} lost",
        flush=True,
    )


def main() -> None:
    """Pictures, then each font."""
    for file in read_pictures():
        report(file.name, [file], max(1, len(file.shapes)))
        for note in file.notes:
            print(f"  {note}")
    for font in sorted(path.name for path in FONTS.glob("*-latin-*.woff2") if "ext" not in path.name):
        every = letters_of(font)
        some = [every[n : n + LETTERS_A_FILE] for n in range(0, len(every), LETTERS_A_FILE)]
        report(font, [write(letters, font, f"{n}.svg") for n, letters in enumerate(some)], len(every))


if __name__ == "__main__":
    main()
