"""What lies on the studio's shelf and what it paid is in nothing that leaves: every public file is read for it."""

import io
import zipfile
from functools import lru_cache

import pypdfium2
import pytest

from service.craft.document import read_document
from service.jobs.plan import plan_jobs
from workers.queue.recipes import TABLE, find_recipe
from workers.recipe import JobInput

PATCH = {"unit": "patch", "size": ["4", "4"], "fabric": "leaf"}
DOCUMENT = {
    "title": "Leek Bed",
    "fabrics": {
        "leaf": {
            "name": "leek green",
            "colour": "#5f8f4e",
            "usable_width": "40",
            # figures that come from nothing else in the project
            "stash": [{"width": "17 3/8", "length": "23 5/8", "count": 1}],
            "price_per_length": {"amount": "987.65", "per": "36"},
            "sold_as": {"name": "fat quarter", "price": "76.54"},
        }
    },
    "top": {"unit": "grid", "rows": [[PATCH] * 8] * 4},
    "finish": {"binding": {"fabric": "leaf"}, "backing": {"fabric": "leaf"}},
    "tracks": [{"name": "by hand", "has": []}],
}
MARKS = ("17 3/8", "17.375", "23 5/8", "23.625", "987.65", "76.54")
FIELDS = ('"stash"', '"from_stash"', '"cost"', '"left_over"')


@lru_cache
def make_everything():
    """Every job of the project as the queue runs it."""
    made = {}
    for job in plan_jobs(read_document(DOCUMENT)):
        inputs = {f.name: f.data for parent in job.waits_for for f in made[parent]}
        given = JobInput(job.name.kind, DOCUMENT, {}, inputs, job.name.track, "2027-03-19")
        made[job.name] = find_recipe(TABLE, job.name.kind)(given)
    return [file for files in made.values() for file in files]


def read_words(name, data):
    """Every word of a file, of those in a zip too."""
    if name.endswith(".zip"):
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            return "\n".join(read_words(inside, packed.read(inside)) for inside in packed.namelist())
    if name.endswith(".pdf"):
        document = pypdfium2.PdfDocument(data)
        text = "\n".join(page.get_textpage().get_text_range() for page in document)
        document.close()
        return text
    return data.decode()


@pytest.mark.parametrize("mark", MARKS)
def test_no_public_file_tells_what_is_at_home_or_what_was_paid(mark):
    public = [file for file in make_everything() if file.public]
    assert {"cutting.json", "handout-by-hand.pdf", "bundle-by-hand.zip"} <= {file.name for file in public}
    assert [file.name for file in public if mark in read_words(file.name, file.data)] == []


def test_the_fields_of_the_shelf_are_in_no_public_file():
    for file in make_everything():
        if file.public:
            words = read_words(file.name, file.data)
            assert [field for field in FIELDS if field in words] == [], file.name


def test_the_studio_still_gets_them():
    """The control: the studio's plan has the costs, its run sheet the piece at home."""
    private = {file.name: read_words(file.name, file.data) for file in make_everything() if not file.public}
    assert all(field in private["cutting-studio.json"] for field in FIELDS)
    assert "17 3/8 × 23 5/8 in at home" in private["run-sheet.pdf"]
