"""Reads a ring of blades from the document, with every fault of its sizes and angles at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from service.craft.faults import show
from service.craft.measure import RULER_MARKS, format_length, round_down
from service.craft.planar.round_shapes import POINTED, TIPS, BladeTemplate, DiscTemplate
from service.craft.reading import Reader, at
from service.craft.units.fan_blade_ring import Blade, FanBladeRing
from service.craft.units.fan_blade_shapes import find_shoulder
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "fabric", "fabrics", "blades", "reach", "hole", "tips", "centre"})
BLADE_FIELDS = frozenset({"angle", "fabric"})
CENTRE_FIELDS = frozenset({"fabric", "size"})

USUAL, FEWEST, MOST = 20, 5, 120
LEAST_ANGLE, MOST_ANGLE = Fraction(1), Fraction(90)
ROUND_ABOUT = Fraction(360)

SMALLEST_DISC = Fraction(1, 4)
"""Inches across: what is smaller cannot be turned under. Own estimate, far below what is sewn."""

LEAST_SEEN = Fraction(1, 16)
"""Inches of a blade's long sides that are seen beyond the disc."""

Wedge = tuple[Fraction, str]
"""The angle of a blade in degrees, and its cloth."""


@dataclass(frozen=True)
class _Radii:
    """Lengths of a ring in inches, None where the document has none that can be read."""

    half: Fraction | None
    reach: Fraction | None
    hole: Fraction | None
    core: Fraction | None
    shoulder: Fraction | None


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> FanBladeRing | None:
    """A ring of blades from the document; 20 pointed ones where it does not say."""
    reader = units.reader
    before = len(reader.faults)
    size = reader.size(raw, pointer)
    fabric = reader.fabric(raw, "fabric", pointer, "the background of the ring")
    wedges = _read_blades(raw, pointer, reader)
    tips = reader.choice(raw, "tips", pointer, TIPS, POINTED)
    reach = _read_length(raw, "reach", pointer, "how far the ring reaches from its middle", reader)
    hole = _read_length(raw, "hole", pointer, "the radius of the hole", reader)
    disc_fabric, diameter = _read_centre(raw, pointer, reader)
    widest = max((angle for angle, _ in wedges), default=None) if wedges else None
    radii = _Radii(
        half=None if size is None else min(size) / 2,
        reach=reach,
        hole=hole,
        core=None if diameter is None else diameter / 2,
        shoulder=None if reach is None or widest is None else find_shoulder(widest, reach, tips),
    )
    _check_radii(radii, pointer, reader)
    if size is None or fabric is None or wedges is None or reach is None or hole is None:
        return None
    if disc_fabric is None or diameter is None or len(reader.faults) > before:
        return None
    blades = tuple(
        Blade(cloth, units.templates.name(BladeTemplate("", angle, reach, hole, tips)))
        for angle, cloth in wedges
    )
    disc = units.templates.name(DiscTemplate("", diameter))
    return FanBladeRing(
        pointer=pointer, size=size, fabric=fabric, blades=blades, disc=disc, disc_fabric=disc_fabric
    )


def _read_length(
    raw: Mapping[str, Any], key: str, pointer: str, what: str, reader: Reader
) -> Fraction | None:
    return reader.length(raw.get(key), at(pointer, key) if key in raw else pointer, what)


def _read_centre(raw: Mapping[str, Any], pointer: str, reader: Reader) -> tuple[str | None, Fraction | None]:
    """The cloth and the finished diameter of the disc."""
    where = at(pointer, "centre")
    fields = reader.mapping(raw.get("centre"), where if "centre" in raw else pointer, 'the "centre"')
    if fields is None:
        return None, None
    reader.known_fields(fields, where, CENTRE_FIELDS)
    cloth = reader.fabric(fields, "fabric", where, "the centre of the ring")
    return cloth, _read_length(fields, "size", where, "the diameter of the centre", reader)


def _read_blades(raw: Mapping[str, Any], pointer: str, reader: Reader) -> list[Wedge] | None:
    """The blades from noon on: so many of one angle, or each by itself."""
    listed = raw.get("blades", USUAL)
    before = len(reader.faults)
    each = isinstance(listed, list)
    own = each and all(isinstance(entry, Mapping) and "fabric" in entry for entry in listed)
    cloths = [] if own and "fabrics" not in raw else _read_cloths(raw, pointer, reader)
    if each:
        wedges = _read_each(listed, at(pointer, "blades"), cloths, reader)
    else:
        wedges = _read_equal(listed, at(pointer, "blades"), cloths, reader)
    return wedges if len(reader.faults) == before else None


def _read_cloths(raw: Mapping[str, Any], pointer: str, reader: Reader) -> list[str]:
    """The cloths that blades take in turn."""
    where = at(pointer, "fabrics")
    listed = reader.sequence(
        raw.get("fabrics"),
        where if "fabrics" in raw else pointer,
        'the list "fabrics" of the blades',
        least=1,
    )
    cloths = [reader.fabric_name(cloth, at(where, i), "a blade") for i, cloth in enumerate(listed or [])]
    return [cloth for cloth in cloths if cloth is not None]


def _read_equal(count: Any, where: str, cloths: Sequence[str], reader: Reader) -> list[Wedge]:
    if isinstance(count, bool) or not isinstance(count, int):
        reader.fault(
            where, f"the blades are {show(count)}", "a whole number, or a list with the angle of each"
        )
        return []
    if not FEWEST <= count <= MOST:
        _say_count(count, where, reader)
        return []
    return [(ROUND_ABOUT / count, cloths[i % len(cloths)]) for i in range(count) if cloths]


def _read_each(listed: Sequence[Any], where: str, cloths: Sequence[str], reader: Reader) -> list[Wedge]:
    if not FEWEST <= len(listed) <= MOST:
        _say_count(len(listed), where, reader)
    if len(listed) > MOST:
        return []
    wedges = [_read_blade(entry, at(where, i), i, cloths, reader) for i, entry in enumerate(listed)]
    angles = [angle for angle, _ in wedges if angle is not None]
    total = sum(angles, Fraction(0))
    if len(angles) == len(listed) and total != ROUND_ABOUT:
        off = abs(total - ROUND_ABOUT)
        reader.fault(
            where,
            f"the angles of these {len(listed)} blades come to {say_degrees(total)}",
            f"360 degrees, {say_degrees(off)} {'less' if total > ROUND_ABOUT else 'more'}",
        )
    return [(angle, cloth) for angle, cloth in wedges if angle is not None and cloth is not None]


def _read_blade(
    raw: Any, where: str, number: int, cloths: Sequence[str], reader: Reader
) -> tuple[Fraction | None, str | None]:
    fields = reader.mapping(raw, where, "a blade")
    if fields is None:
        return None, None
    reader.known_fields(fields, where, BLADE_FIELDS)
    if "fabric" in fields:
        cloth = reader.fabric_name(fields["fabric"], at(where, "fabric"), "a blade")
    else:
        cloth = cloths[number % len(cloths)] if cloths else None
    if "angle" not in fields:
        reader.fault(where, 'the blade has no "angle"', "its angle in degrees, for example 18")
        return None, cloth
    before = len(reader.faults)
    angle = reader.number(fields, "angle", where, default=LEAST_ANGLE, least=LEAST_ANGLE, most=MOST_ANGLE)
    return (angle if len(reader.faults) == before else None), cloth


def _say_count(count: int, where: str, reader: Reader) -> None:
    reader.fault(where, f"the ring has {count} blades", f"{FEWEST} to {MOST} of them; {USUAL} are usual")


def _check_radii(radii: _Radii, pointer: str, reader: Reader) -> None:
    """The ring lies inside its background, its hole inside the ring; and the disc fits both."""
    half, reach, hole = radii.half, radii.reach, radii.hole

    def say(length: Fraction) -> str:
        return format_length(length, reader.measure)

    if half is not None and reach is not None and reach >= half:
        detail = f"the ring reaches {say(reach)} from its middle with its tips, the background {say(half)}"
        reader.fault(at(pointer, "reach"), detail, f"less than {say(half)}, or a larger background")
    if hole is not None and reach is not None and hole >= reach:
        detail = f"the hole has a radius of {say(hole)}, the ring one of {say(reach)}: nothing is left of the blades"
        reader.fault(at(pointer, "hole"), detail, f"less than {say(reach)}")
    if radii.core is not None:
        _check_disc(radii.core, radii, at(pointer, "centre", "size"), reader)


def _check_disc(core: Fraction, radii: _Radii, where: str, reader: Reader) -> None:
    """It can be turned under, it covers the hole, and something is seen of the blades beyond it."""

    def say(length: Fraction) -> str:
        return format_length(length, reader.measure)

    across = f"the centre is {say(2 * core)} across"
    if 2 * core < SMALLEST_DISC:
        reader.fault(where, f"{across}: its edge cannot be turned under", f"{say(SMALLEST_DISC)} or more")
    if radii.hole is not None and core < radii.hole:
        hole = say(2 * radii.hole)
        reader.fault(where, f"{across}, the hole {hole}: it does not cover the hole", f"{hole} or more")
    if radii.shoulder is not None and core > radii.shoulder - LEAST_SEEN:
        end, most = (
            say(round_down(2 * length, RULER_MARKS[reader.measure]))
            for length in (radii.shoulder, radii.shoulder - LEAST_SEEN)
        )
        detail = f"{across}, and the long sides of the blades end {end} across"
        reader.fault(where, detail, f"{most} or less, so that blades are seen")


def say_degrees(angle: Fraction) -> str:
    """An angle in words, to a hundredth of a degree.

    >>> say_degrees(Fraction(18)), say_degrees(Fraction(360, 7))
    ('18 degrees', '51.43 degrees')
    """
    return f"{round(float(angle), 2):g} degrees"
