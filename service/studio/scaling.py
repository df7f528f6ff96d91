"""A stored document in another size, as it stands in an answer."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.document import Project, read_document
from service.craft.faults import DocumentFaults, Fault
from service.craft.measure import Number, length_object
from service.craft.reading import Reader
from service.craft.scaling import check_factor, find_factor, nearest_sizes, scale_document

WAYS = ("width", "height", "factor")
ONE_WAY = 'one of "width", "height" and "factor"'
ON_A_DIAGONAL = (
    "The top is as wide as a diagonal, which no fraction gives exactly: the factor is the nearest thousandth."
)
LEAST, MOST = Fraction(1, 100), Fraction(100)


def scale_project(document: Mapping[str, Any], wanted: Mapping[str, Any]) -> dict[str, Any]:
    """The document in the size that `wanted` names by "width", "height" or "factor", and near sizes beside it.

    Raises `DocumentFaults`: with pointers into `wanted` for what it says, into the scaled document for what would
    come out.
    """
    raw, project = dict(document), read_document(document)
    factor, is_exact = _read_factor(wanted, project)
    scaled = scale_document(raw, factor)
    measure = project.measure

    def show_size(times: Fraction) -> dict[str, Any]:
        return _show_size(project.top.width * times, project.top.height * times, measure)

    return {
        "document": scaled.document,
        "factor": str(factor),
        "finished": show_size(factor),
        "notes": [*scaled.notes, *([] if is_exact else [ON_A_DIAGONAL])],
        "alternatives": [
            {"factor": str(near.factor), "finished": show_size(near.factor)}
            for near in nearest_sizes(raw, factor)
        ],
    }


def _show_size(width: Number, height: Number, measure: str) -> dict[str, Any]:
    return {"width": length_object(width, measure), "height": length_object(height, measure)}


def _read_factor(wanted: Mapping[str, Any], project: Project) -> tuple[Fraction, bool]:
    """The factor, and whether it gives the size that is wanted exactly."""
    reader = Reader()
    reader.measure = project.measure
    reader.known_fields(wanted, "", WAYS)
    named = [way for way in WAYS if wanted.get(way) is not None]
    if len(named) != 1:
        said = " and ".join(f'"{way}"' for way in named) or "no size"
        reader.fault("", f"the wish names {said}", ONE_WAY)
        raise DocumentFaults(reader.faults)
    [way] = named
    if way == "factor":
        factor = reader.number(wanted, way, "", default=Fraction(1), least=LEAST, most=MOST)
        _refuse(reader.faults)
        check_factor(factor)
        return factor, True
    length = reader.length(wanted[way], f"/{way}", f"the {way} wanted")
    _refuse(reader.faults)
    return find_factor(project, **{way: length})


def _refuse(faults: list[Fault]) -> None:
    if faults:
        raise DocumentFaults(faults)
