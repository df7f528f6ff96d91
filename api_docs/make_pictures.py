"""Makes the pictures of the README from the bundles of `make demo`, so that they show what is really made.

Usage: python api_docs/make_pictures.py DEMO_FOLDER SEED_FOLDER
"""

from __future__ import annotations

import io
import json
import sys
import zipfile
from pathlib import Path

import pypdfium2
from PIL import Image

from service.craft.document import read_document
from service.craft.drawing import draw_top, view_top
from service.craft.outlines import read_svg

PICTURES = Path(__file__).parent / "pictures"
PAGE_HEIGHT = 720
DOTS_PER_POINT = PAGE_HEIGHT / 842
PAPER_EDGE = (200, 196, 186)


def draw_months(seed: Path) -> None:
    """The top of each month as SVG."""
    for file in sorted(seed.glob("*/project.json")):
        project = read_document(json.loads(file.read_text()))
        outlines = {s.name: read_svg(s.read_bytes(), s.name) for s in file.parent.glob("*.svg")}
        svg = draw_top(view_top(project, outlines))
        (PICTURES / f"{file.parent.name}.svg").write_text(svg)


def show_pages(bundle: Path, name: str, found: list[str]) -> None:
    """The cover of a handout, and after it the first page that holds each text, side by side, as PNG."""
    with zipfile.ZipFile(bundle) as files:
        pdf = next(n for n in files.namelist() if n.startswith("handout-"))
        document = pypdfium2.PdfDocument(files.read(pdf))
    cover, *inside = document
    texts = [page.get_textpage().get_text_bounded() for page in inside]
    pages = [cover, *(inside[next(i for i, t in enumerate(texts) if text in t)] for text in found)]
    drawn = [page.render(scale=DOTS_PER_POINT).to_pil().convert("RGB") for page in pages]
    sheet = Image.new("RGB", (sum(d.width + 8 for d in drawn) + 8, drawn[0].height + 16), PAPER_EDGE)
    x = 8
    for picture in drawn:
        sheet.paste(picture, (x, 8))
        x += picture.width + 8
    sheet.quantize(64).save(PICTURES / f"{name}.png", optimize=True)


def keep_file(bundle: Path, file: str, name: str) -> None:
    """One file of a bundle under a name of its own."""
    with zipfile.ZipFile(io.BytesIO(bundle.read_bytes())) as files:
        (PICTURES / name).write_bytes(files.read(file))


def main(demo: Path, seed: Path) -> None:
    """Every picture of the README."""
    PICTURES.mkdir(exist_ok=True)
    draw_months(seed)
    january = demo / "2027-01-20"
    show_pages(january / "bundle-by-hand.zip", "handout", ["Cutting tables", "Row 1 of star"])
    keep_file(demo / "2027-03-19" / "bundle-hoop.zip", "stitch-130x180-2.svg", "stitch-preview.svg")


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
