"""What stands round the top in a document, a file for each thing read: cloth, cutting, accuracy, pieces, finish,
publishing."""

from service.craft.sections.accuracy import read_accuracy, read_pace
from service.craft.sections.applique import read_applique
from service.craft.sections.cloth import read_fabrics
from service.craft.sections.colourways import read_colourways
from service.craft.sections.cutting import read_cutting
from service.craft.sections.finish import read_finish
from service.craft.sections.fusible import read_fusible
from service.craft.sections.pieces import read_pieces
from service.craft.sections.publishing import (
    read_audience,
    read_page,
    read_parts,
    read_sources,
    read_tracks,
)

__all__ = [
    "read_accuracy",
    "read_applique",
    "read_audience",
    "read_colourways",
    "read_cutting",
    "read_fabrics",
    "read_finish",
    "read_fusible",
    "read_pace",
    "read_page",
    "read_parts",
    "read_pieces",
    "read_sources",
    "read_tracks",
]
