import pytest

from workers.stitches.reading import StitchFileError, read_stitch_file


@pytest.fixture
def data(write):
    return write("tiny")[1]


def test_a_whole_file_is_read_and_so_is_one_with_the_customary_last_byte(data):
    """Some writers append 0x1A (from memory)."""
    assert len(read_stitch_file(data).kinds) == (len(data) - 512) // 3
    assert len(read_stitch_file(data + b"\x1a").kinds) == (len(data) - 512) // 3


@pytest.mark.parametrize("zeros", [True, False])
def test_numbers_padded_with_zeros_or_spaces_are_both_read(data, zeros):
    """EduTechWiki's example shows spaces, its text says zeros."""
    told = b"ST:" + str((len(data) - 512) // 3).rjust(7, "0" if zeros else " ").encode()
    assert read_stitch_file(data[:20] + told + data[30:]).number("ST") == (len(data) - 512) // 3


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (lambda d: b"", "the file is empty"),
        (lambda d: d[:400], "has 400 bytes"),
        (lambda d: d[:-1], "cut off or added to"),
        (lambda d: d[:-3], "no end record"),
        (lambda d: d + b"\x00\x00", "cut off or added to"),
        (lambda d: d + b"\x00\x00\x03", "1 records follow it"),
        (lambda d: d + b"\x00\x00\xf3", "1 records follow it"),
        (lambda d: b"\x89PNG" + d[4:], "lacks LA"),
        (lambda d: b" " * 512 + d[512:], "lacks LA"),
        (lambda d: d[:20] + b"ST:  about" + d[30:], "whole number belongs"),
        (lambda d: d[:512] + b"\x03\x00\x03" + d[515:], "record 0 moves both ways"),
        (lambda d: d[:518] + b"\x00\x00\x00" + d[521:], "record 2 lacks the two bits"),
        (lambda d: d[:515] + b"\x00\x00\x43" + d[518:], "record 1 is no stitch"),
        (lambda d: bytes(range(256)) * 8, "lacks LA"),
    ],
)
def test_what_is_no_whole_stitch_file_is_refused_in_words(data, spoil, words):
    with pytest.raises(StitchFileError, match=words):
        read_stitch_file(spoil(data))
