"""The `stitches` recipe: a stitch file, its preview and its report for every hooping of every sewing field."""

from __future__ import annotations

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from workers.in_their_words import in_their_words
from workers.recipe import CannotMake, JobInput, MadeFile
from workers.stitches.planning import plan_fields, sew_pieces
from workers.stitches.settings import USUAL
from workers.stitches.writing import Written, check_together, make_files, write_best


@in_their_words
def make_stitches(job: JobInput) -> list[MadeFile]:
    """Every hooping's files, field by field; raises `CannotMake` for a document or piece that cannot be sewn.

    A file whose checks fail is made all the same, for looking at, and is not public.
    """
    try:
        project = read_document(job.document)
    except DocumentFaults as faults:
        first = faults.faults[0]
        raise CannotMake(str(faults), pointer=first.pointer, right=first.right) from faults
    sewn = sew_pieces(job, project, lambda share, words: job.progress(0.5 * share, words))
    fields = list(plan_fields(job, project, sewn).values())
    total, written = sum(map(len, fields)), list[list[Written]]()
    for hoopings in fields:
        written.append([])
        for hooping in hoopings:
            done = sum(map(len, written))
            job.progress(0.5 + 0.5 * done / total, f"Writing and checking {hooping.name}")
            written[-1].append(write_best(hooping, USUAL))
    made = [
        file
        for field in written
        for one in check_together(field)
        for file in make_files(one, USUAL, project.other_languages)
    ]
    job.progress(1.0, f"{total} hoopings are written")
    return made
