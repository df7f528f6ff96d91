"""Exact numbers: a + b√c over the rationals, the field a patchwork on point lives in.

A square turned on its corner measures b√2, its setting triangles b√2/2, and a block inside a block
inside another stays in the same field; so no float ever decides a cut. Numbers whose root differs
do not mix (no unit needs that).
"""

from __future__ import annotations

from fractions import Fraction
from math import floor, isqrt, sqrt

Rational = int | Fraction


class MixedRoots(ArithmeticError):
    """Two numbers with different roots met, which no straight-seam unit brings about."""


class Exact:
    """a + b√c with rational a and b.

    >>> side = Exact(0, 12)                 # a 12 in block on point is 12√2 across
    >>> side * side == 288, float(side).__round__(3)
    (True, 16.971)
    >>> Exact(1, 1) > Fraction(241, 100), Exact(1, 1) > Fraction(242, 100)
    (True, False)
    """

    __slots__ = ("a", "b", "c")

    a: Fraction
    b: Fraction
    c: int

    def __init__(self, a: Rational, b: Rational = 0, c: int = 2) -> None:
        self.a = a if isinstance(a, Fraction) else Fraction(a)
        self.b = b if isinstance(b, Fraction) else Fraction(b)
        self.c = c

    def _common_root(self, other: Exact) -> int:
        if self.b and other.b and self.c != other.c:
            raise MixedRoots(f"√{self.c} met √{other.c}")
        return self.c if self.b else other.c

    def __add__(self, other: Number) -> Exact:
        if not isinstance(other, Exact):
            return Exact(self.a + other, self.b, self.c)
        return Exact(self.a + other.a, self.b + other.b, self._common_root(other))

    __radd__ = __add__

    def __neg__(self) -> Exact:
        return Exact(-self.a, -self.b, self.c)

    def __sub__(self, other: Number) -> Exact:
        return self + (-other)

    def __rsub__(self, other: Number) -> Exact:
        return -self + other

    def __mul__(self, other: Number) -> Exact:
        if not isinstance(other, Exact):
            return Exact(self.a * other, self.b * other, self.c)
        root = self._common_root(other)
        return Exact(self.a * other.a + self.b * other.b * root, self.a * other.b + self.b * other.a, root)

    __rmul__ = __mul__

    def __truediv__(self, other: Number) -> Exact:
        if not isinstance(other, Exact):
            return Exact(self.a / other, self.b / other, self.c)
        norm = other.a * other.a - other.b * other.b * other.c
        return self * Exact(other.a, -other.b, other.c) / norm

    def __rtruediv__(self, other: Number) -> Exact:
        return Exact(1) * other / self

    def __abs__(self) -> Exact:
        return -self if self.sign() < 0 else self

    def sign(self) -> int:
        """-1, 0 or 1, decided in whole numbers."""
        if not self.b:
            return (self.a > 0) - (self.a < 0)
        side_a, side_b = (self.a > 0) - (self.a < 0), 1 if self.b > 0 else -1
        if side_a == side_b or not side_a:
            return side_b
        larger_a = self.a * self.a > self.b * self.b * self.c
        return side_a if larger_a else side_b

    def __eq__(self, other: object) -> bool:
        if isinstance(other, Exact):
            return self.a == other.a and self.b == other.b and (not self.b or self.c == other.c)
        if isinstance(other, int | Fraction):
            return not self.b and self.a == other
        return NotImplemented

    def __hash__(self) -> int:
        return hash((self.a, self.b, self.c)) if self.b else hash(self.a)

    def __lt__(self, other: Number) -> bool:
        return (self - other).sign() < 0

    def __le__(self, other: Number) -> bool:
        return (self - other).sign() <= 0

    def __gt__(self, other: Number) -> bool:
        return (self - other).sign() > 0

    def __ge__(self, other: Number) -> bool:
        return (self - other).sign() >= 0

    def __float__(self) -> float:
        return float(self.a) + float(self.b) * sqrt(self.c) if self.b else float(self.a)

    def __floor__(self) -> int:
        if not self.b:
            return floor(self.a)
        # a + b√c = (p + q√c)/d; |q|√c = √(q²c), and isqrt bounds it to less than one
        d = self.a.denominator * self.b.denominator
        p, q = int(self.a * d), int(self.b * d)
        root = isqrt(q * q * self.c)
        return (p + root) // d if q > 0 else (p - root - 1) // d

    def __ceil__(self) -> int:
        return -floor(-self)

    def __repr__(self) -> str:
        return f"Exact({self.a}, {self.b}, {self.c})" if self.b else f"Exact({self.a})"


Number = int | Fraction | Exact

ROOT_2 = Exact(0, 1, 2)
"""√2: the diagonal of a one inch square."""


def exact(value: Number) -> Exact:
    """The same number as an `Exact`."""
    return value if isinstance(value, Exact) else Exact(value)


def rational(value: Number) -> Fraction | None:
    """The same number as a `Fraction`, or None where a root stays in it."""
    if isinstance(value, Exact):
        return None if value.b else value.a
    return Fraction(value)
