"""Templates of patches that no ruler cuts: the cut line with its seam line inside, as the patch lies in its block."""

from __future__ import annotations

from collections.abc import Sequence

from service.craft.document import Project
from service.craft.language import mark, phrase
from service.craft.measure import format_length
from service.craft.outlines import Outline
from service.craft.outlines.affine import Affine
from service.craft.outlines.model import Line, Ring
from service.craft.planar.naming import PatchTemplate
from service.craft.planar.round_shapes import FLAT, POINTED, ROUND, BladeTemplate, DiscTemplate
from service.craft.planar.templates import PlanePoint
from workers.outlines.template_plan import UP, Template

MM_PER_INCH = 25.4

UPRIGHT = mark("The arrow points up in the block; lay it along the woven edge.")
PRINTED = mark("A print with a direction: lay each patch as it lies in the block, the print upright.")
ALONG_BLADE = mark("The arrow runs along the blade; lay it along the woven edge.")
PRINT_ALONG_BLADE = mark("The arrow runs along the blade; lay it along the print.")
FOLDS = {
    POINTED: mark("The wide end is folded in half and sewn across."),
    FLAT: mark("At the wide end it is a fold."),
    ROUND: mark("The rounded end is turned under there, over a card."),
}
TURNED = mark("The edge is turned under there, over a card.")
BOTH_WAYS = mark("The same both ways round.")
ONE_WAY = mark("Lay it face up on the right side of the cloth; where it says turned over, face down.")


def plan_patch_templates(project: Project) -> list[Template]:
    """A template for each shape that no ruler cuts, by letter."""
    counts: dict[PatchTemplate, dict[tuple[str, bool], int]] = {}
    for (template, fabric, turned_over), count in project.patch_templates.items():
        counts.setdefault(template, {})[fabric, turned_over] = count
    return [_plan(project, template, cloths) for template, cloths in counts.items()]


def _plan(project: Project, template: PatchTemplate, cloths: dict[tuple[str, bool], int]) -> Template:
    cut = _outline(template.letter, template.cut_line(project.seam_allowance))
    seam = _outline(template.letter, template.seam_line)
    left, top, _, _ = cut.box_mm
    to_corner = Affine.moving(-left, -top)
    printed = any(project.fabrics[fabric].one_way for fabric, _ in cloths)
    return Template(
        title=phrase("Template {letter}", letter=template.letter),
        pieces="",
        outline=cut.moved(to_corner),
        cloths=tuple(
            (_name_cloth(project.fabrics[fabric].name, turned_over=turned_over), count)
            for (fabric, turned_over), count in sorted(cloths.items())
        ),
        words=(
            _say_lines(template, format_length(project.seam_allowance, project.measure)),
            phrase(BOTH_WAYS if template.turns_over else ONE_WAY),
            _say_grain(template, printed=printed),
        ),
        grain=UP,
        pointer=project.top.pointer,
        seam_line=seam.moved(to_corner),
        letter=template.letter,
    )


def _name_cloth(name: str, *, turned_over: bool) -> str:
    return phrase("{cloth} (turned over)", cloth=name) if turned_over else name


def _say_lines(template: PatchTemplate, allowance: str) -> str:
    """What the two lines are, and what is not sewn to a neighbour along the dashed one."""
    lines = phrase(
        "Cut on the solid line; the dashed one is the seam, {allowance} inside it.", allowance=allowance
    )
    if isinstance(template, DiscTemplate):
        return f"{lines} {phrase(TURNED)}"
    return f"{lines} {phrase(FOLDS[template.tips])}" if isinstance(template, BladeTemplate) else lines


def _say_grain(template: PatchTemplate, *, printed: bool) -> str:
    if isinstance(template, BladeTemplate):
        return phrase(PRINT_ALONG_BLADE if printed else ALONG_BLADE)
    return phrase(PRINTED if printed else UPRIGHT)


def _outline(name: str, points: Sequence[PlanePoint]) -> Outline:
    first, *rest = [(x * MM_PER_INCH, y * MM_PER_INCH) for x, y in points]
    return Outline(name, (Ring(first, tuple(Line(point) for point in rest)),))
