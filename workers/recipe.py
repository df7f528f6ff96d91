"""What every worker job takes and gives: the one shape that the queue and the computing rooms share.

A recipe is a pure function from a `JobInput` to a list of `MadeFile`. It reads no clock, no
environment and no storage, and gives the same bytes for the same input.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from service.craft.swatches import Swatch
from workers.patience import Left, endless

Progress = Callable[[float, str], None]
"""Told how much is done (0 to 1) and a short sentence about what is going on."""


class CannotMake(Exception):
    """A job that cannot be done with this input, whoever tries again: it says what, where, and what would be right."""

    def __init__(self, detail: str, *, pointer: str = "", right: str = "") -> None:
        super().__init__(detail)
        self.detail = detail
        self.pointer = pointer
        self.right = right


def _say_nothing(_fraction: float, _message: str) -> None:
    return None


@dataclass(frozen=True)
class SwatchPicture:
    """A photograph of a cloth: what is known of it, and the picture (JPEG)."""

    swatch: Swatch
    data: bytes


@dataclass(frozen=True)
class JobInput:
    """Everything one job may look at.

    `document` is the project document as it was submitted (plain JSON); `outlines` maps an outline
    file's name to its stored outlines (see `service.craft.outline`), `swatches` the names of photographs of cloth to
    them; `inputs` holds the files made by
    the jobs this one waited for, by name; `track` is a track's name for jobs made once a track;
    `release` is an ISO date or empty; `wording` is the maker's own text by track and step id; `tips` are the
    maker's tips (`track`, empty for every one, `step`, `place`: before or after, `text`), `materials` what the studio
    owns, each for the jobs that look at it; `left` tells the seconds until the job must have answered.
    """

    kind: str
    document: Mapping[str, Any]
    outlines: Mapping[str, Any] = field(default_factory=dict)
    inputs: Mapping[str, bytes] = field(default_factory=dict)
    track: str | None = None
    release: str = ""
    wording: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    tips: Sequence[Mapping[str, str]] = ()
    materials: Sequence[Mapping[str, Any]] = ()
    swatches: Mapping[str, SwatchPicture] = field(default_factory=dict)
    progress: Progress = _say_nothing
    left: Left = endless


@dataclass(frozen=True)
class MadeFile:
    """One file a job made. `public` says whether a viewer may ever get it; `kind` is the artifact's kind."""

    name: str
    media_type: str
    data: bytes
    kind: str
    public: bool = True


Recipe = Callable[[JobInput], list[MadeFile]]
