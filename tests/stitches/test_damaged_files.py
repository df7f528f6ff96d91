"""`batchbee inspect` on files cut off, added to, or no stitch file at all: words and exit 1, no traceback."""

import random

import pytest
from click.testing import CliRunner

from workers.commands.inspect import MOST_BYTES, inspect
from workers.stitches.inspection import inspect_stitch_file


@pytest.fixture
def told(tmp_path):
    """What the command says of some bytes, its exit code, and that nothing but its own end came out of it."""

    def run(data):
        path = tmp_path / "leek.dst"
        path.write_bytes(data)
        result = CliRunner().invoke(inspect, [str(path)])
        assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
        return result.exit_code, result.output

    return run


def test_a_file_cut_off_anywhere_says_so_and_after_how_many_records(write, told):
    data = write("tiny")[1]
    for length in sorted({0, 1, 511, 512, 513, 515, len(data) - 1, *range(7, len(data), len(data) // 45)}):
        code, said = told(data[:length])
        assert code == 1, length
        records = max(0, (length - 512) // 3)
        words = f"cut off after {records} record" if length >= 512 else "a stitch file has 512"
        assert (words if length else "the file is empty") in said, length


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (b"\0", "1 byte follows the end record: the file was added to"),
        (b"  \r\n", "4 bytes"),
        (b"\1\0\3" * 9, "27 bytes"),
    ],
)
def test_a_file_added_to_is_told_of_with_what_it_holds(write, told, more, words):
    data = write("tiny")[1]
    code, said = told(data + more)
    assert code == 1 and words in said
    assert f"{inspect_stitch_file(data)['stitches']} stitches" in said


def test_a_byte_that_some_writers_put_after_the_end_is_no_fault(write, told):
    assert told(write("tiny")[1] + b"\x1a")[0] == 0


@pytest.mark.parametrize("seed", range(12))
def test_random_bytes_are_refused_alone_after_a_true_header_or_amid_records(write, told, seed):
    data, noise = write("tiny")[1], random.Random(seed).randbytes(900)
    assert "no stitch file" in told(noise)[1]
    for spoiled in (data[:512] + noise, data[:600] + noise[:60] + data[660:]):
        code, said = told(spoiled)
        assert code == 1 and "cannot be sewn" in said


@pytest.mark.parametrize(
    "text", [b"<svg xmlns='http://www.w3.org/2000/svg'/>" * 40, b"leeks and beans\n" * 99]
)
def test_text_is_named_as_no_stitch_file(told, text):
    code, said = told(text)
    assert code == 1 and "this is no stitch file" in said


def test_what_is_far_too_large_is_not_read(told):
    code, said = told(bytes(MOST_BYTES + 1))
    assert code == 1 and "would sew for days" in said


def test_a_label_that_would_steer_the_terminal_is_shown_as_marks(write, told):
    data = write("tiny")[1]
    assert "leek?[31m" in told(data[:3] + b"leek\x1b[31m".ljust(16) + data[19:])[1]


def test_a_number_of_the_header_that_is_none_is_quoted(write, told):
    data = write("tiny")[1]
    assert "ST:'   12x5', where a whole number belongs" in told(data[:23] + b"   12x5" + data[30:])[1]
