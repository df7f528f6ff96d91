"""All checks of a track, one after the other; nothing is looked at twice, and nothing stops at the first hole."""

from __future__ import annotations

from workers.completeness.cloths import find_cloth_holes, find_uncut
from workers.completeness.finding import Finding
from workers.completeness.made import Made
from workers.completeness.steps import find_tools_not_listed, find_unsaid
from workers.completeness.ways import find_unbundled, find_unmade

CHECKS = (find_uncut, find_cloth_holes, find_unmade, find_unbundled, find_unsaid, find_tools_not_listed)


def check_track(made: Made) -> list[Finding]:
    """Everything that is missing on a track; empty where it is complete."""
    return [finding for check in CHECKS for finding in check(made)]
