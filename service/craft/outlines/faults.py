"""What can go wrong with outlines, each named after its outcome."""

from __future__ import annotations


class OutlineUnreadable(ValueError):
    """A drawing that cannot be used: what is wrong, where in the file, and what would be right."""

    def __init__(self, detail: str, *, where: str = "", right: str = "") -> None:
        super().__init__(f"{where}: {detail}" if where else detail)
        self.detail = detail
        self.where = where
        self.right = right


class OutlineNotFound(LookupError):
    """A piece asks for an outline that is not there. `shapes` holds the references that would be."""

    def __init__(self, detail: str, *, right: str, shapes: tuple[str, ...] = ()) -> None:
        super().__init__(detail)
        self.detail = detail
        self.right = right
        self.shapes = shapes
