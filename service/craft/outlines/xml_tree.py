"""From bytes to an XML tree, without fetching, expanding or trusting anything.

Entities are not resolved, no DTD is loaded, nothing is fetched, and a document type is refused
outright; comments and processing instructions are dropped. A file that is no SVG at all gets told what
it looks like instead.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from lxml import etree

from service.craft.outlines.faults import OutlineUnreadable
from service.craft.outlines.limits import Limits

SVG_NAMESPACE = "http://www.w3.org/2000/svg"

SIGNATURES = {
    b"\x89PNG": "a PNG picture",
    b"\xff\xd8\xff": "a JPEG picture",
    b"%PDF": "a PDF file",
    b"GIF8": "a GIF picture",
    b"RIFF": "a WebP picture or another file of chunks",
    b"II*\0": "a TIFF picture",
    b"MM\0*": "a TIFF picture",
    b"BM": "a BMP picture",
    b"PK\x03\x04": "a ZIP archive",
    b"\x1f\x8b": "a compressed file",
}
"""First bytes of what is often saved under the wrong name (the formats' own registered signatures)."""

WIDE_TEXT_MARKS = (b"\xff\xfe", b"\xfe\xff")
"""Byte order marks of UTF-16, in which zero bytes are no sign of a binary file."""

PLAIN_SVG = "a plain SVG drawing, whose first element is <svg>; pictures are traced as PNG, JPEG or PDF"


def parse_tree(data: bytes, limits: Limits) -> etree._Element:
    """The root element of a drawing, checked for size, depth and kind; else `OutlineUnreadable`."""
    _check_bytes(data, limits)
    parser = etree.XMLParser(
        resolve_entities=False,
        no_network=True,
        load_dtd=False,
        dtd_validation=False,
        huge_tree=False,
        remove_comments=True,
        remove_pis=True,
    )
    try:
        root = etree.fromstring(data, parser)
    except etree.XMLSyntaxError as error:
        raise _explained(error, data, limits) from None
    information: Any = root.getroottree().docinfo
    if information.doctype:
        raise _document_type()
    _check_kind(root)
    _check_budget(root, limits)
    return root


def local_name(element: etree._Element) -> str:
    """The element's name if it belongs to SVG, else an empty string.

    Programs leave their own data in drawings under namespaces of their own; none of it is drawn.
    """
    name = etree.QName(element)
    return name.localname if name.namespace in (SVG_NAMESPACE, None) else ""


def describe(element: etree._Element) -> str:
    """Where an element stands, for messages: `line 12, <path id="leek">`."""
    identity = element.get("id")
    tag = etree.QName(element).localname
    return (
        f'line {element.sourceline}, <{tag} id="{identity[:40]}">'
        if identity
        else f"line {element.sourceline}, <{tag}>"
    )


@contextmanager
def fault_at(element: etree._Element) -> Iterator[None]:
    """Turns a `ValueError` about a value into an `OutlineUnreadable` that says where the value stands."""
    try:
        yield
    except OutlineUnreadable:
        raise
    except ValueError as error:
        raise OutlineUnreadable(
            str(error),
            where=describe(element),
            right="the value put right, or the drawing saved as plain SVG",
        ) from None


def _check_bytes(data: bytes, limits: Limits) -> None:
    if not data.strip():
        raise OutlineUnreadable("the file is empty", right=PLAIN_SVG)
    if len(data) > limits.file_bytes:
        raise OutlineUnreadable(
            f"the file has {len(data):,} bytes",
            right=f"at most {limits.file_bytes:,}; embedded pictures and unused layers can be taken out",
        )
    for signature, what in SIGNATURES.items():
        if data.startswith(signature):
            raise OutlineUnreadable(f"this is {what}, not an SVG drawing", right=PLAIN_SVG)
    if b"\0" in data and not data.startswith(WIDE_TEXT_MARKS):
        raise OutlineUnreadable("this is a binary file, not an SVG drawing", right=PLAIN_SVG)
    prolog, mark, _ = data.partition(b"<svg")
    if mark and b"<!DOCTYPE" in prolog:
        raise _document_type()


def _document_type() -> OutlineUnreadable:
    return OutlineUnreadable(
        "the file declares a document type (<!DOCTYPE …>), which can pull in other files",
        right="the same drawing without that declaration: take it out in a text editor, or save as plain SVG",
    )


def _explained(error: etree.XMLSyntaxError, data: bytes, limits: Limits) -> OutlineUnreadable:
    message = str(error.msg)
    if b"<" not in data.replace(b"\0", b""):
        return OutlineUnreadable("this is a text file, not an SVG drawing", right=PLAIN_SVG)
    if b"<!DOCTYPE" in data.replace(b"\0", b""):
        return _document_type()
    if "xcessive depth" in message:
        return _too_deep(limits)
    return OutlineUnreadable(
        f"the file is broken XML: {message}",
        where=f"line {error.lineno}",
        right="an SVG file that opens in a browser",
    )


def _check_kind(root: etree._Element) -> None:
    if local_name(root) != "svg":
        raise OutlineUnreadable(
            f"the first element is <{etree.QName(root).localname[:40]}>, so this is not an SVG drawing",
            right=PLAIN_SVG,
        )


def _check_budget(root: etree._Element, limits: Limits) -> None:
    count, level = 0, [root]
    for depth in range(1, limits.depth + 2):
        count += len(level)
        if count > limits.elements:
            raise OutlineUnreadable(
                f"the drawing has more than {limits.elements:,} elements",
                right="fewer: leave out what is no outline",
            )
        if any(isinstance(element, etree._Entity) for element in level):
            raise _document_type()
        level = [child for element in level for child in element]
        if not level:
            return
        if depth == limits.depth:
            raise _too_deep(limits)


def _too_deep(limits: Limits) -> OutlineUnreadable:
    return OutlineUnreadable(
        f"groups stand inside each other more than {limits.depth} deep",
        right="the same drawing with groups dissolved",
    )
