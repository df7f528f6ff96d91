"""What finishes the top, as it stands under `finishing` in `cutting.json`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from service.craft.document import Project
from service.craft.finish import BACKING_SEAM
from service.craft.language import phrase
from service.craft.measure import Length, Number, format_length, length_object
from workers.cutting.backing import BackingPlan, Panels
from workers.cutting.batting import BattingPlan, Packet, sure_size
from workers.cutting.binding import BindingPlan, Usual
from workers.cutting.finishing import FinishingPlan
from workers.cutting.sleeve import SleevePlan

Write = Callable[[Number], Length]


def finishing_answer(project: Project, finishing: FinishingPlan) -> dict[str, Any]:
    """Binding, backing, batting and sleeve as plain JSON; None for what the project leaves out."""

    def length(value: Number) -> Length:
        return length_object(value, project.measure)

    return {
        "binding": finishing.binding and _binding(finishing.binding, project, length),
        "backing": finishing.backing and _backing(finishing.backing, length),
        "batting": finishing.batting and _batting(finishing.batting, project.measure, length),
        "sleeve": finishing.sleeve and _sleeve(finishing.sleeve, length),
    }


def _binding(plan: BindingPlan, project: Project, length: Write) -> dict[str, Any]:
    binding = plan.binding
    return {
        "fabric": binding.fabric,
        "cut": binding.cut,
        "join": binding.join,
        "fold": binding.fold,
        "strip": length(plan.strip),
        "allowance": length(binding.allowance(project.seam_allowance)),
        "around": length(plan.around),
        "extra": length(binding.extra),
        "needed": length(plan.needed),
        "pieces": plan.pieces,
        "piece": {"width": length(plan.width), "height": length(plan.height)},
        "strips": plan.strips,
        "joined": length(plan.total),
        "usual": plan.usual and _usual(plan, plan.usual, project.measure, length),
    }


def _usual(plan: BindingPlan, usual: Usual, measure: str, length: Write) -> dict[str, Any]:
    return {
        "pieces": usual.pieces,
        "side": None if usual.side is None else length(usual.side),
        "joined": length(usual.joined),
        "why": _say_usual(plan, usual, measure),
    }


def _say_usual(plan: BindingPlan, usual: Usual, measure: str) -> str:
    """Why the usual rule is not kept to."""
    joined = format_length(usual.joined, measure)
    if usual.side is None:
        return phrase(
            "the usual count is {usual}, which comes to {joined}; with the cloth the joins take, {count}",
            usual=usual.pieces,
            joined=joined,
            count=plan.pieces,
        )
    side, width, height = (format_length(v, measure) for v in (usual.side, plan.width, plan.height))
    ours = width if width == height else phrase("{width} by {height}", width=width, height=height)
    return phrase(
        "the usual rule for the area says a square of {side}, which comes to {joined}; with what is lost in seams, "
        "corners and the last strip, {ours}",
        side=side,
        joined=joined,
        ours=ours,
    )


def _backing(plan: BackingPlan, length: Write) -> dict[str, Any]:
    return {
        "fabric": plan.fabric,
        "width": length(plan.width),
        "height": length(plan.height),
        "seam_allowance": length(BACKING_SEAM),
        **_panels(plan.chosen, length),
        "other_way": plan.other and _panels(plan.other, length),
    }


def _panels(panels: Panels, length: Write) -> dict[str, Any]:
    return {
        "panels": panels.count,
        "panel": {"width": length(panels.widths[0]), "height": length(panels.length)},
        "widths": [length(width) for width in panels.widths],
        "seams": panels.seams if panels.count > 1 else "none",
        "seams_at": [length(place) for place in panels.seam_places],
        "length": length(panels.along_roll),
    }


def _batting(plan: BattingPlan, measure: str, length: Write) -> dict[str, Any]:
    return {
        "width": length(plan.width),
        "height": length(plan.height),
        "overhang": length(plan.overhang),
        "sold_as": plan.packet and _packet(plan.packet, plan, length),
        "perhaps": plan.perhaps
        and {**_packet(plan.perhaps, plan, length), "why": _say_doubt(plan.perhaps, measure)},
    }


def _say_doubt(packet: Packet, measure: str) -> str:
    """Why a packet has to be looked at before it is bought."""
    sure = sure_size(packet.name)
    if sure is None:
        return phrase("not every shop has it")
    short, long = (format_length(side, measure) for side in (sure.short, sure.long))
    return phrase("some packets of that name are only {short} by {long}", short=short, long=long)


def _packet(packet: Packet, plan: BattingPlan, length: Write) -> dict[str, Any]:
    return {
        "name": packet.name,
        "width": length(packet.short),
        "height": length(packet.long),
        "lies": "upright" if packet.holds_upright(plan.width, plan.height) else "on its side",
    }


def _sleeve(plan: SleevePlan, length: Write) -> dict[str, Any]:
    return {
        "fabric": plan.sleeve.fabric,
        "depth": length(plan.sleeve.depth),
        "length": length(plan.length),
        "height": length(plan.height),
        "pieces": plan.joined.pieces,
        "piece": {"width": length(plan.joined.length), "height": length(plan.height)},
    }
