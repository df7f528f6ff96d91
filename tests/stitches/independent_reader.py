"""A second reader of stitch files for the tests, written from the bit table alone; shares no code with the package.

Bit table: http://www.achatina.de/sewing/main/DST.HTM. Slow and obvious on purpose.
"""

from dataclasses import dataclass, field

TABLE = """
1 y+1 y-1 y+9 y-9 x-9 x+9 x-1 x+1
2 y+3 y-3 y+27 y-27 x-27 x+27 x-3 x+3
3 jump colour y+81 y-81 x-81 x+81 set set
"""


@dataclass
class Sewn:
    header: dict = field(default_factory=dict)
    events: list = field(default_factory=list)
    """(kind, dx, dy, x, y) a record, tenths of a millimetre, y up; kind is stitch, jump, stop or end."""

    @property
    def places(self):
        return [(0, 0)] + [(x, y) for _, _, _, x, y in self.events]

    def count(self, kind):
        return sum(event[0] == kind for event in self.events)


def read(data):
    sewn = Sewn()
    for part in data[:124].decode("ascii").split("\r"):
        if part:
            sewn.header[part[:2]] = part[3:]
    rows = [line.split() for line in TABLE.split("\n") if line]
    x = y = 0
    body = data[512:]
    for start in range(0, len(body), 3):
        three = body[start : start + 3]
        assert len(three) == 3
        if three == b"\x00\x00\xf3":
            sewn.events.append(("end", 0, 0, x, y))
            continue
        dx = dy = 0
        flags = set()
        for byte, (_, *names) in zip(three, rows, strict=True):
            for bit, name in zip(range(7, -1, -1), names, strict=True):
                if byte >> bit & 1:
                    if name[0] == "x":
                        dx += int(name[1:])
                    elif name[0] == "y":
                        dy += int(name[1:])
                    else:
                        flags.add(name)
        assert "set" in flags
        x, y = x + dx, y + dy
        kind = "stop" if {"jump", "colour"} <= flags else "jump" if "jump" in flags else "stitch"
        sewn.events.append((kind, dx, dy, x, y))
    return sewn
