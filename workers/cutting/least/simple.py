"""Of all plans short enough, one that is simple to cut: the fewest strips, then the fewest sizes mixed in them.

Two whole-number programs over patterns of few sizes: the first counts strips, the second, with so many strips, what is
mixed. A strip cut into one size is cut at one setting of the ruler.
"""

from __future__ import annotations

from collections.abc import Sequence

from workers.cutting.least.columns import Relaxed, relax
from workers.cutting.least.field import Field, Pattern
from workers.cutting.least.highs import INFINITY, Answer, Program
from workers.cutting.least.improve import Budget, offers_near
from workers.cutting.least.plans import Plan, plan_length, trim
from workers.cutting.least.prices import SCALE

# How often the solver may look up from each of the two searches.
LOOKS = 60
# Patterns of two sizes that lose least, and of any number of sizes.
PAIRS, MANY = 400, 200


def strip_count(plan: Plan) -> int:
    """How many strips are cut."""
    return sum(count for _, count in plan)


def mixed(plan: Plan) -> int:
    """How many sizes lie in strips beside another: a strip of three sizes counts two."""
    return sum((len(pattern.counts) - 1) * count for pattern, count in plan)


def simplicity(plan: Plan) -> tuple[int, int, int]:
    """What makes one plan simpler than another: fewer strips, fewer sizes mixed, less cloth."""
    return strip_count(plan), mixed(plan), plan_length(plan)


def simplify(field: Field, plans: Sequence[Plan], most: int, budget: Budget) -> Plan:
    """The simplest plan found that is no longer than `most`; at worst the simplest of `plans`, which are not."""
    best = min(plans, key=simplicity)
    if budget.spent or simplicity(best)[:2] == (1, 0):
        return best
    relaxed = relax(field, budget.left)
    if budget.late:
        return best
    patterns = _patterns(field, relaxed, plans, most)
    program = _pose(field, patterns, most)
    start, half = _uses(patterns, best), budget.seconds / 2
    fewest = program.solve_whole(looks=LOOKS, seconds=min(half, budget.left()), start=start)
    if fewest.values is not None and sum(fewest.values) < sum(start):
        start = [float(n) for n in fewest.values]
    best = _better(field, patterns, fewest, best)
    program.add_row(0.0, float(strip_count(best)), [(column, 1.0) for column in range(len(patterns))])
    for column, pattern in enumerate(patterns):
        program.price(column, float(len(pattern.counts) - 1))
    least_mixed = program.solve_whole(looks=LOOKS, seconds=min(half, budget.left()), start=start)
    return _better(field, patterns, least_mixed, best)


def _uses(patterns: Sequence[Pattern], plan: Plan) -> list[float]:
    """How often a plan uses each pattern."""
    counts = dict(plan)
    return [float(counts.get(pattern, 0)) for pattern in patterns]


def _better(field: Field, patterns: Sequence[Pattern], answer: Answer, best: Plan) -> Plan:
    if answer.values is None:
        return best
    used = [(pattern, round(float(n))) for pattern, n in zip(patterns, answer.values, strict=True)]
    return min(best, trim(field, tuple((pattern, n) for pattern, n in used if n)), key=simplicity)


def _pose(field: Field, patterns: Sequence[Pattern], most: int) -> Program:
    program = Program()
    for wanted in field.demand:
        program.add_row(float(wanted), INFINITY)
    length = program.add_row(0.0, float(most))
    for pattern in patterns:
        made = field.made(pattern)
        highest = max(-(-field.demand[size] // count) for size, count in made.items())
        terms = [(size, float(count)) for size, count in sorted(made.items())]
        terms.append((length, float(pattern.height)))
        program.add_column(1.0, float(highest), terms, whole=True)
    return program


def _patterns(field: Field, relaxed: Relaxed, plans: Sequence[Plan], most: int) -> list[Pattern]:
    """Of one size, of the plans known, of two sizes and of several, where they lose little; each once."""
    loss = most * SCALE - relaxed.bound
    single = [Pattern(w.along, ((n, field.most[n]),)) for n, w in enumerate(field.ways)]
    known = [pattern for plan in plans for pattern, _ in plan]
    pairs = sorted(_pairs(field), key=lambda p: (relaxed.loss(field, p), p.height, p.counts))[:PAIRS]
    near = [offer.pattern for offer in offers_near(field, relaxed, loss, MANY)]
    return list(dict.fromkeys([*single, *known, *pairs, *near]))


def _pairs(field: Field) -> list[Pattern]:
    """Some pieces of one way, and as many of a lower one as fit beside them."""
    pairs = []
    for high, upper in enumerate(field.ways):
        for low in range(high):
            lower = field.ways[low]
            for count in range(1, field.most[high] + 1):
                wanted = field.demand[lower.size] - (count if lower.size == upper.size else 0)
                beside = min((field.width - count * upper.across) // lower.across, wanted)
                if beside < 1:
                    break
                pairs.append(Pattern(upper.along, ((low, beside), (high, count))))
    return pairs
