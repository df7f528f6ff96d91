"""The `cut files` recipe: for every cloth and mat, what a cutting machine follows, as SVG and as DXF."""

from __future__ import annotations

from collections.abc import Sequence

from service.craft.document import Project
from workers.in_their_words import in_their_words
from workers.outlines.asked import AskedPiece, read_pieces, read_project
from workers.outlines.cut_plan import CutSheet, plan_sheets
from workers.outlines.cut_report import TEST_SQUARE, build_report, format_report
from workers.outlines.cut_writing import write_dxf, write_svg, write_test_square
from workers.outlines.mat_room import list_mats, read_settings
from workers.outlines.template_plan import list_own
from workers.recipe import CannotMake, JobInput, MadeFile

SVG, DXF, JSON = "image/svg+xml", "image/vnd.dxf", "application/json"

KIND = "cut file"
REPORT_KIND = "cut report"


@in_their_words
def make_cut_files(job: JobInput) -> list[MadeFile]:
    """Cut files for all mats of the project's tracks, a test square, and a report.

    What a viewer must own is cut in the studio alone: its files are not public, and stand in a report of
    their own. `CannotMake` where no track has a mat, an outline is missing, or a piece exceeds a mat.
    """
    project = read_project(job)
    mats = list_mats(project)
    if not mats:
        raise CannotMake(
            "no track has a cutting machine",
            pointer="/tracks",
            right='a track that has "cutter 12x12" or the like',
        )
    pieces = read_pieces(job, project)
    settings = read_settings(project)
    sheets = plan_sheets(pieces, mats, settings, job.left)
    made: list[MadeFile] = []
    for n, sheet in enumerate(sheets):
        job.progress(n / len(sheets), f"Writing {sheet.stem}")
        made += _write(sheet)
    square_svg, square_dxf = write_test_square()
    made += [
        MadeFile(f"{TEST_SQUARE}.svg", SVG, square_svg, KIND),
        MadeFile(f"{TEST_SQUARE}.dxf", DXF, square_dxf, KIND),
    ]
    for public in (True, False):
        held = [sheet for sheet in sheets if sheet.public is public]
        if held or public:
            name = "cut-files.json" if public else "cut-files-studio.json"
            report = build_report(held, mats, pieces, _own(project, pieces, public=public), settings)
            made.append(MadeFile(name, JSON, format_report(report), REPORT_KIND, public))
    job.progress(1.0, f"{len(sheets)} mats are written")
    return made


def _own(project: Project, pieces: Sequence[AskedPiece], *, public: bool) -> list[str]:
    return list_own(project, pieces) if public else []


def _write(sheet: CutSheet) -> list[MadeFile]:
    return [
        MadeFile(f"{sheet.stem}.svg", SVG, write_svg(sheet), KIND, sheet.public),
        MadeFile(f"{sheet.stem}.dxf", DXF, write_dxf(sheet), KIND, sheet.public),
    ]
