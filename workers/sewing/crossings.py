"""Where seams meet: at every seam, what ends there from both sides and comes to lie on each other.

When two pieces are laid right sides together, a seam that ends at a point of the new seam falls on its mirror image
in the other piece. Where a seam of that piece lies there too, the two nest if both allowances turn the same way
round the point.
"""

from __future__ import annotations

from cmath import phase
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import degrees, floor, hypot

from service.craft.units import QuarterSquareTriangle
from workers.sewing.polygons import JOINED
from workers.sewing.works import Laid, SeamLine, Work

CLOSE = 1e-6
"""Inches within which two places are one; works are laid in floats."""

OFFSET = 0.31
"""Keeps the borders between buckets off the places that rulers know."""

SeamKey = tuple[str, int]
"""A seam: the id of its work, and its number there."""

Slot = tuple[str, int]
"""A place that a piece is laid in: the id of the work, and the number of the item there."""

HALVED = {("rows", 1), (JOINED, 1), (QuarterSquareTriangle.kind, 3)}
"""Works of two halves, by their kind and how many seams they have; the last one joins the halves."""

FOUR = 4
"""Seams that meet where two seams cross, each half counted: a four-patch."""


@dataclass(frozen=True)
class Ray:
    """One end of a seam: the point, which way the seam runs from there (degrees), and whether it is the last end.

    `seam` decides how it is pressed, `own` is the seam itself. Where they differ, `at_end` is that of an end of `seam`
    that turns the same way round. `slots` are the places in which its works lie, the inner ones first.
    """

    point: complex
    angle: float
    seam: SeamKey
    at_end: bool
    own: SeamKey
    slots: tuple[Slot, ...] = ()


Place = tuple[int, int, int]
"""A point of a seam: the seam's number, and the bucket that the point lies in."""

Sided = tuple[Ray, bool]
"""What ends at a seam, and whether it comes from the right hand."""


@dataclass(frozen=True)
class Crossing:
    """Two seams that lie on each other in the seam `across` of a work. `alike`: they nest when the seams that decide
    for them, `first` and `second`, are pressed to the same hand. `met` are the two seams themselves, `slots` the places
    that the works of `first` and of `second` lie in, up to the crossing; `at_ends` say of each whether its last end is
    the one that lies here."""

    work: str
    across: int
    at: complex
    first: SeamKey
    second: SeamKey
    alike: bool
    met: tuple[SeamKey, SeamKey]
    slots: tuple[tuple[Slot, ...], tuple[Slot, ...]] = ((), ())
    at_ends: tuple[bool, bool] = (False, False)


@dataclass(frozen=True)
class Spin:
    """A seam whose halves are pressed to different sides, so that all allowances lie in a ring round `at`.

    `by` decides which way round: pressed to side s, every allowance at the point has the turn s ^ `at_end`. `layers`
    counts the seams that end at the point, the two halves among them.
    """

    seam: SeamKey
    at: complex
    by: SeamKey
    at_end: bool
    layers: int
    slots: tuple[Slot, ...] = ()

    def find_side(self, side: int) -> int:
        """The side of the half before the point (0 left, 1 right), when `by` is pressed to `side`; the other half
        takes the other one."""
        return side ^ self.at_end ^ 1


@dataclass(frozen=True)
class Meetings:
    """What meets in one work: its crossings, how many seams end on each of its seams from the left and right, the
    seam that is spun, and the one that could be, if there is one."""

    crossings: tuple[Crossing, ...]
    bulk: tuple[tuple[int, int], ...]
    spin: Spin | None = None
    could_spin: Spin | None = None


class CrossingFinder:
    """Finds what meets, work by work; the ends at a work's edge are kept for the works it is sewn into.

    `never_spun` are the ids of works whose last seam is pressed to one side though it could be spun; None stands for
    all works.
    """

    def __init__(self, never_spun: Collection[str] | None = ()) -> None:
        self._rays: dict[Work, list[Ray]] = {}
        self._never_spun = never_spun

    def meet(self, work: Work) -> Meetings:
        """What meets in a work whose parts have been looked at before."""
        inner = [ray for i, item in enumerate(work.items) for ray in self._laid_rays(item, (work.id, i))]
        own = list(_own_rays(work))
        bulk, at_seam = _gather(work, [*inner, *own])
        crossings = [
            crossing for (number, *_), rays in at_seam.items() for crossing in _pair(work, number, rays)
        ]
        could_spin = find_spin(work, crossings, at_seam)
        never = self._never_spun is None or work.id in self._never_spun
        spin = None if never else could_spin
        if spin is not None:
            own = [_spin_ray(ray, spin) if ray.own == spin.seam else ray for ray in own]
        self._rays[work] = [ray for ray in [*inner, *own] if _on_edge(ray.point, work.corners)]
        return Meetings(tuple(crossings), tuple((left, right) for left, right in bulk), spin, could_spin)

    def _laid_rays(self, item: Laid, slot: Slot) -> Iterator[Ray]:
        if not isinstance(item.piece, Work):
            return
        turn = 45.0 * item.eighths
        for ray in self._rays[item.piece]:
            yield replace(
                ray, point=item.place(ray.point), angle=(ray.angle + turn) % 360, slots=(*ray.slots, slot)
            )


def _gather(work: Work, rays: list[Ray]) -> tuple[list[list[int]], dict[Place, list[Sided]]]:
    """What ends at each seam: how many from the left and right, and what at each of its points."""
    lines = _Lines(work.seams)
    bulk = [[0, 0] for _ in work.seams]
    at_seam: dict[Place, list[Sided]] = defaultdict(list)
    for ray in rays:
        for number in lines.through(ray.point, inside=ray.own[0] == work.id):
            to_right = _runs_right(ray, work.seams[number])
            if to_right is not None:
                bulk[number][to_right] += 1
                at_seam[(number, *_bucket(ray.point))].append((ray, to_right))
    return bulk, at_seam


def find_spin(work: Work, crossings: Sequence[Crossing], at_seam: Mapping[Place, list[Sided]]) -> Spin | None:
    """The seam that joins two halves of a small unit and is crossed at one point alone, where four seams meet; of a
    larger one, where more than four do (spinning: sewitbetter.com/gallery/tips.htm)."""
    number = len(work.seams) - 1
    if (work.kind, len(work.seams)) not in HALVED or work.seams[number].fixed:
        return None
    here = [crossing for crossing in crossings if crossing.across == number]
    if not here or any(abs(crossing.at - here[0].at) > CLOSE for crossing in here):
        return None
    seam, at = work.seams[number], here[0].at
    layers = 2 + len(at_seam[(number, *_bucket(at))])
    if min(abs(at - seam.start), abs(at - seam.end)) < CLOSE or (layers == FOUR and not _is_small(work)):
        return None
    across = degrees(phase(seam.end - seam.start))
    rays = [ray for ray, to_right in at_seam[(number, *_bucket(at))] if not to_right]
    steepest = min(rays, key=lambda ray: (round(abs((ray.angle - across) % 180 - 90), 6), ray.own))
    if all(steepest.own != crossing.met[0] for crossing in here):
        return None
    return Spin((work.id, number), at, steepest.seam, steepest.at_end, layers, steepest.slots)


def _is_small(work: Work) -> bool:
    """Whether a work's halves are sewn of nothing but patches."""
    inner = [item.piece for item in work.items]
    return all(not isinstance(piece, Work) or not piece.works for piece in inner)


def _spin_ray(ray: Ray, spin: Spin) -> Ray:
    """An end of a spun seam, decided by what decides the spin: seen from its end, a half turns against the middle."""
    return replace(ray, seam=spin.by, at_end=not spin.at_end, slots=spin.slots)


def _own_rays(work: Work) -> Iterator[Ray]:
    for number, seam in enumerate(work.seams):
        if seam.fixed:
            continue
        angle = degrees(phase(seam.end - seam.start))
        key = seam_key(work, number)
        own = work.id, number
        yield Ray(seam.start, angle % 360, key, False, own)
        yield Ray(seam.end, (angle + 180) % 360, key, True, own)


def seam_key(work: Work, number: int) -> SeamKey:
    """The seam of a work that decides how one of its seams is pressed: itself, or the one it shares its way with."""
    same = work.seams[number].same_as
    return work.pressed_as or work.id, number if same is None else same


def _bucket(point: complex) -> tuple[int, int]:
    return floor(point.real / (64 * CLOSE) + OFFSET), floor(point.imag / (64 * CLOSE) + OFFSET)


def _on_edge(point: complex, corners: tuple[complex, ...]) -> bool:
    """Whether a point lies on the outline."""
    return any(
        _on_line(point, start, end) for start, end in zip(corners, (*corners[1:], corners[0]), strict=True)
    )


def _on_line(point: complex, start: complex, end: complex) -> bool:
    along = end - start
    length = hypot(along.real, along.imag)
    if not length:
        return False
    there = (point - start) * along.conjugate() / length
    return abs(there.imag) < CLOSE and -CLOSE < there.real < length + CLOSE


class _Lines:
    """The seams of a work by the line they lie on, so that a point finds its seams at once."""

    def __init__(self, seams: tuple[SeamLine, ...]) -> None:
        self._seams = seams
        self._by_line: dict[complex, dict[int, list[int]]] = {}
        for number, seam in enumerate(seams):
            along = seam.end - seam.start
            unit = along / abs(along)
            if unit.real < -CLOSE or (abs(unit.real) < CLOSE and unit.imag < 0):
                unit = -unit
            direction = complex(round(unit.real, 6), round(unit.imag, 6))
            lines = self._by_line.setdefault(direction, defaultdict(list))
            lines[self._line(seam.start, direction)].append(number)

    @staticmethod
    def _line(point: complex, direction: complex) -> int:
        return floor((point * direction.conjugate()).imag / 0.001 + OFFSET)

    def through(self, point: complex, *, inside: bool = False) -> Iterator[int]:
        """The seams a point lies on, their ends among them unless it is to lie `inside`."""
        for direction, lines in self._by_line.items():
            for number in lines.get(self._line(point, direction), ()):
                seam = self._seams[number]
                at_end = min(abs(point - seam.start), abs(point - seam.end)) < CLOSE
                if _on_line(point, seam.start, seam.end) and not (inside and at_end):
                    yield number


def _runs_right(ray: Ray, seam: SeamLine) -> bool | None:
    """Whether what ends at a seam comes from its right hand; None where it runs along it."""
    along = degrees(phase(seam.end - seam.start))
    side = (ray.angle - along) % 180
    if min(side, 180 - side) < 0.01:
        return None
    return (ray.angle - along) % 360 < 180


def _pair(work: Work, number: int, rays: list[tuple[Ray, bool]]) -> Iterator[Crossing]:
    """The seams from left and right of a seam that end at one point and are each other's mirror image."""
    along = degrees(phase(work.seams[number].end - work.seams[number].start))
    for first, to_right in rays:
        if to_right:
            continue
        mirrored = (2 * along - first.angle) % 360
        for second, other_right in rays:
            apart = abs(second.angle - mirrored) % 360
            if other_right and min(apart, 360 - apart) < 0.01:
                alike = first.at_end == second.at_end
                met = first.own, second.own
                slots = first.slots, second.slots
                ends = first.at_end, second.at_end
                yield Crossing(work.id, number, first.point, first.seam, second.seam, alike, met, slots, ends)
