"""How many shapes of an icon set sew to a file that passes its check. Run by hand:

python tests/bench/bench_sewn_icons.py FOLDER [HOW MANY] [EDGE]; each icon is made 90 mm wide.
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.outlines.icons_to_cut import read_icons
from tests.stitches.icons_to_sew import sew_all


def main():
    """One line a way to end, with its share; then each shape that failed."""
    folder, most = Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 300
    edge = sys.argv[3] if len(sys.argv) > 3 else "satin"
    paths = sorted(folder.glob("*.svg"))
    read, refused = read_icons(paths[:: max(1, len(paths) // most)][:most])
    start = time.process_time()
    ends, failed = sew_all(read, edge)
    count = sum(ends.values())
    print(
        f"{len(read)} drawings, {count} shapes, {time.process_time() - start:.1f} s; {len(refused)} not read"
    )
    for end, number in ends.most_common():
        print(f"{number:5d} {number / count:6.1%}  {end}")
    for name, end in failed.items():
        print(f"  {name}: {end}")


if __name__ == "__main__":
    main()
