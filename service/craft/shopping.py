"""What is asked for when a shopping list is wanted. The list itself is reckoned where the cutting plans are made."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from service.craft.faults import Fault

MOST_PROJECTS = 60
"""Projects on one list: five years of months."""
MOST_KITS = 10_000
"""Kits on one list: beyond, nobody cuts from a shop's cloth any more."""


@dataclass(frozen=True)
class ShoppingProject:
    """A project to buy for: its document (plain JSON), and its outline files as jobs get them, by name."""

    id: str
    title: str
    document: Mapping[str, Any]
    outlines: Mapping[str, Any] = field(default_factory=dict)
    release: str | None = None


def _for_ever() -> float:
    return float("inf")


@dataclass(frozen=True)
class ShoppingAsked:
    """Projects in the order of their release, and how many kits of each. `seconds_left` says how much time there is.

    Where no time is left, what was found until then is answered, and the answer says that it is not proved.
    """

    projects: tuple[ShoppingProject, ...]
    kits: int = 1
    seconds_left: Callable[[], float] = _for_ever


class CannotShop(Exception):
    """Some projects cannot be cut as they stand: every fault found, with the project's id."""

    def __init__(self, faults: list[tuple[str, Fault]]) -> None:
        super().__init__("; ".join(f"{id_}: {fault.detail}" for id_, fault in faults))
        self.faults = tuple(faults)
