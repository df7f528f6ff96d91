"""Read what a handout is made from: the project, and the JSON files that earlier jobs made."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cached_property
from typing import Any

from service.craft.document import Project, read_document
from service.craft.drawing import TopView, view_top
from service.craft.faults import DocumentFaults
from service.craft.outlines import OutlineNotFound
from service.craft.pieces import Piece
from service.craft.tracks import Track
from workers.recipe import CannotMake, JobInput


class Inputs:
    """A job's input, read as it is asked for; every gap is a `CannotMake` that names it."""

    def __init__(self, job: JobInput) -> None:
        self.job = job

    @cached_property
    def project(self) -> Project:
        """The project of the document."""
        try:
            return read_document(self.job.document)
        except DocumentFaults as faults:
            first = faults.faults[0]
            raise CannotMake(str(faults), pointer=first.pointer, right=first.right) from faults

    @cached_property
    def top(self) -> TopView:
        """The finished top with its pieces."""
        try:
            return view_top(self.project, self.job.outlines)
        except OutlineNotFound as missing:
            raise CannotMake(missing.detail, pointer="/pieces", right=missing.right) from missing

    @cached_property
    def track(self) -> Track:
        """The track that the job is for."""
        name = self.job.track or ""
        try:
            return self.project.track(name)
        except KeyError:
            names = ", ".join(track.name for track in self.project.tracks)
            raise CannotMake(
                f"no track is called {name!r}", pointer="/tracks", right=f"one of {names}"
            ) from None

    @cached_property
    def cutting(self) -> Mapping[str, Any]:
        """The cutting plan, in the words of whom the job writes for."""
        return self._in_their_words("cutting.json")

    @cached_property
    def studio_cutting(self) -> Mapping[str, Any]:
        """The cutting plan with what is at home and what was paid: for sheets that stay in the studio."""
        return self.read("cutting-studio.json")

    @cached_property
    def sewing(self) -> Mapping[str, Any]:
        """The sewing plan, in the words of whom the job writes for."""
        return self._in_their_words("sewing.json")

    def _in_their_words(self, name: str) -> Mapping[str, Any]:
        """A plan of the whole project, as it was written for whom this job writes."""
        audience = self.project.audience_of(self.track) if self.job.track else self.project.audience
        return self.read(self.project.name_for(audience, name))

    def steps(self, track: Track) -> list[Mapping[str, Any]]:
        """A track's steps in order, with the maker's own wording where there is some."""
        own = self.job.wording.get(track.name, {})
        steps = self.read(f"steps-{track.slug}.json").get("steps", [])
        tips = self._tips(track)
        return [
            {
                **step,
                "text": own.get(step.get("id", "")) or step.get("text", ""),
                **tips.get(str(step.get("id")), {}),
            }
            for step in steps
        ]

    def _tips(self, track: Track) -> dict[str, dict[str, list[str]]]:
        """The maker's tips by step: what stands before and after it. Those of every track come first."""
        found: dict[str, dict[str, list[str]]] = {}
        for tip in sorted(self.job.tips, key=lambda tip: tip["track"]):
            if tip["track"] in ("", track.name):
                found.setdefault(tip["step"], {}).setdefault(f"tips_{tip['place']}", []).append(tip["text"])
        return found

    def read(self, name: str) -> Mapping[str, Any]:
        """One of the JSON files made earlier."""
        if name not in self.job.inputs:
            raise CannotMake(f"{name} is not there", right="the job that makes it has to finish first")
        read = self.find(name)
        if read is None:
            raise CannotMake(f"{name} cannot be read", right="a JSON object; make it anew")
        return read

    def find(self, name: str) -> Mapping[str, Any] | None:
        """The same, or None where it is not there or is no JSON object."""
        try:
            read = json.loads(self.job.inputs[name])
        except (KeyError, ValueError):
            return None
        return read if isinstance(read, dict) else None

    @property
    def brought(self) -> tuple[Piece, ...]:
        """The pieces whose outlines viewers must bring themselves."""
        hidden = {view.name for view in self.top.pieces if view.bring_own}
        return tuple(piece for piece in self.project.pieces if piece.name in hidden)
