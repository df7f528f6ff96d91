"""How a stage is pressed, in a sentence and its reason."""

from __future__ import annotations

from collections.abc import Sequence

from workers.sewing.names import listed
from workers.sewing.plan import Stage
from workers.sewing.pressed import OPEN, SPUN, PressedSeam

MOST_NUMBERED = 12
"""Seams that a sentence still counts through; the drawing shows the rest."""

WAYS = {"left": "to the left", "right": "to the right", "up": "upwards", "down": "downwards", "open": "open"}

REASONS = {
    "the border": "The border is plain and takes the thickness.",
    "the sashing": "The sashing is plain and takes the thickness.",
    "the setting triangle": "The triangle is plain and takes the thickness.",
    "the corner triangle": "The triangle is plain and takes the thickness.",
    "the plain unit": "The plain unit has no seams of its own, so the join stays flat.",
}
ONE_SIDE = "Pressed to one side, a seam is stronger than pressed open."
OPENED = "Pressed open, the seam lies flat."
NESTING = "Seams that meet later then lie to opposite sides and nest."
GRADE = "Where a dark allowance lies under a light cloth, trim it a thread narrower than the light one: it shows less."
SPREAD = "Spun, the allowances share the room round the point, and it lies flatter."
SPIN = (
    "Spin the last seam: in the middle, take out the two or three stitches of the seam it crosses that lie in the "
    "allowance, on both sides. Fold one half of the last seam {ways}, as the wedges show. The allowances now lie in a "
    "ring, {round} seen from the front, and a tiny square opens in the middle. Press it flat."
)
"""How a seam is spun (spinning where four or more seams meet: sewitbetter.com/gallery/tips.htm)."""


def press_sentence(stage: Stage) -> str:
    """What to do with the iron, or an empty text for a stage without seams."""
    text = _press_copies(stage)
    text = f"{text} {_press_others(stage)}" if stage.other_way else text
    shadowed = any(seam.shadows or (seam.other and seam.other.shadows) for seam in stage.seams)
    return f"{text} {GRADE}" if shadowed else text


def _press_others(stage: Stage) -> str:
    """How the copies are pressed that lie beside the others in turn."""
    first, second = stage.count - stage.other_way, stage.other_way
    differing = [seam for seam in stage.seams if seam.other]
    which = (
        "it" if len(stage.seams) == 1 else "every seam" if len(differing) == len(stage.seams) else "the seams"
    )
    shown = "" if which != "the seams" else ", as their own drawing shows"
    copies = f"the other {second}" if second > 1 else "the last one"
    return (
        f"Do so with {first} of the {stage.count}. In {copies} press {which} to the other side{shown}. "
        "Keep the two piles apart."
    )


def _press_copies(stage: Stage) -> str:
    """How the copies are pressed, or most of them."""
    seams = stage.seams
    if not seams:
        return ""
    if seams[-1].press == SPUN and len(seams) == 1:
        return spin_sentence(seams[-1])
    towards = list(dict.fromkeys(seam.towards for seam in seams))
    if len(seams) == 1:
        return f"Press the seam {_way(seams[0])}."
    if {seam.press for seam in seams} == {OPEN}:
        return "Press the seams open."
    if len(towards) == 1 and towards[0] != "both sides":
        return f"Press every seam towards {_with_article(towards[0])}{_shape(stage)}."
    if len(seams) > MOST_NUMBERED:
        return "Press each seam to the side where its wedge stands in the drawing."
    return "Press " + "; ".join(_groups(seams, _counted_from(stage))) + "."


def press_seams(seams: Sequence[PressedSeam]) -> str:
    """What to do with some seams of a stage that are pressed by themselves."""
    if seams and seams[-1].press == SPUN:
        return spin_sentence(seams[-1])
    ways = list(dict.fromkeys(_way(seam) for seam in seams))
    if len(ways) == 1:
        return f"Press the seam{'s' if len(seams) > 1 else ''} {ways[0]}."
    return f"Press {listed(f'one seam {way}' for way in ways)}."


def spin_sentence(seam: PressedSeam) -> str:
    """How a seam is spun."""
    first, second = (WAYS[half.press] for half in seam.halves)
    ways = f"{first} and the other {second}"
    return SPIN.format(ways=ways, round="clockwise" if seam.clockwise else "anticlockwise")


def press_reason(stage: Stage) -> str:
    """Why it is pressed that way."""
    if any(seam.press == SPUN for seam in stage.seams):
        return SPREAD
    towards = {seam.towards for seam in stage.seams}
    reasons = [REASONS[t] for t in sorted(towards) if t in REASONS]
    if {seam.press for seam in stage.seams} == {OPEN}:
        return OPENED
    return " ".join([*reasons[:1], *([NESTING] if stage.meets_others else [])]) or ONE_SIDE


def _way(seam: PressedSeam) -> str:
    if seam.press == OPEN:
        return "open"
    if seam.towards.startswith("the unit on the"):
        return f"to the {seam.press}" if seam.press in ("left", "right") else WAYS[seam.press]
    return f"towards {_with_article(seam.towards)}"


def _with_article(towards: str) -> str:
    """A cloth's name with its article; rows and what has one already stay as they are."""
    return towards if towards.startswith(("the ", "row ", "diagonal row ")) else f"the {towards}"


def _shape(stage: Stage) -> str:
    """Inward and outward, as the trade says it, for a row of three."""
    ways = [seam.press for seam in stage.seams]
    if stage.work.kind == "row" and ways == ["right", "left"]:
        return ": inwards, to the middle"
    if stage.work.kind == "row" and ways == ["left", "right"]:
        return ": outwards, away from the middle"
    return ""


def _counted_from(stage: Stage) -> str:
    if stage.work.kind == "row":
        return "counted from the left"
    if stage.work.kind == "rows":
        return "counted from the top"
    return ""


def _groups(seams: tuple[PressedSeam, ...], counted: str) -> list[str]:
    """The seams by where they go: "seams 1 and 3, counted from the left, to the right"."""
    groups: dict[str, list[str]] = {}
    for number, seam in enumerate(seams, start=1):
        groups.setdefault(WAYS.get(seam.press, _way(seam)) if counted else _way(seam), []).append(str(number))
    found: list[str] = []
    for way, numbers in groups.items():
        which = f"seam{'s' if len(numbers) > 1 else ''} {listed(numbers)}" if counted else _some(numbers)
        said = f", {counted}," if counted and not found else ""
        found.append(f"{which}{said} {way}")
    return found


def _some(numbers: list[str]) -> str:
    return "one seam" if len(numbers) == 1 else f"{len(numbers)} seams"
