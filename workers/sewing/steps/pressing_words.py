"""How a stage is pressed, in a sentence and its reason."""

from __future__ import annotations

from collections.abc import Sequence

from workers.sewing.names import listed
from workers.sewing.plan import Stage
from workers.sewing.pressed import OPEN, SPUN, Half, PressedSeam
from workers.sewing.steps.seam_names import SeamNames, name_seams, say_place

MOST_NAMED = 12
"""Seams that a sentence still names one by one; the drawing shows the rest."""

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
GRADE = "Trim each dark allowance that will lie under a light cloth, a thread narrower than the light one."
SHOWS_LESS = (
    "Behind the light allowance, the dark one shines through less. "
    "The next step says which way each seam goes."
)
SPREAD = "Spun, the allowances share the room round the point, and it lies flatter."
SPIN = (
    "spin the last seam: press its {first} and its {second}. The allowances now lie in a ring, {round} seen from the "
    "front, and a tiny square opens in the middle"
)
LOOSEN = (
    "in the middle, take out the two or three stitches of the crossed seam that lie in "
    "the allowance, on both sides."
)
LOOSENED = "Without them the allowances can turn both ways. The last seam itself stays whole."
"""How a seam is spun (spinning where four or more seams meet: sewitbetter.com/gallery/tips.htm)."""

ANY = slice(None)


def press_sentence(stage: Stage) -> str:
    """What to do with the iron, pile by pile, or an empty text for a stage without seams."""
    return press_seams(stage, ANY) if stage.seams else ""


def press_seams(stage: Stage, part: slice) -> str:
    """What to do with some seams of a stage that are pressed together, in each of the ways of its copies."""
    names = name_seams(stage.work)
    said: dict[str, list[int]] = {}
    for way, (_, seams) in enumerate(stage.ways, start=1):
        drawn = f"drawing {way}" if len(stage.ways) > 1 else "the drawing"
        said.setdefault(say_way(stage, seams, names, part, drawn=drawn), []).append(way)
    return say_by_piles(stage, said)


def say_by_piles(stage: Stage, said: dict[str, list[int]]) -> str:
    """What is done (without its full stop), by the ways whose copies it is done to: once, or pile by pile."""
    if len(said) == 1:
        (text,) = said
        return f"{text[0].upper()}{text[1:]}."
    found, left = [], stage.count
    for text, ways in said.items():
        count = sum(stage.ways[way - 1][0] for way in ways)
        left -= count
        found.append(f"{_which_copies(stage, ways, count, left=left)} {text}.")
    return " ".join(found)


def _which_copies(stage: Stage, ways: Sequence[int], count: int, *, left: int) -> str:
    """The copies pressed in some ways: those of a pile that is there, or as many as make one."""
    piles = name_piles([n for n, pile in enumerate(stage.piles, start=1) if pile.way in ways])
    whole = stage.count
    rest = f"the other {count}" if count > 1 else "the last one" if whole > 2 else "the other one"
    which = rest if not left else f"{count if count > 1 else 'one'} of the {whole}"
    if any(pile.takes for pile in stage.piles):
        return f"In {piles}, {which},"
    return f"In {which}, for {piles},"


def name_piles(numbers: Sequence[int]) -> str:
    """Piles by their numbers.

    >>> name_piles([1]), name_piles([1, 3])
    ('pile 1', 'piles 1 and 3')
    """
    return f"pile{'s' if len(numbers) > 1 else ''} {listed(map(str, numbers))}"


def shows_dark(stage: Stage) -> bool:
    """Whether a dark allowance of the stage comes to lie under a light cloth."""
    return any(seam.shadows for _, seams in stage.ways for seam in seams)


def say_loosen(stage: Stage) -> str:
    """The stitches that are taken out before a seam is spun, in the copies in which it is."""
    spun = [way for way, (_, seams) in enumerate(stage.ways, start=1) if seams[-1].press == SPUN]
    if len(spun) == len(stage.ways):
        return f"{LOOSEN[0].upper()}{LOOSEN[1:]}"
    count = sum(stage.ways[way - 1][0] for way in spun)
    return f"{_which_copies(stage, spun, count, left=stage.count - count or 1)} {LOOSEN}"


def say_way(
    stage: Stage,
    seams: Sequence[PressedSeam],
    names: SeamNames,
    part: slice = ANY,
    *,
    drawn: str = "the drawing",
) -> str:
    """How some seams of one copy are pressed: "press seam 1, counted from the left, to the left; seam 2 to the right".

    `drawn` is the drawing in which seams are looked up that are too many to name.
    """
    chosen = seams[part]
    numbers = range(len(seams))[part]
    if chosen[-1].press == SPUN:
        return _say_spin(stage, chosen[-1])
    one = _say_one_way(chosen)
    if one:
        which = _say_which(numbers, len(seams), names) if one != "open" or len(chosen) == 1 else "the seams"
        return f"press {which} {one}{_shape(stage, chosen) if len(chosen) == len(seams) else ''}"
    groups = _group(seams, numbers, names)
    if len(chosen) > MOST_NAMED or not names.tell_apart(list(groups.values())):
        return f"press each seam to the side where its wedge stands in {drawn}"
    return "press " + "; ".join(_say_groups(groups, names))


def _say_which(numbers: Sequence[int], whole: int, names: SeamNames) -> str:
    """Seams that all go one way: all of them, a single one, or those that are sewn by now."""
    if len(numbers) == whole:
        return "the seam" if whole == 1 else "every seam"
    if len(numbers) > 1:
        return "these seams"
    return names.say(numbers) + (f", {names.counted}," if names.counted else "")


def _say_one_way(seams: Sequence[PressedSeam]) -> str:
    """Where all the seams go, if that is one way; else an empty text."""
    if {seam.press for seam in seams} == {OPEN}:
        return "open"
    towards = {seam.towards for seam in seams}
    if len(seams) > 1 and towards <= {"the upper unit", "the lower unit"}:
        towards = set()
    if len(towards) == 1 and (len(seams) == 1 or not any(map(_is_between_equals, seams))):
        return _say_towards(seams[0]) if len(seams) == 1 else f"towards {_with_article(seams[0].towards)}"
    ways = {seam.press for seam in seams}
    parallel = all(abs((s.line.to_right * seams[0].line.to_right.conjugate()).imag) < 1e-6 for s in seams)
    return WAYS[seams[0].press] if len(ways) == 1 and parallel else ""


def _group(seams: Sequence[PressedSeam], numbers: Sequence[int], names: SeamNames) -> dict[str, list[int]]:
    """The numbers of the seams by where they go."""
    groups: dict[str, list[int]] = {}
    for number in sorted(numbers, key=lambda n: int(names.names[n]) if names.counted else n):
        seam = seams[number]
        way = WAYS.get(seam.press, "") if names.counted else _say_towards(seam)
        groups.setdefault(way, []).append(number)
    return groups


def _say_groups(groups: dict[str, list[int]], names: SeamNames) -> list[str]:
    """The seams by where they go: "seams 1 and 3, counted from the left, to the right"."""
    found: list[str] = []
    for way, numbers in groups.items():
        counted = f", {names.counted}," if names.counted and not found else ""
        found.append(f"{names.say(numbers)}{counted} {way}")
    return found


def _say_spin(stage: Stage, seam: PressedSeam) -> str:
    """How a seam is spun, half by half."""
    corners = stage.work.corners
    size = complex(float(stage.work.width), float(stage.work.height))
    centre = sum(corners, 0j) / len(corners)
    first, second = (_say_half(half, centre, size) for half in seam.halves)
    return SPIN.format(first=first, second=second, round=say_round(seam))


def _say_half(half: Half, centre: complex, size: complex) -> str:
    return f"{say_place((half.start + half.end) / 2 - centre, size)} half {WAYS[half.press]}"


def say_round(seam: PressedSeam) -> str:
    """Which way round the allowances of a spun seam lie."""
    return "clockwise" if seam.clockwise else "anticlockwise"


def press_reason(stage: Stage) -> str:
    """Why it is pressed that way."""
    if is_spun(stage):
        return SPREAD
    towards = {seam.towards for seam in stage.seams}
    reasons = [REASONS[t] for t in sorted(towards) if t in REASONS]
    if {seam.press for seam in stage.seams} == {OPEN}:
        return OPENED
    return " ".join([*reasons[:1], *([NESTING] if stage.meets_others else [])]) or ONE_SIDE


def is_spun(stage: Stage) -> bool:
    """Whether the last seam is spun, in some copies at least."""
    return any(seam.press == SPUN for _, seams in stage.ways for seam in seams)


def say_seam(seam: PressedSeam) -> str:
    """Where one seam goes, in words."""
    return say_round(seam) if seam.press == SPUN else _say_towards(seam)


def _say_towards(seam: PressedSeam) -> str:
    if seam.press == OPEN:
        return "open"
    if seam.towards in ("the upper unit", "the lower unit"):
        return WAYS[seam.press]
    if seam.towards.startswith("the unit on the") or _is_between_equals(seam):
        return WAYS[seam.press]
    return f"towards {_with_article(seam.towards)}"


def _is_between_equals(seam: PressedSeam) -> bool:
    """Whether a word for what lies at its side would fit both sides of a seam."""
    return seam.line.left.words == seam.line.right.words == seam.towards


def _with_article(towards: str) -> str:
    """A cloth's name with its article; rows and what has one already stay as they are."""
    return towards if towards.startswith(("the ", "row ", "diagonal row ")) else f"the {towards}"


def _shape(stage: Stage, seams: Sequence[PressedSeam]) -> str:
    """Inward and outward, as the trade says it, for a row of three."""
    ways = [seam.press for seam in seams]
    if stage.work.kind == "row" and ways == ["right", "left"]:
        return ": inwards, to the middle"
    if stage.work.kind == "row" and ways == ["left", "right"]:
        return ": outwards, away from the middle"
    return ""
