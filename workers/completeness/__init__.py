"""Is a track complete? Every patch and piece has a cut, a file or template, and a step, before anything is released."""

from workers.completeness.check import check_track
from workers.completeness.finding import Finding
from workers.completeness.made import Made, read_made

__all__ = ["Finding", "Made", "check_track", "read_made"]
