"""The calibration sheet: printed once, laid under or beside shapes, it gives their pictures a scale."""

from __future__ import annotations

from functools import cache
from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from service.api.access import Circle
from service.api.room import Answer, Room
from service.craft.calibration import SHEETS, CalibrationSheet
from service.craft.drawing.calibration import draw_calibration_sheet

room = Room("calibration", __name__, description="The sheet that gives pictures a scale.")

PDF, SVG = "application/pdf", "image/svg+xml"
DRAWING = {"type": "string"}


class CalibrationQuery(Schema):
    """Which paper, and in which form."""

    paper = fields.String(
        load_default="A4",
        validate=validate.OneOf([sheet.paper for sheet in SHEETS]),
        metadata={"description": "the paper it is printed on"},
    )
    format = fields.String(
        load_default="pdf", validate=validate.OneOf(["pdf", "svg"]), metadata={"description": "its form"}
    )


@room.route_to(
    "/calibration-sheet",
    "GET",
    Circle.STUDIO,
    Answer(200, {"type": "string", "format": "binary"}, media_type=PDF),
    Answer(200, DRAWING, media_type=SVG, words="As a drawing with format=svg."),
    query=CalibrationQuery,
)
def get_calibration_sheet(query: dict[str, Any]) -> Any:
    """Draw the calibration sheet at true size, as a PDF to print or as SVG."""
    sheet = next(one for one in SHEETS if one.paper == query["paper"])
    if query["format"] == "svg":
        answer = Response(draw_calibration_sheet(sheet).to_svg(embed_fonts=True), mimetype=SVG)
        answer.headers["Content-Security-Policy"] = (
            "sandbox; default-src 'none'; style-src 'unsafe-inline'; font-src data:"
        )
    else:
        answer = Response(_print(sheet), mimetype=PDF)
    name = f"calibration-sheet-{sheet.paper}.{query['format']}"
    answer.headers.set("Content-Disposition", "attachment", filename=name)
    return answer


@cache
def _print(sheet: CalibrationSheet) -> bytes:
    # What prints takes its time to load, and the web side needs it for this alone.
    from service.look.printing import render_pdf

    html = (
        f"<!doctype html><html lang='en'><head><title>Calibration sheet for {sheet.paper}</title></head>"
        f"<body>{draw_calibration_sheet(sheet).to_svg()}</body></html>"
    )
    css = (
        f"@page {{ size: {sheet.width}mm {sheet.height}mm; margin: 0 }}"
        " html, body { margin: 0 } svg { display: block }"
    )
    return render_pdf(html, lang="en", identifier=f"calibration {sheet.paper}", css=css, true_size=True)
