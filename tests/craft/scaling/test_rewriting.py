"""A scaled document is the same top in another size: every finished length times the factor, nothing else."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.measure import Exact, parse_length, rewrite_length, write_number
from service.craft.scaling import find_factor, scale_document
from service.craft.scaling.lengths_of import INSIDE, LENGTHS
from service.craft.units import READERS, CuttingRules, PatchUnit
from service.craft.units.walking import walk_once
from tests.craft.document.conftest import whole
from tests.craft.units.conftest import document, tops

slow = settings(
    deadline=None, max_examples=50, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
factors = st.fractions(Fraction(1, 8), 8, max_denominator=24)


@slow
@given(tops())
def test_times_one_a_document_is_itself(raw):
    assert scale_document(document(raw), Fraction(1)).document == document(raw)


@slow
@given(tops(), factors)
def test_every_corner_of_every_patch_moves_by_the_factor_exactly(raw, factor):
    before = read_document(document(raw)).top
    after = read_document(scale_document(document(raw), factor).document).top
    assert (after.width, after.height) == (before.width * factor, before.height * factor)
    for old, new in zip(before.patches(), after.patches(), strict=True):
        assert new.points == tuple((x * factor, y * factor) for x, y in old.points)
        assert (new.fabric, new.pointer) == (old.fabric, old.pointer)


@slow
@given(tops(), factors)
def test_there_and_back_again_gives_the_same_lengths(raw, factor):
    there = scale_document(document(raw), factor).document
    back = scale_document(there, 1 / factor).document
    assert read_document(back).top == read_document(document(raw)).top


@slow
@given(tops(), factors)
def test_a_cut_without_its_allowances_scales_exactly(raw, factor):
    """On a ruler fine enough for all: finished = cut - 2s, and finished sizes scale."""
    before = read_document(document(raw)).top
    after = read_document(scale_document(document(raw), factor).document).top
    seam = Fraction(1, 4)
    for old, new in zip(walk_once(before), walk_once(after), strict=True):
        if isinstance(old, PatchUnit) and isinstance(new, PatchUnit):
            step = Fraction(1, 4)
            for side in (*old.size, *new.size):
                step /= side.denominator
            [small], [large] = (unit.needs(CuttingRules(seam, step)) for unit in (old, new))
            assert large.width - 2 * seam == (small.width - 2 * seam) * factor
            assert large.height - 2 * seam == (small.height - 2 * seam) * factor


def test_of_the_whole_document_only_finished_lengths_change():
    """Cloth, seam, finish and what is trimmed off stay; blocks, pieces and settings come out half as large again."""
    raw = whole()
    scaled, notes = scale_document(raw, Fraction(3, 2))
    for field in set(raw) - {"blocks", "top", "pieces"}:
        assert scaled[field] == raw[field], field
    inside = scaled["top"]["inside"]
    assert inside["extra"] == "1/2"
    assert scaled["top"]["borders"][0]["width"] == "3"
    assert inside["alternate"]["size"] == ["13 1/2", "13 1/2"]
    assert scaled["blocks"]["bed"]["sashing"] == {"width": "1 1/2", "fabric": "leaf", "around": True}
    assert scaled["blocks"]["bed"]["rows"][1][0]["inside"]["corners"]["size"] == "1 1/2"
    assert scaled["blocks"]["rows"]["length"] == "30"
    assert scaled["blocks"]["rows"]["cut_into"] == "3"
    assert scaled["pieces"][0] == raw["pieces"][0] | {"at": ["6", "3"], "scale": 2.25}
    assert scaled["pieces"][1]["scale"] == 1.5
    assert [note.split()[0] for note in notes] == ["The", "A", "The"]
    before, after = read_document(raw), read_document(scaled)
    assert after.top.width == before.top.width * Fraction(3, 2)
    assert after.rules == before.rules and after.finish == before.finish and after.fabrics == before.fabrics


def test_underlap_and_turning_allowance_stay_and_the_notes_say_so():
    """They are of the hand and the cloth, as a seam allowance is: common practice, no source."""
    raw = whole() | {"applique": {"underlap": "6 mm", "turning": "3/16"}}
    scaled, notes = scale_document(raw, Fraction(2))
    assert scaled["applique"] == {"underlap": "6 mm", "turning": "3/16"}
    assert read_document(scaled).applique == read_document(raw).applique
    assert any("turned under as before" in note for note in notes)


@pytest.mark.parametrize("factor", [Fraction(1, 10), Fraction(7, 3), 10])
def test_a_planning_size_beside_an_inside_stays_near_enough(factor):
    """17 5/8 for 12 1/2 in on its corner is off by 1/19 in; times ten that would be a fault."""
    plain = {"unit": "patch", "size": ["12 1/2", "12 1/2"], "fabric": "leaf"}
    top = {"unit": "square in a square", "inside": plain, "fabric": "soil", "size": ["17 5/8", "17 5/8"]}
    after = read_document(scale_document(document(top), Fraction(factor)).document)
    assert after.top.width * after.top.width == 2 * (Fraction(25, 2) * factor) ** 2


def test_an_alternate_nobody_sews_does_not_stand_in_the_way():
    plain = {"unit": "patch", "size": ["2", "2"], "fabric": "leaf"}
    cornered = {"unit": "square in a square", "inside": plain, "fabric": "soil", "size": ["2.83", "2.83"]}
    square = {"unit": "square in a square", "inside": plain, "fabric": "soil"}
    top = {
        "unit": "on point",
        "rows": [[square, square]],
        "alternate": cornered,
        "side": "soil",
        "corner": "soil",
    }
    after = scale_document(document(top), Fraction(5)).document
    assert after["top"]["alternate"]["inside"]["size"] == ["10", "10"]


def test_lengths_keep_the_unit_they_name_and_are_exact():
    raw = document({"unit": "patch", "size": ["89 mm", 3.5], "fabric": "leaf"})
    assert scale_document(raw, Fraction(5, 7)).document["top"]["size"] == ["63 4/7 mm", "2 1/2"]
    raw = document({"unit": "patch", "size": ["8.9", "3 in"], "fabric": "leaf"}, measure="cm")
    assert scale_document(raw, Fraction(1, 4)).document["top"]["size"] == ["2.225", "3/4 in"]


@given(st.fractions(0, 900, max_denominator=5000), st.sampled_from(["in", "mm", "cm", "m", "yd"]))
def test_what_is_written_is_read_again_as_the_same_length(value, unit):
    for measure in ("in", "mm", "cm"):
        for written in (f"1 {unit}", "1", 1, "3½"):
            assert parse_length(rewrite_length(written, value, measure), measure) == value


@given(st.fractions(Fraction(1, 100), 100, max_denominator=10**6))
def test_a_scale_of_a_piece_is_read_again_as_the_same_number(value):
    raw = whole()
    raw["pieces"][0]["scale"] = write_number(value)
    assert read_document(raw).pieces[0].scale == value


@pytest.mark.parametrize("wrong", ["4/0", "1/000", "-4/3", "4/", "/3", "4/3/2", "101/1"])
def test_a_scale_that_is_no_fraction_is_refused(wrong):
    raw = whole()
    raw["pieces"][0]["scale"] = wrong
    with pytest.raises(DocumentFaults) as found:
        read_document(raw)
    assert [fault.pointer for fault in found.value.faults] == ["/pieces/0/scale"]


def test_every_kind_of_unit_says_where_its_lengths_stand():
    assert set(READERS) <= set(LENGTHS)
    assert set(INSIDE) <= set(LENGTHS)


def faults(raw: Any, factor: Fraction) -> list[tuple[str, str]]:
    with pytest.raises(DocumentFaults) as found:
        scale_document(raw, factor)
    return [(fault.pointer, fault.detail) for fault in found.value.faults]


@pytest.mark.parametrize(
    ("factor", "words"),
    [
        (Fraction(0), "0 times as large"),
        (Fraction(101), "101 times"),
        (Fraction(1_000_001, 10**6), "too fine"),
    ],
)
def test_a_factor_beyond_all_sense_is_refused_in_words(factor, words):
    [(pointer, detail)] = faults(whole(), factor)
    assert pointer == "/factor" and words in detail


def test_what_would_come_out_beyond_measure_is_refused_where_it_stands():
    raw = document({"unit": "patch", "size": ["20", "3"], "fabric": "leaf"})
    assert faults(raw, Fraction(60)) == [("/top/size/0", "in the size wanted, the width is longer than 25 m")]


def test_the_factor_for_a_wanted_width_or_height_is_exact():
    project = read_document(document({"unit": "patch", "size": ["8", "6"], "fabric": "leaf"}))
    assert find_factor(project, width=Fraction(6)) == (Fraction(3, 4), True)
    assert find_factor(project, height=Fraction(7)) == (Fraction(7, 6), True)


def test_the_factor_for_a_diagonal_is_a_thousandth_near_enough():
    """12 in on point is 12√2 across; for 20 in the factor lies within half a thousandth of 20/(12√2)."""
    block = {"unit": "patch", "size": ["12", "12"], "fabric": "leaf"}
    top = {"unit": "on point", "rows": [[block]], "side": "soil", "corner": "soil"}
    factor, is_exact = find_factor(read_document(document(top)), width=Fraction(20))
    assert not is_exact and factor.denominator <= 1000
    assert abs(Exact(0, 12) * factor - 20) <= Exact(0, 12) / 2000


def test_a_ring_of_blades_scales_with_its_radii_and_keeps_its_angles():
    """Its corners lie on a grid of their own: each moves by the factor to less than 1/1000 in."""
    raw = {
        "unit": "fan blade ring",
        "size": ["14", "13"],
        "fabric": "frost",
        "fabrics": ["leaf", "soil"],
        "blades": [{"angle": angle} for angle in (14, 22)] * 10,
        "reach": "6",
        "hole": "1 1/2",
        "centre": {"fabric": "frost", "size": "3 1/2"},
    }
    scaled = scale_document(document(raw), Fraction(3, 2)).document
    assert scaled["top"] | {"size": ["14", "13"]} == raw | {
        "reach": "9",
        "hole": "2 1/4",
        "centre": {"fabric": "frost", "size": "5 1/4"},
    }
    assert scaled["top"]["size"] == ["21", "19 1/2"]
    before, after = (read_document(whole).top for whole in (document(raw), scaled))
    for old, new in zip(before.patches(), after.patches(), strict=True):
        for p, q in zip((*old.points, *old.hole), (*new.points, *new.hole), strict=True):
            assert [float(v) * 1.5 for v in p] == pytest.approx(list(map(float, q)), abs=1e-3)
