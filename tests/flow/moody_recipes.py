"""The real recipes, but for one that is out of sorts until a file says otherwise."""

from pathlib import Path

from workers.queue.recipes import TABLE as REAL
from workers.recipe import CannotMake, JobInput, MadeFile

TABLE = {**REAL, "run sheet": "tests.flow.moody_recipes:make_run_sheet_when_mended"}


def make_run_sheet_when_mended(job: JobInput) -> list[MadeFile]:
    """Refuse until the file that the document names is there; then do what the real recipe does."""
    from workers.handouts.recipe import make_run_sheet

    mended = job.document.get("mended_by")
    if mended and not Path(mended).exists():
        raise CannotMake("the camera is not charged", pointer="/mended_by", right="charge it, then retry")
    return make_run_sheet(job)
