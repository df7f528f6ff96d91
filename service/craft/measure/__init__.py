"""Exact lengths: numbers, notation, rounding."""

from service.craft.measure.angles import cosine, sine, tangent
from service.craft.measure.exact import ROOT_2, Exact, Number, exact, rational
from service.craft.measure.lengths import (
    MM_PER_INCH,
    RULER_MARKS,
    Length,
    NotALength,
    format_inches,
    format_label,
    format_length,
    format_mm,
    format_other,
    length_object,
    parse_length,
    round_to_ruler,
)
from service.craft.measure.rounding import round_down, round_nearest, round_up
from service.craft.measure.sizes import format_size
from service.craft.measure.writing import rewrite_length, write_number

__all__ = [
    "MM_PER_INCH",
    "ROOT_2",
    "RULER_MARKS",
    "Exact",
    "Length",
    "NotALength",
    "Number",
    "cosine",
    "exact",
    "format_inches",
    "format_label",
    "format_length",
    "format_mm",
    "format_other",
    "format_size",
    "length_object",
    "parse_length",
    "rational",
    "rewrite_length",
    "round_down",
    "round_nearest",
    "round_to_ruler",
    "round_up",
    "sine",
    "tangent",
    "write_number",
]
