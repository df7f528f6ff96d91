"""The little of SVG's styling that decides what is an outline: is it drawn at all, and by which fill rule."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

READ_FROM_ATTRIBUTES = (
    "display",
    "visibility",
    "fill",
    "stroke",
    "fill-rule",
    "opacity",
    "fill-opacity",
    "stroke-opacity",
    "clip-path",
    "mask",
    "overflow",
)
READ_FROM_STYLE = (*READ_FROM_ATTRIBUTES, "transform", "transform-origin")


@dataclass(frozen=True)
class Styling:
    """What a shape inherits. `painted` is false where it has neither fill nor stroke, or none that can be seen."""

    visible: bool = True
    filled: bool = True
    stroked: bool = False
    even_odd: bool = False
    clear_fill: bool = False
    clear_stroke: bool = False

    @property
    def painted(self) -> bool:
        """Whether anything would show."""
        return (self.filled and not self.clear_fill) or (self.stroked and not self.clear_stroke)

    @property
    def holes_by_parity(self) -> bool:
        """Whether an inner contour is a hole whichever way it runs.

        So it is under the even-odd rule, and in a mere line drawing, where the eye sees lines and no rule.
        """
        return self.even_odd or not self.filled

    def inherited(self, properties: Mapping[str, str]) -> Styling:
        """The styling of a child with these properties of its own."""

        def changed(name: str, before: bool, values_that_say_no: tuple[str, ...]) -> bool:
            value = properties.get(name, "inherit")
            return before if value == "inherit" else value not in values_that_say_no

        return Styling(
            visible=changed("visibility", self.visible, ("hidden", "collapse")),
            filled=changed("fill", self.filled, ("none", "transparent")),
            stroked=changed("stroke", self.stroked, ("none", "transparent")),
            even_odd=changed("fill-rule", self.even_odd, ("nonzero",)),
            clear_fill=is_clear(properties.get("fill-opacity", ""), self.clear_fill),
            clear_stroke=is_clear(properties.get("stroke-opacity", ""), self.clear_stroke),
        )


def is_clear(opacity: str, before: bool = False) -> bool:
    """Whether an opacity lets nothing be seen; `before` where it says nothing.

    >>> is_clear("0"), is_clear("0.0%"), is_clear(".01"), is_clear("inherit", True)
    (True, True, False, True)
    """
    try:
        return float(opacity.removesuffix("%")) <= 0
    except ValueError:
        return before


def read_properties(attributes: Mapping[str, str], sheet: str = "") -> dict[str, str]:
    """The properties that matter here, from attributes, what a style sheet declares, and the `style` attribute, the
    later before the earlier.

    >>> read_properties({"fill": "red", "style": "FILL: none ; stroke:#000!important"})
    {'fill': 'none', 'stroke': '#000'}
    """
    properties = {
        name: attributes[name].strip().lower() for name in READ_FROM_ATTRIBUTES if name in attributes
    }
    for declaration in [*sheet.split(";"), *attributes.get("style", "").split(";")]:
        name, _, value = declaration.partition(":")
        if name.strip().lower() in READ_FROM_STYLE:
            properties[name.strip().lower()] = value.replace("!important", "").strip().lower()
    return properties
