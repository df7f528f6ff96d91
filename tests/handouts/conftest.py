"""A year in the allotment, January: the document of a leek runner and what the earlier jobs made of it, by hand."""

import json
from fractions import Fraction

import pytest

from service.craft.measure import length_object
from workers.recipe import JobInput

HOOP_TRACK, HAND_TRACK = "hoop and cutter", "by hand"
PREVIEW = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="80mm" viewBox="0 0 60 80"><title>preview</title>'
    b'<path d="M20 5C40 30 40 60 30 75C20 60 20 30 20 5Z" fill="none" stroke="#2d6a3e" stroke-width="0.8"/></svg>'
)


def leaf_square(turn=0):
    inside = {
        "unit": "half-square triangle",
        "size": ["3", "3"],
        "fabrics": ["frost", "leaf"],
        "method": "two at a time",
    }
    return {"unit": "turned", "turn": turn, "inside": inside} if turn else inside


def plain(fabric):
    return {"unit": "patch", "size": ["3", "3"], "fabric": fabric}


DOCUMENT = {
    "title": "Leek Row",
    "summary": "A table runner for January: stars between beds of soil, with a leek laid across 3 1/2 in of frost.",
    "measure": "in",
    "seam_allowance": "1/4",
    "fabrics": {
        "frost": {"name": "frost tone-on-tone", "colour": "#eef1ee", "usable_width": "40"},
        "soil": {"name": "soil brown dot", "colour": "#5b4636", "usable_width": "42", "shrinkage": 0.03},
        "leaf": {"name": "leek green", "colour": "#5f8f4e", "usable_width": "42"},
        "pot": {"name": "clay pot check", "colour": "#b5623a", "usable_width": "42", "directional": True},
        "night": {"name": "night sky", "colour": "#4a3a30", "usable_width": "42"},
        "fleece": {
            "name": "thin white fleece",
            "colour": "#ffffff",
            "usable_width": "58",
            "cut": "trim in place",
        },
    },
    "blocks": {
        "star": {
            "unit": "grid",
            "rows": [
                [leaf_square(), plain("frost"), leaf_square(90)],
                [
                    plain("frost"),
                    {
                        "unit": "corner squares",
                        "size": ["3", "3"],
                        "fabric": "pot",
                        "corners": {"size": "1 1/2", "fabric": "night", "at": ["nw", "ne", "se", "sw"]},
                    },
                    plain("frost"),
                ],
                [leaf_square(270), plain("frost"), leaf_square(180)],
            ],
        }
    },
    "top": {
        "unit": "bordered",
        "inside": {"unit": "on point", "rows": [["star", "star", "star"]], "side": "soil", "corner": "soil"},
        "borders": [{"width": "2", "fabric": "night", "corners": "butted", "first": "long sides"}],
    },
    "pieces": [
        {
            "name": "leek",
            "outline": "leek.svg#stalk",
            "fabric": "fleece",
            "at": ["11", "5"],
            "turn": 20,
            "scale": 2,
            "thread": {"name": "milk", "colour": "#f4f2ea"},
        },
        {
            "name": "leaf blade",
            "outline": "leek.svg#blade",
            "fabric": "leaf",
            "at": ["12", "8"],
            "turn": -30,
            "scale": 2,
            "above": ["leek"],
            "thread": {"name": "moss", "colour": "#4d6b3a"},
        },
        {"name": "watering can", "outline": "can.svg", "fabric": "pot", "at": ["30", "9"], "scale": 2},
    ],
    "finish": {
        "binding": {"fabric": "soil", "strip": "2 1/4", "cut": "straight"},
        "backing": {"fabric": "frost", "overhang": "2"},
        "batting": {"overhang": "2"},
    },
    "colourways": [
        {
            "name": "dusk",
            "fabrics": {"frost": {"colour": "#39405a"}, "soil": {"colour": "#8a6f9e", "name": "heather"}},
        },
        {"name": "high summer", "fabrics": {"frost": {"colour": "#fff1c9"}, "leaf": {"colour": "#c0392b"}}},
    ],
    "tracks": [
        {"name": HOOP_TRACK, "has": ["hoop 130x180", "cutter 12x12"], "reading": "new to piecing"},
        {"name": HAND_TRACK, "has": [], "reading": "new to applique"},
    ],
    "parts": [
        {"title": "Piecing the star", "covers": ["cutting", "piecing"]},
        {"title": "Applique and finish", "covers": ["applique", "finishing"]},
    ],
    "sources": [
        {"name": "Own drawing from the leek bed", "covers": ["leek.svg"], "rights": "own"},
        {"name": "A neighbour's drawing", "covers": ["can.svg"], "rights": "viewer must own"},
    ],
}


def ring(start, *segments):
    return {"start": start, "segments": [list(segment) for segment in segments]}


OUTLINES = {
    "leek.svg": {
        "name": "leek.svg",
        "sha256": "0" * 64,
        "notes": [],
        "shapes": [
            {
                "name": "stalk",
                "box_mm": [0, 0, 30, 90],
                "rings": [
                    ring(
                        [10, 0],
                        ["L", 20, 0],
                        ["C", 22, 40, 24, 60, 30, 75],
                        ["C", 30, 90, 0, 90, 0, 75],
                        ["C", 6, 60, 8, 40, 10, 0],
                    )
                ],
            },
            {
                "name": "blade",
                "box_mm": [0, 0, 26, 70],
                "rings": [ring([13, 0], ["C", 30, 20, 30, 50, 13, 70], ["C", -4, 50, -4, 20, 13, 0])],
            },
        ],
    },
    "can.svg": {
        "name": "can.svg",
        "sha256": "1" * 64,
        "notes": [],
        "shapes": [
            {
                "name": "can",
                "box_mm": [0, 0, 60, 40],
                "rings": [ring([0, 10], ["C", 61.7, 11, 61.7, 12, 60, 13], ["L", 50, 50], ["L", 10, 50])],
            }
        ],
    },
}


def length(text):
    return length_object(Fraction(sum(Fraction(part) for part in text.split())), "in")


def cut(fabric, shape, width, height, count, *, then="", makes=None, purpose="star"):
    return {
        "fabric": fabric,
        "shape": shape,
        "width": length(width),
        "height": length(height),
        "count": count,
        "then": then,
        "makes": makes or count,
        "for": [purpose],
    }


def strip(height, *pieces):
    return {
        "height": length(height),
        "pieces": [{"cut": number, "count": count, "turned": False} for number, count in pieces],
    }


def cloth(fabric, buy, *strips):
    return {
        "fabric": fabric,
        "length": length(buy),
        "buy": length(buy),
        "proved": True,
        "strips": list(strips),
    }


CUTTING = {
    "cuts": [
        cut("frost", "square", "3 7/8", "3 7/8", 6, then="sewn two at a time with leek green", makes=12),
        cut("frost", "square", "3 1/2", "3 1/2", 12),
        cut(
            "soil",
            "square",
            "14",
            "14",
            1,
            then="cut twice on the diagonal",
            makes=4,
            purpose="side triangles",
        ),
        cut(
            "soil",
            "square",
            "7 1/4",
            "7 1/4",
            2,
            then="cut once on the diagonal",
            makes=4,
            purpose="corner triangles",
        ),
        cut("leaf", "square", "3 7/8", "3 7/8", 6, then="sewn two at a time with frost", makes=12),
        cut("pot", "square", "3 1/2", "3 1/2", 3),
        cut("night", "strip", "38 3/4", "2 1/2", 2, purpose="border"),
        cut("night", "square", "2", "2", 12),
    ],
    "fabrics": [
        cloth("frost", "9", strip("3 7/8", (0, 6), (1, 4)), strip("3 1/2", (1, 8))),
        cloth("soil", "27", strip("14", (2, 1), (3, 2))),
        cloth("leaf", "4", strip("3 7/8", (4, 6))),
        cloth("pot", "3 1/2", strip("3 1/2", (5, 3))),
        cloth("night", "7", strip("2 1/2", (6, 1)), strip("2 1/2", (6, 1)), strip("2", (7, 12))),
    ],
    "finishing": {
        "binding": {
            "fabric": "soil",
            "cut": "straight",
            "strip": length("2 1/4"),
            "pieces": 4,
            "piece": {"width": length("42"), "height": length("2 1/4")},
            "joined": length("161"),
            "around": length("118"),
        },
        "backing": {"fabric": "frost", "width": length("46 1/4"), "height": length("20 3/4"), "panels": 1},
        "batting": {"width": length("46 1/4"), "height": length("20 3/4"), "sold_as": None},
    },
}


def size(text, low, high):
    limits = {name: {"width": length(t), "height": length(t)} for name, t in (("low", low), ("high", high))}
    return {"width": length(text), "height": length(text), **limits}


def patch(fabric, *points):
    return {"fabric": fabric, "points": [list(point) for point in points]}


SEWING = {
    "finished": {"width": length("42 3/16"), "height": length("16 3/4")},
    "stages": [
        {
            "id": "leaf-square",
            "title": "Leaf squares",
            "makes": "12 half-square triangles",
            "unit": "/blocks/star/rows/0/0",
            "count": 12,
            "needs": [],
            "size": size("3 1/2", "3 7/16", "3 9/16"),
            "patches": [patch("frost", (0, 0), (3, 0), (0, 3)), patch("leaf", (3, 0), (3, 3), (0, 3))],
        },
        {
            "id": "pot-square",
            "title": "Pots with four corners",
            "makes": "3 corner-square units",
            "unit": "/blocks/star/rows/1/1",
            "count": 3,
            "needs": [],
            "size": size("3 1/2", "3 7/16", "3 9/16"),
        },
        {
            "id": "star",
            "title": "Star blocks",
            "makes": "star",
            "count": 3,
            "needs": ["leaf-square", "pot-square"],
            "size": size("9 1/2", "9 3/8", "9 5/8"),
        },
        {"id": "runner", "title": "The runner", "makes": "top", "count": 1, "needs": ["star"], "size": None},
    ],
    "seams": [
        {"id": "s1", "stage": "star", "press": "left", "towards": "leaf", "line": [[3, 0], [3, 3]]},
        {"id": "s2", "stage": "star", "press": "right", "towards": "leaf", "line": [[6, 0], [6, 3]]},
        {"id": "s3", "stage": "star", "press": "down", "towards": "frost", "line": [[0, 3], [9, 3]]},
        {"id": "s4", "stage": "star", "press": "open", "towards": "", "line": [[0, 6], [9, 6]]},
    ],
    "junctions": {"count": 4, "not_nesting": [], "least_proved": True},
}


def step(identity, part, chapter, stage, text, why="", **more):
    return {
        "id": identity,
        "part": part,
        "chapter": chapter,
        "stage": stage,
        "text": text,
        "why": why,
        "size": None,
        "caution": "",
        "tools": [],
        "files": [],
        **more,
    }


ONE, TWO = (part["title"] for part in DOCUMENT["parts"])
SHARED_STEPS = [
    step(
        "cut",
        ONE,
        "cutting",
        "",
        "Cut every cloth as its table says, highest strips first.",
        "A strip that went wrong still gives a lower one.",
        tools=["rotary cutter", "ruler with eighths", "cutting mat"],
    ),
    step(
        "hst-draw",
        ONE,
        "piecing",
        "leaf-square",
        "Lay a frost square on a leek green square, right sides together, and draw one diagonal.",
        tools=["sharp pencil"],
    ),
    step(
        "hst-sew",
        ONE,
        "piecing",
        "leaf-square",
        "Sew a scant 1/4 in from the line, on both sides of it.",
        "The fold takes up a thread or two.",
        tools=["sewing machine"],
    ),
    step(
        "hst-press",
        ONE,
        "piecing",
        "leaf-square",
        "Cut on the line. Press towards the green.",
        "The darker side hides the allowance.",
        size=SEWING["stages"][0]["size"],
        tools=["iron"],
        caution="Hands out of the steam.",
    ),
    step(
        "pot-flip",
        ONE,
        "piecing",
        "pot-square",
        "Sew a night square across each corner of a pot square, a needle's width to the corner side of its diagonal.",
        "Folding back the corner square takes a little cloth.",
        size=SEWING["stages"][1]["size"],
    ),
    step(
        "star-rows",
        ONE,
        "piecing",
        "star",
        "Sew three rows of three. Press the outer rows inward and the middle row outward.",
        "Seams that fall to opposite sides nest.",
    ),
    step(
        "star-join",
        ONE,
        "piecing",
        "star",
        "Pin on both sides of each crossing and sew the rows together, from the middle outward.",
        size=SEWING["stages"][2]["size"],
    ),
    step(
        "runner",
        ONE,
        "piecing",
        "runner",
        "Sew the setting triangles to the stars on point, then the borders, long sides first.",
        "The long side of a triangle is on the bias: pin it, do not stretch it.",
    ),
]
HOOP_STEPS = [
    *SHARED_STEPS,
    step(
        "hoop-1",
        TWO,
        "applique",
        "",
        "Hoop the runner with stabiliser under it and sew the placement line.",
        "It shows where the piece goes.",
        files=["stitch-130x180-1.dst"],
        tools=["hoop machine", "stabiliser"],
    ),
    step(
        "hoop-2",
        TWO,
        "applique",
        "",
        "Lay the fleece over the line, sew the tack-down, then trim in place.",
        caution="Stop the machine before you trim.",
        tools=["curved scissors"],
    ),
    step(
        "can", TWO, "applique", "", "Bring your own outline for the watering can and sew it the way you like."
    ),
]
HAND_STEPS = [
    *SHARED_STEPS,
    step(
        "trace",
        TWO,
        "applique",
        "",
        "Print the templates at 100 % and draw round them on the right side of the cloth.",
        files=["templates-by-hand.pdf"],
    ),
    step("hand-sew", TWO, "applique", "", "Turn the edge under and sew it down by hand."),
    step(
        "can", TWO, "applique", "", "Bring your own outline for the watering can and sew it the way you like."
    ),
]


def report(pieces, *, released=True, thread="milk", colour="#f4f2ea"):
    return {
        "field_mm": [130, 180],
        "extents_mm": [62.0, 171.5],
        "pieces": pieces,
        "stitches": 4210,
        "stops": 2,
        "trims": 1,
        "at_stops": [
            {"record": 120, "do": "Lay the cloth over the line"},
            {"record": 260, "do": "Trim in place"},
        ],
        "colours": [{"name": thread, "colour": colour, "top_m": 18.4, "bobbin_m": 18.4}],
        "minutes": 7.0,
        "passes": [{"kind": "placement", "piece": pieces[0], "from": 0, "to": 119}],
        "checks": [{"name": "edge covered", "ok": released, "where": [], "value": 1.2}],
        "released": released,
    }


def mat(stem, fabric, piece):
    return {
        "svg": f"{stem}.svg",
        "dxf": f"{stem}.dxf",
        "fabric": fabric,
        "mat": "305x305",
        "tracks": [HOOP_TRACK],
        "grain": "any way",
        "pieces": [{"name": piece, "count": 1, "turning_mm": 0.0, "reaches_under": []}],
        "thin": [],
        "hard_turns": [],
    }


CUT_FILES = {
    "files": [mat("cut-leaf-1", "leaf", "leaf blade")],
    "test_square": {"svg": "cut-test-square.svg", "dxf": "cut-test-square.dxf", "side_mm": 100.0},
    "not_cut": [{"piece": "leek", "why": "its cloth is trimmed in place"}],
    "bring_your_own": ["watering can"],
}


def dump(value):
    return json.dumps(value).encode()


@pytest.fixture
def document():
    return json.loads(json.dumps(DOCUMENT))


@pytest.fixture
def files():
    """Everything that the jobs before a handout, a run sheet or a bundle made."""
    made = {
        "cutting.json": dump(CUTTING),
        "cutting-studio.json": dump(CUTTING),
        "sewing.json": dump(SEWING),
        "steps-hoop-and-cutter.json": dump({"track": HOOP_TRACK, "steps": HOOP_STEPS}),
        "steps-by-hand.json": dump({"track": HAND_TRACK, "steps": HAND_STEPS}),
        "cut-files.json": dump(CUT_FILES),
        "cut-leaf-1.svg": b"<svg/>",
        "cut-leaf-1.dxf": b"0\nEOF\n",
        "cut-test-square.svg": b"<svg/>",
        "cut-test-square.dxf": b"0\nEOF\n",
        "templates-by-hand.pdf": b"%PDF-templates",
    }
    for number, (piece, thread, colour) in enumerate(
        [("leek", "milk", "#f4f2ea"), ("leaf blade", "moss", "#4d6b3a")], start=1
    ):
        stem = f"stitch-130x180-{number}"
        made[f"{stem}.dst"] = b"stitches %d" % number
        made[f"{stem}.svg"] = PREVIEW
        made[f"{stem}.png"] = b"picture %d" % number
        made[f"{stem}-colours.svg"] = b"<svg/>"
        made[f"{stem}.json"] = dump(report([piece], thread=thread, colour=colour))
    return made


@pytest.fixture
def make_job(document, files):
    """A job for one of this room's recipes; keywords change what it looks at."""

    def make(kind, track=None, **changes):
        given = {
            "document": document,
            "outlines": OUTLINES,
            "inputs": files,
            "release": "2027-01-20",
            **changes,
        }
        return JobInput(kind=kind, track=track, **given)

    return make
