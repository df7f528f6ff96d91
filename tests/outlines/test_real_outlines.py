"""Outlines that nobody drew for this: every letter of the typeface shipped here passes through to the cut files."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.ttLib import TTFont

import service.look
from service.craft.outlines import OutlineFile, read_svg
from workers.outlines.cut_files import make_cut_files
from workers.recipe import JobInput

Job = Callable[..., JobInput]
Make = Callable[..., dict[str, Any]]

LETTERS = "ABCDEFGHKQRSW&@%8abegkqwyßÄöçÅé"
MM_AN_EM = 60.0


def draw_letters() -> Iterator[tuple[str, str, tuple[float, float]]]:
    """Name, SVG and size in mm of each letter. Source: fontTools' pens on the font file."""
    fonts = Path(str(service.look.__file__)).parent / "fonts"
    font = TTFont(sorted(fonts.glob("*.woff2"))[0])
    glyphs, codes = font.getGlyphSet(), font.getBestCmap()
    per_em = MM_AN_EM / font["head"].unitsPerEm
    for letter in LETTERS:
        glyph = glyphs[codes[ord(letter)]]
        path, bounds = SVGPathPen(glyphs), BoundsPen(glyphs)
        glyph.draw(path)
        glyph.draw(bounds)
        left, low, right, high = bounds.bounds
        size = 2 * MM_AN_EM
        svg = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{size}mm" height="{size}mm" viewBox="0 0 {size} {size}">'
            f'<path id="letter" transform="translate(20 90) scale({per_em} {-per_em})" d="{path.getCommands()}"/></svg>'
        )
        yield letter, svg, ((right - left) * per_em, (high - low) * per_em)


def read_all() -> dict[str, tuple[OutlineFile, str, tuple[float, float]]]:
    return {
        letter: (read_svg(svg.encode(), f"letter{n}.svg"), svg, size)
        for n, (letter, svg, size) in enumerate(draw_letters())
    }


def test_every_letter_is_read_at_its_size_and_none_is_lost() -> None:
    """A letter of several parts, like Ä, gives several shapes; together they have the box that fontTools finds."""
    for letter, (file, _, size) in read_all().items():
        assert file.shapes, letter
        boxes = [shape.box_mm for shape in file.shapes]
        width = max(b[2] for b in boxes) - min(b[0] for b in boxes)
        height = max(b[3] for b in boxes) - min(b[1] for b in boxes)
        assert (width, height) == pytest.approx(size, abs=0.1), letter


def test_letters_that_were_put_right_say_so_and_are_few() -> None:
    """Strokes drawn over each other are joined: 9 of these 31 letters when this was written."""
    changed = [letter for letter, (file, _, _) in read_all().items() if "put right" in " ".join(file.notes)]
    assert "A" in changed
    assert len(changed) <= len(LETTERS) / 3, changed


def test_every_letter_reaches_the_cut_files(job: Job, piece: Make) -> None:
    """On cloth with a direction each lies as placed; every shape of every letter is in the report once."""
    files, pieces = {}, []
    for letter, (file, svg, _) in read_all().items():
        files[file.name] = svg
        for shape in file.shapes:
            pieces.append(piece(f"{letter} {shape.name}", f"{file.name}#{shape.name}", fabric="print"))
    made = {file.name: file.data for file in make_cut_files(job(*pieces, files=files))}
    report = json.loads(made["cut-files.json"])
    cut = [entry["name"] for mat in report["files"] for entry in mat["pieces"] for _ in range(entry["count"])]
    assert sorted(cut) == sorted(entry["name"] for entry in pieces)
