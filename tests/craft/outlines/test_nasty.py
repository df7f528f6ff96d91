"""Half a hundred nasty drawings: the right geometry by hand, or a clear message; and what was changed is said.

Each case gives what is drawn, the areas of the shapes found (mm2, largest first, worked by hand), and words that the
notes must hold.
"""

from __future__ import annotations

import math

import pytest

from service.craft.outlines import OutlineUnreadable, read_svg

PI = math.pi
SQUARE = "M0 0H20V20H0z"


def svg(inner: str, head: str = 'width="100mm" height="100mm" viewBox="0 0 100 100"') -> bytes:
    spaces = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f"<svg {spaces} {head}>{inner}</svg>".encode()


DRAWINGS: dict[str, tuple[str, list[float], str]] = {
    "contour twice, filled": (f'<path d="{SQUARE}{SQUARE}"/>', [400], "drawn twice"),
    "contour twice, lines only": (f'<path fill="none" stroke="red" d="{SQUARE}{SQUARE}"/>', [400], "drawn twice"),
    "contour there and back, lines only": (
        '<path fill="none" stroke="red" d="M0 0H20V20H0zM0 0V20H20V0z"/>',
        [400],
        "drawn twice",
    ),
    "twice one way and once the other, over half": (
        '<path d="M3 3H10L3 10zH10L3 10zM10 3H3L10 10zH3L10 10zM10 3H3L10 10z"/>', [36.75], "crosses itself"),
    "shape drawn twice": (f'<path id="a" d="{SQUARE}"/><path id="b" d="{SQUARE}"/>', [400], '"b" is drawn over "a"'),
    "two with one outer ring and other holes": (
        f'<g fill-rule="evenodd"><path d="{SQUARE}M5 5H15V15H5z"/><path d="{SQUARE}M8 8H12V12H8z"/></g>',
        [384, 300],
        "",
    ),
    "a ring drawn twice": (
        f'<g fill-rule="evenodd"><path d="{SQUARE}M5 5H15V15H5z"/><path d="{SQUARE}M5 5H15V15H5z"/></g>',
        [300],
        "taken once",
    ),
    "fill and stroke apart by a hair": (
        f'<path d="{SQUARE}"/><path fill="none" stroke="red" d="M0.02 0.02H20.02V20.02H.02z"/>',
        [400],
        "taken once",
    ),
    "bow-tie": ('<path d="M0 0L20 20V0L0 20z"/>', [100, 100], "crosses itself"),
    "spike of no width": ('<path d="M0 0H20V10H40H20V20H0z"/>', [400], "crosses itself"),
    "hairline spike": ('<path d="M0 0H20V9.99L40 10L20 10.01V20H0z"/>', [400.2], "thinner than 1.5 mm 27 mm"),
    "segments of a billionth": ('<path d="M0 0l1e-9 0l1e-9 0H20V20H0z"/>', [400], ""),
    "moves that draw nothing": (f'<path d="M5 5M7 7{SQUARE}M9 9"/>', [400], ""),
    "arc of no radius": ('<path d="M0 0A0 5 0 0 1 20 0V20H0z"/>', [400], ""),
    "arc too small to reach": ('<path d="M0 10A1 1 0 0 1 20 10A1 1 0 0 1 0 10z"/>', [100 * PI], ""),
    "arc of negative radius": ('<path d="M0 10A-10-10 0 0 1 20 10A10 10 0 0 1 0 10z"/>', [100 * PI], ""),
    "arc to where it starts": ('<path d="M0 0A5 5 0 1 1 0 0H20V20H0z"/>', [400], ""),
    "flags run together": ('<path d="M5 0a5 5 0 0110 0 5 5 0 01-10 0z"/>', [25 * PI], ""),
    "flags and points run together": ('<path d="M0 0a1 1 0 01.5.5l9.5 9.5h-10z"/>', [50.0], ""),
    "exponents": ('<path d="M1e-3.5.2e2.5 2e1 2e+1.001 20z"/>', [390.0], ""),
    "compact lines": ('<path d="M0 0 20 0 20 20L0 20"/><rect y="50" width="9" height="9"/>',
                      [400, 81], "filled, so its ends, 20.0 mm apart"),
    "minus signs apart": ('<path d="M20-0-0-0-0 20 20 20z"/>', [400], ""),
    "relative move after close": ('<path d="M0 0h9v9h-9zm20 0h9v9h-9z"/>', [81, 81], ""),
    "hole wound the same way": (f'<path d="{SQUARE}M5 5H15V15H5z"/>', [400], "no hole"),
    "hole by parity": (f'<path fill-rule="evenodd" d="{SQUARE}M5 5H15V15H5z"/>', [300], ""),
    "hole by parity in style": (f'<path style="fill-rule:evenodd" d="{SQUARE}M5 5H15V15H5z"/>', [300], ""),
    "hole in a line drawing": (f'<path fill="none" stroke="red" d="{SQUARE}M5 5H15V15H5z"/>', [300], ""),
    "island in a hole": (
        f'<path fill-rule="evenodd" d="{SQUARE}M5 5H15V15H5zM8 8H12V12H8z"/>',
        [300, 16],
        "separate regions|",
    ),
    "even-odd cancels": (f'<path fill-rule="evenodd" d="{SQUARE}{SQUARE}"/><rect y="50" width="9" height="9"/>',
                         [81], "cancel"),
    "nonzero overlap": ('<path d="M0 0H20V20H0zM10 0H30V20H10z"/>', [600], "crosses itself"),
    "use with transforms": (
        f'<defs><path id="a" d="{SQUARE}"/></defs><g transform="scale(2)">'
        '<use href="#a" x="5" transform="rotate(30)"/></g>',
        [1600],
        "",
    ),
    "use of a use": (
        f'<defs><path id="a" d="{SQUARE}"/><use id="b" xlink:href="#a" transform="scale(.5)"/></defs>'
        '<use href="#b" transform="scale(.5)"/>',
        [25],
        "",
    ),
    "symbol with a view box": (
        '<symbol id="s" viewBox="0 0 10 10"><rect width="10" height="10"/></symbol>'
        '<use href="#s" width="30" height="30"/>',
        [900],
        "",
    ),
    "nested svg": (
        '<svg x="10" y="10" width="50%" height="50%" viewBox="0 0 10 10"><rect width="10" height="10"/></svg>',
        [2500],
        "",
    ),
    "percentages": ('<rect x="10%" y="10%" width="50%" height="25%"/>', [1250], ""),
    "percentages of the diagonal": ('<circle cx="50" cy="50" r="10%"/>', [100 * PI], ""),
    "style attribute": ('<rect width="9" height="9" style="fill:none;stroke:#000"/>', [81], ""),
    "style sheet hides": ('<style>.x{display:none}</style><rect class="x" width="9" height="9"/>'
                          '<rect width="20" height="20"/>', [400], "hidden in the drawing"),
    "style sheet paints": ("<style>.o{fill:none;stroke:red} /* a */ #q,.e{fill-rule:evenodd}</style>"
                           f'<path class="e" d="{SQUARE}M5 5H15V15H5z"/>', [300], ""),
    "display none in a group": ('<g display="none"><rect width="9" height="9"/></g><rect width="20" height="20"/>',
                                [400], "hidden in the drawing"),
    "clip path": ('<clipPath id="c"><rect width="5" height="5"/></clipPath>'
                  '<rect clip-path="url(#c)" width="20" height="20"/>',
                  [400], "clip-path was not applied"),
    "mask": ('<mask id="m"/><rect mask="url(#m)" width="20" height="20"/>', [400], "mask was not applied"),
    "text": ('<text>leek</text><rect width="20" height="20"/>', [400], "turn it into paths"),
    "switch": ('<switch><rect width="9" height="9"/></switch><rect width="20" height="20"/>', [400], "alternatives"),
    "four lines make a square": (
        '<g stroke="red"><line x2="20"/><line x1="20" x2="20.1" y2="20"/><line x1="0" y1="20" x2="20" y2="20"/>'
        '<line y1="20.2" y2=".1"/></g>',
        [401],
        "4 lines were joined end to end",
    ),
    "two half outlines in one path": (
        '<path fill="none" stroke="red" d="M0 0H20V20M0 0V20H20.3"/>', [400], "2 lines were joined end to end"),
    "an open end within the gap": ('<path fill="none" stroke="red" d="M0 0H20V20H0V0.4"/>', [400], "were joined"),
    "an open end too far": ('<path fill="none" stroke="red" d="M0 0H20V20H0V9"/><rect y="50" width="9" height="9"/>',
                            [81], "9.0 mm apart"),
    "an open line with a fill": ('<path d="M0 0H20V20"/>', [200], "its ends, 28.3 mm apart, were joined"),
    "an open curve with a fill": ('<path stroke="red" d="M0 10A10 10 0 0 1 20 10"/>', [50 * PI], "20.0 mm apart"),
    "an open hole with a fill": (f'<path fill-rule="evenodd" d="{SQUARE}M5 5H15V15H5"/>', [300], "10.0 mm apart"),
    "an open polyline with a fill": ('<polyline points="0,0 20,0 20,20 0,20"/>', [400], "20.0 mm apart"),
    "an open figure of eight with a fill": ('<path d="M0 0L20 20V0L0 20"/>', [100, 100], "20.0 mm apart"),
    "two filled half outlines that meet": (
        '<path d="M0 0H20V20"/><path d="M0 0V20H20.3"/>', [400], "2 lines were joined end to end"),
    "a filled line beside an open one": (
        '<path d="M0 0H20V20"/><path fill="none" stroke="red" d="M50 0H70V20"/>',
        [200],
        "an open line was left out; its ends lie 28.3 mm apart",
    ),
    "a straight line with a fill": (
        '<path d="M0 0H20H40"/><rect y="50" width="9" height="9"/>', [81], "an open line was left out"),
    "polyline that meets": ('<polyline points="0,0 20,0 20,20 0,20 0,0"/>', [400], ""),
    "rounded rectangle": ('<rect width="20" height="20" rx="5"/>', [400 - 25 * (4 - PI)], ""),
    "too round a rectangle": ('<rect width="20" height="20" rx="50" ry="50"/>', [100 * PI], ""),
    "mirrored": ('<g transform="matrix(-1 0 0 1 50 0)"><path d="M0 0H20V20z"/></g>', [200], ""),
    "skewed": ('<rect transform="skewX(45)" width="20" height="20"/>', [400], ""),
    "a thousand nodes on a circle": (
        '<polygon points="'
        + " ".join(f"{50 + 40 * math.cos(i * PI / 500)},{50 + 40 * math.sin(i * PI / 500)}" for i in range(1000))
        + '"/>',
        [1600 * PI],
        "nodes were left out",
    ),
    "a neck of half a millimetre": ('<path d="M0 0H20V9.5H40V0H60V20H40V10H20V20H0z"/>', [810], "thinner than 1.5 mm"),
    "an arc and the same arc back": (
        '<path d="M20 50A30 15 30 1 0 70 50A30 15 30 0 1 20 50z"/><rect y="80" width="9" height="9"/>',
        [81],
        "lines that run over each other",
    ),
    "nothing to be seen": (
        '<g opacity="0"><rect width="9" height="9"/></g><rect style="opacity:0%" width="9" height="9"/>'
        '<g fill-opacity="0"><rect width="9" height="9"/></g>'
        '<rect fill-opacity="0" stroke="red" width="20" height="20"/>',
        [400],
        "hidden in the drawing",
    ),
    "clipped by a style": (
        '<clipPath id="c"><rect width="9" height="9"/></clipPath>'
        '<g style="clip-path: url(#c)"><rect width="20" height="20"/></g>',
        [400],
        "<g>: its clip-path was not applied",
    ),
    "a curl too tight": ('<path d="M0 0H20V10A.2 .2 0 0 0 20 10.4V20H0z"/>', [400], "a radius under 0.5 mm"),
}  # fmt: skip


@pytest.mark.parametrize("case", DRAWINGS)
def test_a_nasty_drawing_has_its_right_shapes_and_says_what_was_changed(case: str) -> None:
    inner, areas, words = DRAWINGS[case]
    file = read_svg(svg(inner), "nasty.svg")
    found = sorted((shape.area_mm2 for shape in file.shapes), reverse=True)
    assert found == pytest.approx(areas, rel=2e-3, abs=0.15)
    assert any(word in " | ".join(file.notes) for word in words.split("|"))


PAGES: dict[str, tuple[str, float, float]] = {
    "mm": ('width="50mm" height="50mm" viewBox="0 0 100 100"', 10, 10),
    "in": ('width="2in" height="2in" viewBox="0 0 100 100"', 10.16, 10.16),
    "pt": ('width="72pt" height="72pt" viewBox="0 0 20 20"', 25.4, 25.4),
    "pc": ('width="6pc" height="6pc" viewBox="0 0 20 20"', 25.4, 25.4),
    "px": ('width="96px" height="96px" viewBox="0 0 20 20"', 25.4, 25.4),
    "no size, no view box": ("", 20 * 25.4 / 96, 20 * 25.4 / 96),
    "percent of nothing": ('width="100%" height="100%" viewBox="0 0 20 20"', 20 * 25.4 / 96, 20 * 25.4 / 96),
    "one side": ('width="40mm" viewBox="0 0 20 40"', 40, 40),
    "stretched": ('width="40mm" height="20mm" viewBox="0 0 20 20" preserveAspectRatio="none"', 40, 20),
    "slice": ('width="40mm" height="20mm" viewBox="0 0 20 20" preserveAspectRatio="xMinYMin slice"', 40, 40),
    "meet": ('width="40mm" height="20mm" viewBox="0 0 20 20" preserveAspectRatio="xMaxYMax meet"', 20, 20),
}


@pytest.mark.parametrize("case", PAGES)
def test_every_unit_of_a_page_comes_out_at_true_size(case: str) -> None:
    """A square of 20 units; 1 in = 25.4 mm = 96 px = 72 pt = 6 pc (CSS Values, absolute lengths)."""
    head, width, height = PAGES[case]
    (shape,) = read_svg(svg('<rect width="20" height="20"/>', head), "page.svg").shapes
    assert (shape.width_mm, shape.height_mm) == pytest.approx((width, height), rel=1e-9)


HOSTILE: dict[str, tuple[bytes, str]] = {
    "entity bomb": (
        b'<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;&a;">]><svg xmlns="http://www.w3.org/2000/svg">&b;</svg>',
        "document type",
    ),
    "use of itself": (svg('<g id="a"><use href="#a"/></g>'), "inside itself"),
    "uses that double": (
        svg('<g id="g0"><rect width="9" height="9"/></g>'
            + "".join(f'<g id="g{i + 1}"><use href="#g{i}"/><use href="#g{i}"/></g>' for i in range(30))),
        "more than",
    ),
    "a million nodes": (svg('<path d="M0 0' + "l1 1" * 1_000_000 + 'z"/>'), "more segments"),
    "a million nodes in a polygon": (svg('<polygon points="' + "1 1 2 3 " * 500_000 + '"/>'), "more segments"),
    "huge numbers": (svg('<path d="M0 0H1e300V1e300z"/>'), "too large to be meant"),
    "not a number": (svg('<path d="M0 0HNaNV20z"/>'), "stands where a number should"),
    "infinity": (svg('<rect width="inf" height="3"/>'), "is no length"),
    "endless scale": (
        svg('<g transform="scale(1e9)"><g transform="scale(1e9)"><rect width="9" height="9"/></g></g>'),
        "beyond all measure",
    ),
    "depth": (svg("<g>" * 500 + "</g>" * 500), "deep"),
    "broken": (b"<svg><path", "broken XML"),
    "external use": (svg('<use href="file:///etc/hostname#a"/>'), "no closed shape"),
    "script": (svg("<script>alert(1)</script>"), "no closed shape"),
    "image": (svg('<image href="http://allotment.invalid/a.png"/>'), "no closed shape"),
}  # fmt: skip


@pytest.mark.parametrize("case", HOSTILE)
def test_a_hostile_drawing_is_refused_with_a_clear_message(case: str) -> None:
    data, words = HOSTILE[case]
    with pytest.raises(OutlineUnreadable) as refused:
        read_svg(data, "hostile.svg")
    assert words in str(refused.value)
    assert len(str(refused.value)) < 1000
