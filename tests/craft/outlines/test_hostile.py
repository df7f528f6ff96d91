"""Uploads made to read what they should not, to call out, or to keep the machine busy."""

from __future__ import annotations

import socket
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from service.craft.outlines import OutlineUnreadable, read_svg, to_json
from service.craft.outlines.limits import Limits

Sheet = Callable[[str], bytes]

SECRET = "compost-key-4711"

BOMB = '<g id="u0"/>' + "".join(
    f'<g id="u{i}">' + f'<use href="#u{i - 1}"/>' * 10 + "</g>" for i in range(1, 8)
)
"""Ten uses of ten uses, seven times: ten million elements from one kilobyte."""

LAUGHS = "".join(f'<!ENTITY b{i} "{f"&b{i - 1};" * 10}">' for i in range(1, 10))


@pytest.fixture(autouse=True)
def no_calls(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[object]]:
    """No drawing may open a connection: any attempt is recorded, and the test fails."""
    calls: list[object] = []
    monkeypatch.setattr(socket.socket, "connect", lambda _socket, address: calls.append(address))
    yield calls
    assert calls == []


@pytest.fixture
def secret(tmp_path: Path) -> Path:
    """A file nobody may read through a drawing."""
    path = tmp_path / "secret.txt"
    path.write_text(SECRET)
    return path


@pytest.mark.timeout(20)
@pytest.mark.parametrize(
    "declaration",
    [
        '<!DOCTYPE svg [<!ENTITY x SYSTEM "file://{path}">]>',
        '<!DOCTYPE svg SYSTEM "http://127.0.0.1:9/never.dtd">',
        '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://127.0.0.1:9/svg11.dtd">',
        f'<!DOCTYPE svg [<!ENTITY b0 "beanbeanbean">{LAUGHS}<!ENTITY x "&b9;">]>',
        '<!DOCTYPE svg [<!ENTITY x "' + "bean" * 20_000 + '">]>',
        '<!DOCTYPE svg [<!ENTITY % p SYSTEM "http://127.0.0.1:9/p"> %p; <!ENTITY x "y">]>',
    ],
)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_a_document_type_is_refused_before_anything_is_expanded(
    secret: Path, declaration: str, encoding: str
) -> None:
    head = f'<?xml version="1.0" encoding="{encoding}"?>{declaration.replace("{path}", str(secret))}'
    data = f'{head}<svg xmlns="http://www.w3.org/2000/svg"><text>{"&x;" * 500}</text><circle r="9"/></svg>'
    with pytest.raises(OutlineUnreadable, match="document type") as caught:
        read_svg(data.encode(encoding), "hostile.svg")
    assert SECRET not in str(caught.value)


@pytest.mark.timeout(20)
@pytest.mark.parametrize(
    ("inside", "message"),
    [
        ("<g>" * 5_000 + "</g>" * 5_000, "more than 64 deep"),
        ("<g>" * 64 + "</g>" * 64, "more than 64 deep"),
        (f'<defs>{BOMB}</defs><use href="#u7"/>', "unfold into more than 50,000"),
        ('<use id="a" href="#a"/>', "inside itself"),
        ('<g id="a"><use href="#a"/></g>', "inside itself"),
        (
            '<defs><g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g></defs><use href="#a"/>',
            "inside itself",
        ),
        ('<symbol id="a"><use href="#a"/></symbol><use href="#a"/>', "inside itself"),
        ("<g/>" * 20_000, "more than 20,000 elements"),
        ('<path d="M0 0' + "h1" * 200_000 + '"/>', "more segments"),
        ('<rect width="9" height="9"/>' * 1_001, "more than 1,000 shapes"),
        ('<rect width="1e9" height="1e9"/>', "reaches to"),
        ('<path d="M0 0 L NaN 5 5 5z"/>', "where a number should"),
        ('<path d="M0 0 L 1e999 5 5 5z"/>', "too large"),
        ('<g transform="scale(1e9)">' * 40 + '<circle r="9"/>' + "</g>" * 40, "beyond all measure"),
        ('<circle r="inf"/>', "no length"),
        ('<path d="M0 0' + "C9e3 9e3-9e3 9e3 0 0" * 3_000 + 'z"/>', "points at true size"),
        ('<path d="' + "M0 0h9v9z" * 501 + '"/>', "501 contours"),
        (
            '<pattern id="p" width="1e-9" height="1e-9"><rect width="9" height="9"/></pattern>',
            "no closed shape",
        ),
    ],
    ids=lambda value: value[:40] if isinstance(value, str) else None,
)
def test_a_drawing_that_would_keep_the_machine_busy_is_refused_by_its_budget(
    sheet: Sheet, inside: str, message: str
) -> None:
    with pytest.raises(OutlineUnreadable) as caught:
        read_svg(sheet(inside), "hostile.svg")
    assert message in str(caught.value)


@pytest.mark.timeout(20)
def test_a_comb_of_slanting_teeth_is_refused_before_every_pair_is_tested(sheet: Sheet) -> None:
    """Nothing crosses, but every tooth's box overlaps every other's: testing 40,000 of them takes a minute."""
    teeth = "".join(f"L{i * 1e-3:.3f} 0L{50 + i * 1e-3:.3f} 50" for i in range(40_000))
    with pytest.raises(OutlineUnreadable, match="too densely"):
        read_svg(sheet(f'<path d="M0 0{teeth}L95 0z"/>'), "hostile.svg")


@pytest.mark.timeout(20)
def test_a_scribble_of_endless_crossings_is_refused(sheet: Sheet) -> None:
    zigzag = "".join(f"L{i % 2 * 90} {i * 0.01:.2f}L{i % 3 * 45} 90" for i in range(4_000))
    with pytest.raises(OutlineUnreadable, match=r"crosses itself|too densely"):
        read_svg(sheet(f'<path d="M0 0{zigzag}z"/>'), "hostile.svg")


def test_nothing_outside_the_drawing_is_followed(sheet: Sheet, secret: Path) -> None:
    inside = (
        f'<image href="file://{secret}"/><image xlink:href="http://127.0.0.1:9/a.png"/>'
        f'<use href="file://{secret}#a"/><use xlink:href="http://127.0.0.1:9/a.svg#a"/>'
        "<style>@import url(http://127.0.0.1:9/a.css);</style>"
        '<script href="http://127.0.0.1:9/a.js"/><foreignObject><iframe src="http://127.0.0.1:9/"/></foreignObject>'
        '<rect id="bed" width="9" height="9" fill="url(http://127.0.0.1:9/#g)" onclick="alert(1)"/>'
    )
    stored = str(to_json(read_svg(sheet(inside), "hostile.svg"))["shapes"])
    assert "bed" in stored
    assert SECRET not in stored
    assert "127.0.0.1" not in stored


def test_processing_instructions_and_comments_are_dropped(sheet: Sheet) -> None:
    inside = '<?xml-stylesheet href="http://127.0.0.1:9/a.css"?><!-- <script/> --><circle r="9"/>'
    assert len(read_svg(sheet(inside), "a.svg").shapes) == 1


NO_DRAWING = {
    b"": "the file is empty",
    b" \n": "the file is empty",
    b"twelve leeks, two rows": "a text file",
    b"\x89PNG\r\n\x1a\n\0\0": "a PNG picture",
    b"\xff\xd8\xff\xe0\0": "a JPEG picture",
    b"%PDF-1.7": "a PDF file",
    b"\x1f\x8b\x08\0": "a compressed file",
    b"MZ\0\1\2": "a binary file",
    b"<svg><g></svg>": "line 1: the file is broken XML",
    b"<svg xmlns='http://www.w3.org/2000/svg'><path d='M0 0h9v9z'": "broken XML",
    b"<html><body/></html>": "the first element is <html>",
    b"<svg xmlns='urn:other'/>": "not an SVG drawing",
    b"\xff\xfe<\0s\0v\0g\0": "broken XML",
}


@pytest.mark.parametrize(("data", "message"), NO_DRAWING.items())
def test_a_file_that_is_no_drawing_is_told_what_it_looks_like(data: bytes, message: str) -> None:
    with pytest.raises(OutlineUnreadable) as caught:
        read_svg(data, "row.svg")
    assert message in str(caught.value)
    assert "SVG" in caught.value.right


def test_a_file_over_the_size_budget_is_refused_unparsed() -> None:
    with pytest.raises(OutlineUnreadable, match="5,000,001 bytes"):
        read_svg(b"<svg" + b" " * 4_999_997, "row.svg")


def test_a_drawing_cut_off_anywhere_is_refused_or_read_and_never_breaks(sheet: Sheet) -> None:
    data = sheet('<g id="a" transform="scale(2)"><path d="M0 0h9v9A4 4 0 1 1 0 9z"/></g><circle r="5"/>')
    for end in range(len(data)):
        with pytest.raises(OutlineUnreadable):
            read_svg(data[:end], "cut.svg")


def test_any_byte_changed_is_refused_or_read_and_never_breaks(sheet: Sheet) -> None:
    data = sheet('<g id="a" transform="scale(2)"><path d="M0 0h9v9A4 4 0 1 1 0 9z"/></g><circle r="5"/>')
    read_or_refused = 0
    for place in range(0, len(data)):
        for byte in (0, 38, 45, 57, 60, 101, 255):
            try:
                read_svg(data[:place] + bytes([byte]) + data[place + 1 :], "bent.svg")
            except OutlineUnreadable as fault:
                assert fault.detail
            read_or_refused += 1
    assert read_or_refused == 7 * len(data)


def test_budgets_can_be_set_smaller(sheet: Sheet) -> None:
    with pytest.raises(OutlineUnreadable, match="more than 1 shapes"):
        read_svg(sheet('<circle r="5"/><circle r="6"/>'), "a.svg", limits=Limits(shapes=1))
