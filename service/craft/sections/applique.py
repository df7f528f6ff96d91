"""Reads what holds for all applique pieces: the underlap and the turning allowance."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.applique import DEFAULT_TURNING, DEFAULT_UNDERLAP, AppliqueRules
from service.craft.reading import Reader, at

MOST_UNDERLAP, MOST_TURNING = Fraction(1), Fraction(1, 2)
"""Inches; with more, the layers lie up in ridges, or the allowance cannot be laid round a curve."""

LEAST_TURNING = Fraction(1, 16)
"""Inches; less cloth than this does not stay under a fold."""


def read_applique(raw: Mapping[str, Any], reader: Reader) -> AppliqueRules:
    """The `applique` section; what it leaves out is as usual. An underlap of 0 adds none."""
    fields = reader.mapping(raw.get("applique", {}), "/applique", 'the "applique" section')
    if fields is None:
        return AppliqueRules()
    reader.known_fields(fields, "/applique", ("underlap", "turning"))
    underlap = reader.optional_length(
        fields, "underlap", "/applique", "the underlap", DEFAULT_UNDERLAP, zero=True
    )
    turning = reader.optional_length(fields, "turning", "/applique", "the turning allowance", DEFAULT_TURNING)
    if underlap > MOST_UNDERLAP:
        reader.fault(at("/applique", "underlap"), "the underlap is more than 1 in", '"1/4" in, or "6 mm"')
        underlap = DEFAULT_UNDERLAP
    if not LEAST_TURNING <= turning <= MOST_TURNING:
        detail = "the turning allowance is not between 1/16 in and 1/2 in"
        reader.fault(at("/applique", "turning"), detail, '"3/16" in, or "5 mm"')
        turning = DEFAULT_TURNING
    return AppliqueRules(underlap, turning)
