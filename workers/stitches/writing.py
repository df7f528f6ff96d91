"""From a planned hooping to its files: written, read back, checked, sewn once more where it fails."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from service.craft.audience import Audience, name_in, writing_for
from service.craft.language import phrase, say_number
from workers.recipe import MadeFile
from workers.stitches.across_parts import check_across
from workers.stitches.check import check_hooping
from workers.stitches.check_places import failed_places
from workers.stitches.colour_order import sequence_passes
from workers.stitches.colour_sheet import draw_colour_sheet
from workers.stitches.findings import Check, Checked
from workers.stitches.part_words import say_parts
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import Hooping
from workers.stitches.preview import draw_preview
from workers.stitches.preview_png import draw_png
from workers.stitches.reading import read_stitch_file
from workers.stitches.record import record_passes
from workers.stitches.report import build_report, format_report
from workers.stitches.settings import StitchSettings

SVG, SHEET = "image/svg+xml", "colour order"

NEARER_TACK_MM, MORE_LAP_MM = 0.7, 0.3
"""How a piece is sewn again whose first file failed: of twelve such shapes in an icon set this mends seven."""


@dataclass(frozen=True)
class Written:
    """A hooping's stitch file, what was read back from it, and every check of that."""

    data: bytes
    checked: Checked
    checks: tuple[Check, ...]

    @property
    def failed(self) -> int:
        """How many checks do not hold."""
        return sum(not check.ok for check in self.checks)


def write_hooping(hooping: Hooping, settings: StitchSettings) -> Written:
    """The stitch file of one hooping, read back, and every check of what was read."""
    recorded = record_passes(hooping.passes, settings, label=hooping.name)
    checked = Checked(hooping, read_stitch_file(recorded.data), recorded.ranges, settings)
    return Written(recorded.data, checked, tuple(check_hooping(checked)))


def sew_again(hooping: Hooping, checks: Sequence[Check]) -> Hooping:
    """The hooping with the pieces that failed a check sewn with more lap and a tack-down nearer to the edge."""
    failed = {str(where["piece"]) for c in checks if not c.ok for where in c.where if "piece" in where}
    sewn = tuple(
        sew_piece(s.piece, replace(s.piece.settings, tack_inset_mm=NEARER_TACK_MM, lap_mm=MORE_LAP_MM))
        if s.piece.name in failed
        else s
        for s in hooping.sewn
    )
    return replace(hooping, sewn=sewn, sequence=sequence_passes(sewn))


def say_same(hooping: Hooping) -> list[str]:
    """That one file serves more than once, and where its middle comes and how the top lies in the hoop each time."""
    said = []
    if hooping.again:
        places = "; ".join(
            phrase(
                "for {pieces} {place}",
                pieces=", ".join(one.pieces),
                place=say_place(one.centre_mm, one.top_turned_degrees),
            )
            for one in hooping.again
        )
        said.append(
            phrase(
                "sew this file {count} times: once as it is, then {places}",
                count=1 + len(hooping.again),
                places=places,
            )
        )
    if hooping.same_as:
        where = say_place(hooping.same_centre_mm, hooping.top_turned_degrees)
        said.append(
            phrase(
                "hooping {hooping} sews the same: its file serves here too, {place}",
                hooping=hooping.same_as,
                place=where,
            )
        )
    return said


def say_place(centre_mm: tuple[float, float], turned: float) -> str:
    """Where the middle of the field comes on the top, and how the top lies in the hoop."""
    x, y = (say_number(place, ".1f") for place in centre_mm)
    if not turned:
        return phrase("its middle at {x}, {y} mm of the finished top, with the top hooped upright", x=x, y=y)
    return phrase(
        "its middle at {x}, {y} mm of the finished top, with the top hooped turned {angle} degrees clockwise",
        x=x,
        y=y,
        angle=say_number(turned),
    )


def write_best(hooping: Hooping, settings: StitchSettings) -> Written:
    """One hooping written. Where its file fails, it is sewn once more; the better of the two is kept."""
    first = write_hooping(hooping, settings)
    if not first.failed:
        return first
    again = write_hooping(sew_again(hooping, first.checks), settings)
    return again if again.failed < first.failed else first


def check_together(written: Sequence[Written]) -> list[Written]:
    """The hoopings of a field, each with the checks of what its pieces' parts do together with those in others."""
    return [
        replace(
            one,
            checks=(*one.checks, *check_across(one.checked, [w.checked for w in written if w is not one])),
        )
        for one in written
    ]


def _draw_sheet_in(language: str, hooping: Hooping) -> bytes:
    with writing_for(Audience(language=language)):
        return draw_colour_sheet(hooping)


def make_files(written: Written, settings: StitchSettings, languages: Sequence[str] = ()) -> list[MadeFile]:
    """The files of one hooping; `languages` are those of tracks that do not read the document's."""
    checked, checks = written.checked, written.checks
    hooping, reading = checked.hooping, checked.reading
    notes = [note for sewn in hooping.sewn for note in sewn.notes] + say_parts(hooping) + say_same(hooping)
    report = build_report(hooping, reading, checked.ranges, checks, notes, settings, languages)
    public = bool(report["released"]) and not hooping.private
    name, places = f"stitch-{hooping.name}", failed_places(checks)
    sheet = f"{name}-colours.svg"
    return [
        MadeFile(f"{name}.dst", "application/octet-stream", written.data, "stitch file", public),
        MadeFile(f"{name}.svg", SVG, draw_preview(checked, checks), "stitch preview", public),
        MadeFile(f"{name}.png", "image/png", draw_png(checked, places), "stitch preview", public),
        MadeFile(sheet, SVG, draw_colour_sheet(hooping), SHEET, public),
        *(
            MadeFile(name_in(one, sheet), SVG, _draw_sheet_in(one, hooping), SHEET, public)
            for one in languages
        ),
        MadeFile(f"{name}.json", "application/json", format_report(report), "stitch report", public),
    ]
