"""Walks the tree of a drawing and gathers what is drawn, in millimetres, with the names it could have."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from lxml import etree

from service.craft.outlines.affine import Affine, Point
from service.craft.outlines.basic_shapes import (
    draw_circle,
    draw_ellipse,
    draw_line,
    draw_polygon,
    draw_polyline,
    draw_rect,
)
from service.craft.outlines.contours import Contour, Pen, points_along
from service.craft.outlines.faults import OutlineUnreadable
from service.craft.outlines.lengths import Viewport, parse_length, parse_transform
from service.craft.outlines.limits import LARGEST_NUMBER, Limits
from service.craft.outlines.path_data import draw_path
from service.craft.outlines.style_sheet import find_declarations, read_style_sheets
from service.craft.outlines.styling import Styling, is_clear, read_properties
from service.craft.outlines.views import inner_view, is_beyond, page_view
from service.craft.outlines.xml_tree import describe, fault_at, local_name

BASIC_SHAPES: dict[str, Callable[[Mapping[str, str], Viewport, Pen], None]] = {
    "rect": draw_rect,
    "circle": draw_circle,
    "ellipse": draw_ellipse,
    "line": draw_line,
    "polygon": draw_polygon,
    "polyline": draw_polyline,
}

NEVER_DRAWN = frozenset(
    [
        "defs",
        "symbol",
        "clipPath",
        "mask",
        "marker",
        "pattern",
        "linearGradient",
        "radialGradient",
        "filter",
        "metadata",
        "title",
        "desc",
        "view",
        "animate",
        "animateTransform",
        "animateMotion",
        "set",
        "style",
    ]
)
"""Holds what others refer to, or words about the drawing: passed over without a note."""

LEFT_OUT = {
    "text": "text has no outline of its own: turn it into paths first",
    "image": "pictures are not followed: upload the picture itself to have it traced",
    "foreignObject": "foreign content is not drawn",
    "script": "scripts are not run",
    "switch": "alternatives are not chosen between",
}

FRAMED_TIMES = 3
"""So often, on the average, may each segment be held against frames; nested drawings beyond that are not looked at."""

MOST_NAMED = 5

HIDDEN = "hidden in the drawing"

XLINK_HREF = "{http://www.w3.org/1999/xlink}href"


@dataclass(frozen=True)
class Drawn:
    """One drawn element: contours in mm, its styling, where it stands, and its name if it has one."""

    contours: tuple[Contour, ...]
    styling: Styling
    where: str
    name: str = ""


@dataclass(frozen=True)
class Context:
    """What a container hands down to its children."""

    affine: Affine
    view: Viewport
    styling: Styling = field(default_factory=Styling)
    depth: int = 0
    used: tuple[etree._Element, ...] = ()


class DrawingWalk:
    """One walk through one drawing; `notes` says what was left out or taken on trust."""

    def __init__(self, root: etree._Element, limits: Limits) -> None:
        self.root = root
        self.limits = limits
        self.notes: list[str] = []
        self.segments_left = limits.segments
        self.framed_left = FRAMED_TIMES * limits.segments
        self.used_left = limits.used_elements
        self.shapes_left = limits.shapes
        self.by_id: dict[str, etree._Element] = {}
        for element in root.iter():
            self.by_id.setdefault(element.get("id", ""), element)
        sheets = [e for e in root.iter(etree.Element) if local_name(e) == "style"]
        self.rules, passed_over = read_style_sheets([e.text or "" for e in sheets])
        if passed_over:
            self.notes.append(f"{describe(sheets[0])}: only plain rules of the style sheet were read")

    def drawn(self) -> list[Drawn]:
        """Everything that is drawn, in the order of the document."""
        page = page_view(self.root)
        self.notes += [page.note] if page.note else []
        properties = self._properties(self.root)
        context = Context(page.affine @ self._own_transform(self.root, properties), page.viewport)
        if properties.get("display") == "none":
            return []
        return self._children(self.root, replace(context, styling=Styling().inherited(properties)))

    def _children(self, element: etree._Element, context: Context) -> list[Drawn]:
        if context.depth >= self.limits.depth:
            raise OutlineUnreadable(
                f"groups and uses stand inside each other more than {self.limits.depth} deep",
                where=describe(element),
            )
        deeper = replace(context, depth=context.depth + 1)
        return [found for child in element for found in self._element(child, deeper)]

    def _element(self, element: etree._Element, context: Context) -> list[Drawn]:
        if context.used:
            self.used_left -= 1
            if self.used_left < 0:
                raise OutlineUnreadable(
                    f"uses of uses unfold into more than {self.limits.used_elements:,} elements",
                    where=describe(context.used[0]),
                    right="the shapes themselves, or fewer uses",
                )
        kind = local_name(element)
        if not kind or kind in NEVER_DRAWN:
            return []
        properties = self._properties(element)
        if properties.get("display") == "none" or is_clear(properties.get("opacity", "")):
            return self._leave_out(element, HIDDEN)
        if kind in LEFT_OUT:
            return self._leave_out(element, LEFT_OUT[kind])
        own = replace(
            context,
            affine=context.affine @ self._own_transform(element, properties),
            styling=context.styling.inherited(properties),
        )
        for cut in ("clip-path", "mask"):
            if properties.get(cut, "none") != "none":
                self.notes.append(
                    f"{describe(element)}: its {cut} was not applied, the whole outline was read"
                )
        return self._draw(kind, element, own)

    def _draw(self, kind: str, element: etree._Element, context: Context) -> list[Drawn]:
        match kind:
            case "g" | "a":
                return _named_by(element, self._children(element, context), first=False)
            case "svg":
                return self._inside(element, element, context)
            case "use":
                return _named_by(element, self._use(element, context), first=True)
            case "path" | "rect" | "circle" | "ellipse" | "line" | "polygon" | "polyline":
                return self._shape(kind, element, context)
        return self._leave_out(element, "this kind of element is not drawn")

    def _shape(self, kind: str, element: etree._Element, context: Context) -> list[Drawn]:
        stretch = _largest_stretch(context.affine)
        if not stretch <= LARGEST_NUMBER:
            raise OutlineUnreadable(
                "its transforms enlarge it beyond all measure",
                where=describe(element),
                right="a drawing at true size",
            )
        pen = Pen(stretch, at_most=self.segments_left)
        with fault_at(element):
            if kind == "path":
                self.segments_left -= draw_path(element.get("d", ""), pen, segments_left=self.segments_left)
            else:
                BASIC_SHAPES[kind](_attributes(element), context.view, pen)
                self.segments_left -= pen.drawn
        contours = tuple(_in_mm(contour, context.affine) for contour in pen.finished())
        if not contours:
            return []
        if not context.styling.visible:
            return self._leave_out(element, HIDDEN)
        if not context.styling.painted:
            return self._leave_out(element, "it has neither fill nor stroke that can be seen")
        self.shapes_left -= 1
        if self.shapes_left < 0:
            raise OutlineUnreadable(
                f"the drawing has more than {self.limits.shapes:,} shapes",
                right="a file for each group of pieces",
            )
        return [Drawn(contours, context.styling, describe(element), element.get("id", ""))]

    def _use(self, element: etree._Element, context: Context) -> list[Drawn]:
        reference = (element.get("href") or element.get(XLINK_HREF) or "").strip()
        target = self.by_id.get(reference[1:]) if reference.startswith("#") and len(reference) > 1 else None
        if target is None:
            return self._leave_out(
                element, f'"{reference[:60]}" is not in this drawing, and nothing else is followed'
            )
        if target in context.used or target in element.iterancestors():
            raise OutlineUnreadable(
                f'"{reference[:60]}" is drawn inside itself',
                where=describe(element),
                right="a use of another shape",
            )
        with fault_at(element):
            x, y = (parse_length(element.get(axis, "0"), whole=context.view.side(axis)) for axis in "xy")
        inside = replace(context, affine=context.affine @ Affine.moving(x, y), used=(*context.used, target))
        if local_name(target) not in ("symbol", "svg"):
            return self._children_of_use(target, inside)
        properties = self._properties(target)
        if properties.get("display") == "none":
            return []
        inside = replace(inside, styling=inside.styling.inherited(properties))
        return self._inside(target, element, inside)

    def _children_of_use(self, target: etree._Element, context: Context) -> list[Drawn]:
        if context.depth >= self.limits.depth:
            raise OutlineUnreadable(
                f"uses stand inside each other more than {self.limits.depth} deep", where=describe(target)
            )
        return self._element(target, replace(context, depth=context.depth + 1))

    def _inside(self, element: etree._Element, sized_by: etree._Element, context: Context) -> list[Drawn]:
        view = inner_view(element, sized_by, context.view)
        inner = replace(context, affine=context.affine @ view.affine, view=view.viewport)
        drawn = self._children(element, inner)
        if self._properties(element).get("overflow", "hidden") not in ("visible", "auto"):
            self._say_beyond(element, [context.affine.apply(corner) for corner in view.frame], drawn)
        return _named_by(element, drawn, first=False)

    def _say_beyond(self, element: etree._Element, frame: Sequence[Point], drawn: Sequence[Drawn]) -> None:
        """A note on shapes that pass the frame (in mm) of a nested drawing: they are read whole."""
        contours = [(one, contour) for one in drawn for contour in one.contours]
        self.framed_left -= sum(len(contour.segments) for _, contour in contours)
        if self.framed_left < 0:
            return
        beyond = {
            one.where for one, each in contours if is_beyond(frame, points_along(each.start, each.segments))
        }
        if beyond:
            self.notes.append(
                f"{describe(element)}: hides what goes beyond its frame, but the whole outlines were read: "
                + ", ".join(sorted(beyond)[:MOST_NAMED])
            )

    def _own_transform(self, element: etree._Element, properties: dict[str, str]) -> Affine:
        for name in ("transform", "transform-origin"):
            if name in properties or (name == "transform-origin" and name in element.attrib):
                raise OutlineUnreadable(
                    f"{name} as a style property is not read",
                    where=describe(element),
                    right="the same move in a transform attribute",
                )
        with fault_at(element):
            return parse_transform(element.get("transform", ""))

    def _properties(self, element: etree._Element) -> dict[str, str]:
        attributes = _attributes(element)
        return read_properties(attributes, find_declarations(self.rules, local_name(element), attributes))

    def _leave_out(self, element: etree._Element, why: str) -> list[Drawn]:
        self.notes.append(f"{describe(element)}: left out; {why}")
        return []


def _named_by(element: etree._Element, found: list[Drawn], *, first: bool) -> list[Drawn]:
    """A group's id names its only shape if that has none; a use's id (`first`) goes before the shape's."""
    identity = element.get("id", "")
    if len(found) == 1 and identity and (first or not found[0].name):
        return [replace(found[0], name=identity)]
    return found


def _attributes(element: etree._Element) -> dict[str, str]:
    return {str(name): str(value) for name, value in element.attrib.items()}


def _in_mm(contour: Contour, affine: Affine) -> Contour:
    return Contour(
        affine.apply(contour.start), tuple(s.moved(affine) for s in contour.segments), contour.closed
    )


def _largest_stretch(affine: Affine) -> float:
    """No length grows more than this under the map (the Frobenius norm bounds the largest singular value)."""
    return math.hypot(*affine.numbers[:4])
