"""Tables and lists of strips, held against every filling there is."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from workers.cutting.stock.filling import count_made, fill_height, fill_width
from workers.cutting.stock.patterns import list_full_heights, list_full_strips
from workers.cutting.stock.problem import list_ways
from workers.cutting.strip_problem import Size


def case(seed):
    random = Random(seed)
    sizes = tuple(Size(random.randint(2, 6), random.randint(1, 5), random.randint(1, 3)) for _ in range(3))
    return random.randint(6, 14), sizes, [random.randint(1, 9) for _ in sizes]


def fillings(width, sizes, height):
    """How many of each size, for every strip of a width that holds only pieces up to a height."""
    for counts in product(*(range(size.count + 1) for size in sizes)):
        inside = [(size, count) for size, count in zip(sizes, counts, strict=True) if count]
        low = all(size.height <= height for size, _ in inside)
        if low and sum(size.width * count for size, count in inside) <= width:
            yield counts


def worth(counts, prices):
    return sum(count * price for count, price in zip(counts, prices, strict=True))


@pytest.mark.parametrize("seed", range(15))
def test_the_table_has_the_best_strip_of_every_height(seed):
    width, sizes, prices = case(seed)
    table = fill_width(width, list_ways(sizes, width), sizes, prices)
    for height, (value, _) in table.levels.items():
        assert value == max(worth(counts, prices) for counts in fillings(width, sizes, height))
        strip = table.strip(height)
        assert strip.height <= height
        made = count_made([strip])
        assert worth([made[n] for n in range(len(sizes))], prices) == value


@pytest.mark.parametrize("seed", range(15))
def test_the_best_piece_of_a_height_is_the_best_of_all_ways_to_stand_its_strips(seed):
    width, sizes, prices = case(seed)
    table = fill_width(width, list_ways(sizes, width), sizes, prices)
    height = 11
    values = [value for value, _ in table.levels.values()]
    stands = product(*(range(height // level + 1) for level in table.levels))
    best = max(
        worth(counts, values)
        for counts in stands
        if sum(level * count for level, count in zip(table.levels, counts, strict=True)) <= height
    )
    value, strips = fill_height(height, table)
    assert value == best
    assert sum(strip.height for strip in strips) <= height


@pytest.mark.parametrize("least", [0, 12])
@pytest.mark.parametrize("seed", range(15))
def test_every_full_strip_that_is_worth_enough_is_listed_and_no_other(seed, least):
    width, sizes, prices = case(seed)
    ways = list_ways(sizes, width)
    listed = list_full_strips(width, ways, sizes, prices, lambda _: least)
    full = set()
    for height in {size.height for size in sizes}:
        allowed = list(fillings(width, sizes, height))
        for counts in allowed:
            more = [tuple(c + (n == m) for n, c in enumerate(counts)) for m in range(len(sizes))]
            tall = any(count and size.height == height for count, size in zip(counts, sizes, strict=True))
            if tall and worth(counts, prices) >= least and not any(one in allowed for one in more):
                full.add(counts)
    found = [count_made([strip]) for strip in listed]
    assert sorted(tuple(made[n] for n in range(len(sizes))) for made in found) == sorted(full)


def test_strips_stand_so_that_no_further_one_fits_and_are_worth_enough():
    """In 10: of 5 and 3 two of 5, one of 5 and one of 3, three of 3; worth 4 and 2 they come to 8, 6 and 6."""
    assert list_full_heights(10, {5: 4, 3: 2}, 0) == [(5, 5), (5, 3), (3, 3, 3)]
    assert list_full_heights(10, {5: 4, 3: 2}, 7) == [(5, 5)]


def test_a_list_that_grows_too_long_is_given_up():
    sizes = tuple(Size(2 + n, 3, 40) for n in range(6))
    ways = list_ways(sizes, 400)
    assert list_full_strips(400, ways, sizes, [1] * 6, lambda _: 0) is None
    assert list_full_heights(4000, dict.fromkeys(range(5, 12), 1), 0) is None
