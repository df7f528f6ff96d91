"""What stands under a colourway about its cloth: what else is bought, and what at home comes near."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from service.craft.document import Project
from service.craft.drawing import ClothView, draw_swatch
from service.craft.finish import Colourway
from workers.handouts.colourway_cloth import Purchase, QuantityRow, compare, reckon
from workers.handouts.inputs import Inputs
from workers.handouts.stash_matches import AtHome, Match, find_matches, list_at_home
from workers.outlines.asked import AskedPiece, read_pieces
from workers.patience import Left, share
from workers.recipe import JobInput


@dataclass(frozen=True)
class MatchRow:
    """A cloth of a colourway and what is at home in place of it, nearest first."""

    cloth: ClothView
    matches: tuple[Match, ...]

    @property
    def swatch(self) -> Markup:
        """The colour that is wished for, drawn."""
        return Markup(draw_swatch(self.cloth.colour, self.cloth.name))  # noqa: S704 - our own drawing


@dataclass(frozen=True)
class ClothNotes:
    """Of one colourway: what is bought otherwise, why it cannot be cut at all, and what at home would do.

    `worked_out` says whether the colourway changes a cloth so that quantities had to be worked out anew.
    """

    rows: tuple[QuantityRow, ...] = ()
    trouble: str = ""
    matches: tuple[MatchRow, ...] = ()
    worked_out: bool = False


def note_cloths(inputs: Inputs, shown: Sequence[dict[str, ClothView]]) -> list[ClothNotes]:
    """Notes for the design and for each colourway; `shown` are their cloths as drawn, in the same order.

    Nothing is worked out for a project with no cloth at home whose colourways change no quantity. `CannotMake`
    where the design itself cannot be cut.
    """
    project, job = inputs.project, inputs.job
    at_home = list_at_home(project, job.materials)
    if not at_home and not any(colourway.changes_quantities for colourway in project.colourways):
        return [ClothNotes()] * len(shown)
    purchases = list(_reckon_each(project, job))
    designed, notes = purchases[0], []
    left = share(job.left, 0.8)
    for colourway, cloths, purchase in zip((None, *project.colourways), shown, purchases, strict=True):
        notes.append(
            ClothNotes(
                rows=tuple(compare(project, designed, purchase, colourway)) if colourway else (),
                trouble=purchase.trouble,
                matches=tuple(_match(cloths, purchase, at_home, left)),
                worked_out=colourway is not None and colourway.changes_quantities,
            )
        )
    return notes


def _reckon_each(project: Project, job: JobInput) -> list[Purchase]:
    """What is bought for the design and each colourway; one that changes no quantity is bought like the design."""
    pieces = read_pieces(job, project)
    designed = reckon(project, pieces, None, share(job.left, 0.3))
    return [designed, *(_reckon_one(project, pieces, one, designed, job.left) for one in project.colourways)]


def _reckon_one(
    project: Project, pieces: Sequence[AskedPiece], colourway: Colourway, designed: Purchase, left: Left
) -> Purchase:
    if not colourway.changes_quantities:
        return designed
    return reckon(project, pieces, colourway, share(left, 0.5 / len(project.colourways)))


def _match(
    cloths: dict[str, ClothView], purchase: Purchase, at_home: Sequence[AtHome], left: Left
) -> list[MatchRow]:
    found = []
    for key, bought in purchase.cloths.items():
        matches = find_matches(bought, cloths[key].colour, at_home, left) if key in cloths else []
        if matches:
            found.append(MatchRow(cloths[key], tuple(matches)))
    return found
