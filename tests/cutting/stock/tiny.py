"""Tiny stock problems solved by trying every way, with nothing of the solver in it."""

from __future__ import annotations

from dataclasses import dataclass, field

from workers.cutting.stock.problem import StockProblem
from workers.cutting.strip_problem import Size


@dataclass
class Opened:
    """A strip that has been begun: where it lies, how high it is, how much room is left."""

    place: tuple[int, int, bool] | None
    height: int
    room: int


@dataclass
class Search:
    """Every piece in turn goes into every strip begun, or begins one anywhere; the least cost of all ways."""

    problem: StockProblem
    strips: list[Opened] = field(default_factory=list)
    best: int | None = None

    def least(self) -> int | None:
        pieces = [n for n, size in enumerate(self.problem.sizes) for _ in range(size.count)]
        self.place(pieces)
        return self.best

    def cost(self) -> int:
        roll = sum(strip.height for strip in self.strips if strip.place is None)
        copies = {strip.place[:2] for strip in self.strips if strip.place}
        return roll + sum(self.problem.stock[stock].cost for stock, _ in copies)

    def place(self, pieces: list[int]) -> None:
        if self.best is not None and self.cost() >= self.best:
            return
        if not pieces:
            self.best = self.cost()
            return
        size = self.problem.sizes[pieces[0]]
        ways = [(size.width, size.height), (size.height, size.width)]
        for (across, along), other in zip(ways, (False, True), strict=True):
            for strip in list(self.strips):
                if across <= strip.room and self.fits(strip, along) and may_lie(size, strip.place, other):
                    before = (strip.height, strip.room)
                    strip.height, strip.room = max(strip.height, along), strip.room - across
                    self.place(pieces[1:])
                    strip.height, strip.room = before
            for place, width in self.places():
                strip = Opened(place, 0, width)
                if not may_lie(size, place, other):
                    continue
                self.strips.append(strip)
                if across <= width and self.fits(strip, along):
                    strip.height, strip.room = along, width - across
                    self.place(pieces[1:])
                self.strips.pop()

    def fits(self, strip: Opened, along: int) -> bool:
        if strip.place is None:
            return True
        stock, _, turned = strip.place
        piece = self.problem.stock[stock]
        height = piece.width if turned else piece.height
        others = sum(s.height for s in self.strips if s is not strip and s.place == strip.place)
        return others + max(strip.height, along) <= height

    def places(self) -> list[tuple[tuple[int, int, bool] | None, int]]:
        found: list[tuple[tuple[int, int, bool] | None, int]] = []
        if self.problem.roll is not None:
            found.append((None, self.problem.roll))
        for stock, piece in enumerate(self.problem.stock):
            begun = {s.place[1]: s.place[2] for s in self.strips if s.place and s.place[0] == stock}
            copies = list(begun)
            if piece.count is None or len(begun) < piece.count:
                copies.append(len(begun))
            for copy in copies:
                ways = [begun[copy]] if copy in begun else [False, True][: 1 + piece.may_turn]
                found += [((stock, copy, t), piece.height if t else piece.width) for t in ways]
        return found


def may_lie(size: Size, place: tuple[int, int, bool] | None, turned: bool) -> bool:
    """Whether a size may lie so in its strip: what must not turn keeps its way on the cloth, not in the strip."""
    return size.may_turn or size.width == size.height or turned == bool(place and place[2])
