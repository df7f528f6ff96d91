"""What was made for a track, as the checks look at it."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import pypdfium2

from service.craft.audience import Audience
from service.craft.document import Project
from service.craft.outlines import OutlineNotFound, find_outline
from service.craft.pieces import Piece
from service.craft.tracks import Track

Json = Mapping[str, Any]

CUT_REPORT = "cut-files.json"


@dataclass(frozen=True)
class Made:
    """A project, one of its tracks, every file made for it by name, and the names of those in its bundle."""

    project: Project
    track: Track
    outlines: Mapping[str, Any]
    files: Mapping[str, bytes]
    bundled: frozenset[str]

    @property
    def audience(self) -> Audience:
        """For whom the words of the track are written."""
        return self.project.audience_of(self.track)

    @cached_property
    def cutting(self) -> Json:
        """The cutting plan; empty where there is none."""
        return self._read("cutting.json")

    @cached_property
    def sewing(self) -> Json:
        """The sewing plan; empty where there is none."""
        return self._read("sewing.json")

    @cached_property
    def steps(self) -> Sequence[Json]:
        """The track's steps."""
        found = self._read(self.steps_name).get("steps", [])
        return [step for step in found if isinstance(step, dict)] if isinstance(found, list) else []

    @cached_property
    def materials(self) -> Json:
        """What the handout lists to have: cloths, tools, files, what finishes the top."""
        return self._read(self.materials_name)

    @cached_property
    def cut_report(self) -> Json:
        """The report of the cut files."""
        return self._read(CUT_REPORT)

    @cached_property
    def hoopings(self) -> Mapping[str, Json]:
        """The released stitch reports of the track's sewing field, by the name of their stitch file."""
        if self.track.hoop is None:
            return {}
        stem = f"stitch-{self.track.hoop.label}-"
        names = [name for name in self.files if name.startswith(stem) and name.endswith(".json")]
        reports = {f"{name.removesuffix('.json')}.dst": self._read(name) for name in sorted(names)}
        return {name: report for name, report in reports.items() if report.get("released")}

    @cached_property
    def template_words(self) -> str:
        """Every word of the printed templates, without spaces; empty where there are none or they cannot be read."""
        data = self.files.get(self.templates_name)
        if data is None:
            return ""
        try:
            document = pypdfium2.PdfDocument(data)
        except pypdfium2.PdfiumError:
            return ""
        words = "".join(page.get_textpage().get_text_range() for page in document)
        document.close()
        return "".join(words.split())

    @property
    def steps_name(self) -> str:
        """The file of the steps."""
        return f"steps-{self.track.slug}.json"

    @property
    def materials_name(self) -> str:
        """The file of the materials."""
        return f"materials-{self.track.slug}.json"

    @property
    def templates_name(self) -> str:
        """The file of the templates."""
        return f"templates-{self.track.slug}.pdf"

    def name_shape(self, piece: Piece) -> str:
        """How a piece's shape is called on its template; empty where its outline is not there."""
        try:
            return find_outline(self.outlines, piece.outline).name
        except OutlineNotFound:
            return ""

    def _read(self, name: str) -> Json:
        try:
            read = json.loads(self.files[name])
        except (KeyError, ValueError):
            return {}
        return read if isinstance(read, dict) else {}


def read_made(
    project: Project,
    track: Track,
    outlines: Mapping[str, Any],
    files: Mapping[str, bytes],
    bundled: Collection[str],
) -> Made:
    """The same from what a job was handed."""
    return Made(project, track, outlines, files, frozenset(bundled))
