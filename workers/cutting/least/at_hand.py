"""What is at hand for who waits no longer: the linear program rounded down, and the rest by the fit rule."""

from __future__ import annotations

from workers.cutting.least.columns import Relaxed
from workers.cutting.least.field import Field, Pattern
from workers.cutting.least.improve import still_wanted
from workers.cutting.least.plans import Plan, gather, spread, trim


def rounded_down(field: Field, relaxed: Relaxed) -> Plan:
    """The whole strips of the linear program, and the rest by the fit rule: what is at hand at once."""
    used = zip(relaxed.patterns, relaxed.shares, strict=True)
    kept = trim(field, tuple((pattern, int(share + 1e-6)) for pattern, share in used if share > 1 - 1e-6))
    return gather(spread(kept) + spread(fitted(field, still_wanted(field, kept))))


def fitted(field: Field, wanted: tuple[int, ...]) -> Plan:
    """So many pieces of each size by falling height, each lying the lower way, into the fullest strip with room."""
    low: dict[int, int] = {}
    for number, way in enumerate(field.ways):
        low.setdefault(way.size, number)
    strips: list[tuple[int, dict[int, int]]] = []
    for number in sorted(low.values(), reverse=True):
        across, left = field.ways[number].across, wanted[field.ways[number].size]
        strips.sort(key=lambda strip: strip[0])
        while left:
            place = next((n for n, (room, _) in enumerate(strips) if room >= across), None)
            room, counts = (field.width, dict[int, int]()) if place is None else strips.pop(place)
            count = min(left, room // across)
            counts[number] = count
            left -= count
            strips.append((room - count * across, counts))
    return gather([Pattern(field.ways[max(c)].along, tuple(sorted(c.items()))) for _, c in strips])
