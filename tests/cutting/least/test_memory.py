"""What the search may take of a machine's memory."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

MEGABYTES = 500

CLOTH = """
import random, re
from pathlib import Path
from workers.cutting.least import least_strips
from workers.cutting.strip_problem import Problem, Size, total_length
dice = random.Random(1)
sizes = [Size(dice.randint(16, 160), dice.randint(12, 120), 167, dice.random() < 0.6) for _ in range(30)]
least = least_strips(Problem(340, tuple(sizes)), seconds=2)
# the peak of this program alone: getrusage counts what the process held before it, too
peak = re.search(r"VmHWM:\\s+(\\d+) kB", Path("/proc/self/status").read_text())
print(total_length(least.strips), int(peak[1]) // 1024)
"""


def test_thirty_sizes_and_five_thousand_pieces_stay_below_half_a_gigabyte():
    """Measured in a process of its own, all libraries included."""
    run = subprocess.run(
        [sys.executable, "-c", CLOTH],
        cwd=Path(__file__).parents[3],
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )
    length, megabytes = map(int, run.stdout.split())
    assert length > 0
    assert megabytes < MEGABYTES
