"""The stitch record against its published bit table.

Sources: the bit table and both worked examples are from http://www.achatina.de/sewing/main/DST.HTM; header and
limits from the University of Geneva's EduTechWiki, "Embroidery format DST"
(https://edutechwiki.unige.ch/en/Embroidery_format_DST). The table of moves below was worked out by hand from the bit
table alone. Header widths, the end record and the sense of y are from memory.
"""

import numpy as np
import pytest

from workers.stitches.reading import read_kinds, read_steps
from workers.stitches.record import (
    END,
    JUMP,
    STITCH,
    STOP,
    Move,
    encode_moves,
    format_header,
    jump_parts,
    split_move,
)
from workers.stitches.settings import StitchSettings

MOVES = {
    (0, 0): "000003", (1, 0): "010003", (-1, 0): "020003", (0, 1): "800003", (0, -1): "400003",
    (2, 0): "020103", (-2, 0): "010203", (3, 0): "000103", (4, 0): "010103", (5, 0): "060203",
    (9, 0): "040003", (13, 0): "050103", (14, 0): "0A0603", (27, 0): "000403", (40, 0): "050503",
    (41, 0): "0A0A07", (81, 0): "000007", (121, 0): "050507", (-121, 0): "0A0A0B", (0, 121): "A0A023",
    (0, -121): "505013", (121, 121): "A5A527", (-121, -121): "5A5A1B", (121, -121): "555517",
    (10, -7): "558003", (25, 0): "010603", (0, 25): "806003", (-25, -25): "429903", (30, 40): "A0A503",
    (-12, 64): "A81223", (5, 7): "A64203", (100, -100): "691417",
}  # fmt: skip
JUMPS = {(-12, 64): "A812A3"}
COLOUR = "0000C3"
ENDING = "0000F3"

HEADER = [
    ("LA", 0, 16), ("ST", 20, 7), ("CO", 31, 3), ("+X", 38, 5), ("-X", 47, 5), ("+Y", 56, 5),
    ("-Y", 65, 5), ("AX", 74, 6), ("AY", 84, 6), ("MX", 94, 6), ("MY", 104, 6), ("PD", 114, 6),
]  # fmt: skip
"""Field, offset, width of its value. Widths are from memory; they sum to 124 and 0x1A, the published 125."""


def encode_one(kind, step=(0, 0)):
    return encode_moves(Move(np.array([kind]), np.array([step]))).hex().upper()


@pytest.mark.parametrize(("step", "expected"), MOVES.items())
def test_a_stitch_has_the_bytes_of_the_published_bit_table(step, expected):
    assert encode_one(STITCH, step) == expected


@pytest.mark.parametrize(("step", "expected"), JUMPS.items())
def test_a_jump_is_the_same_move_with_bit_7_of_the_third_byte(step, expected):
    assert encode_one(JUMP, step) == expected


def test_a_stop_is_the_colour_change_record():
    assert encode_one(STOP) == COLOUR


def test_the_end_record_is_the_one_from_memory():
    assert encode_one(END) == ENDING


@pytest.mark.parametrize(("step", "raw"), MOVES.items())
def test_the_published_bytes_are_read_as_their_move(step, raw):
    records = np.frombuffer(bytes.fromhex(raw), dtype=np.uint8).reshape(1, 3)
    assert tuple(read_steps(records)[0]) == step


def test_every_move_from_minus_121_to_121_on_both_axes_comes_back_as_it_went():
    values = np.arange(-121, 122)
    steps = np.stack(np.meshgrid(values, values), axis=-1).reshape(-1, 2)
    for kind in (STITCH, JUMP):
        kinds = np.full(len(steps), kind)
        raw = np.frombuffer(encode_moves(Move(kinds, steps)), dtype=np.uint8).reshape(-1, 3)
        assert (read_steps(raw) == steps).all()
        ended = np.vstack([raw, np.array([[0, 0, 0xF3]], dtype=np.uint8)])
        assert (read_kinds(ended)[:-1] == kind).all()


def test_no_record_sets_both_signs_of_one_weight():
    values = np.arange(-121, 122)
    steps = np.concatenate([np.stack([values, 0 * values], axis=1), np.stack([0 * values, values], axis=1)])
    raw = np.frombuffer(encode_moves(Move(np.zeros(len(steps), int), steps)), dtype=np.uint8).reshape(-1, 3)
    for byte, pairs in (
        (0, ((0, 1), (2, 3), (4, 5), (6, 7))),
        (1, ((0, 1), (2, 3), (4, 5), (6, 7))),
        (2, ((2, 3), (4, 5))),
    ):
        for one, other in pairs:
            assert not ((raw[:, byte] >> one) & (raw[:, byte] >> other) & 1).any()


def test_a_move_of_122_does_not_fit_a_record():
    with pytest.raises(ValueError, match="at most 121"):
        encode_one(STITCH, (122, 0))


@pytest.mark.parametrize("step", [(122, 0), (-363, 40), (1000, -999), (1, 1300)])
def test_a_long_move_is_split_into_the_fewest_equal_parts_that_add_up(step):
    settings = StitchSettings()
    parts = split_move(np.array(step), jump_parts(np.array(step), settings, cut=False))
    assert len(parts) == -(-max(map(abs, step)) // 121)
    assert tuple(parts.sum(axis=0)) == step
    assert np.abs(parts).max() <= 121
    assert np.ptp(parts, axis=0).max() <= 1


def test_the_header_has_512_bytes_with_every_field_at_its_offset():
    moves = Move(np.array([STITCH, STOP, JUMP, END]), np.array([[30, -40], [0, 0], [-50, 100], [0, 0]]))
    header = format_header(moves, "leek")
    assert len(header) == 512
    read = {}
    for name, offset, width in HEADER:
        assert header[offset : offset + 3] == f"{name}:".encode()
        assert header[offset + 3 + width : offset + 4 + width] == b"\r"
        read[name] = header[offset + 3 : offset + 3 + width].decode()
    assert header[124:] == b"\x1a" + b" " * 387
    assert read == {
        "LA": "leek            ", "ST": "      4", "CO": "  1", "+X": "   30", "-X": "   20", "+Y": "   60",
        "-Y": "   40", "AX": "-   20", "AY": "+   60", "MX": "+    0", "MY": "+    0", "PD": "******",
    }  # fmt: skip
