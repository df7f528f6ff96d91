"""A project in another size: its document rewritten exactly, and the sizes near by whose cuts need no rounding."""

from service.craft.scaling.factors import MOST_FACTOR, check_factor, find_factor
from service.craft.scaling.nearest import NearSize, nearest_sizes
from service.craft.scaling.rewriting import Scaled, scale_document

__all__ = [
    "MOST_FACTOR",
    "NearSize",
    "Scaled",
    "check_factor",
    "find_factor",
    "nearest_sizes",
    "scale_document",
]
