import pytest

from tests.stitches.independent_reader import read
from workers.stitches.inspection import inspect_stitch_file
from workers.stitches.reading import StitchFileError


def test_an_inspected_file_has_the_counts_of_the_other_reader(write):
    data = write("ring")[1]
    sewn, said = read(data), inspect_stitch_file(data)
    assert (said["stitches"], said["jumps"], said["stops"]) == tuple(
        map(sewn.count, ("stitch", "jump", "stop"))
    )
    assert said["records"] == len(sewn.events) and said["label"] == "100x140-1"
    assert said["header_faults"] == []


@pytest.mark.parametrize(("off", "faults"), [(-1, 0), (0, 0), (1, 1), (-2, 1)])
def test_a_count_without_the_end_record_is_no_fault(write, off, faults):
    """Whether ST counts the end record is disputed (trade tables)."""
    data = write("tiny")[1]
    told = b"ST:" + str((len(data) - 512) // 3 + off).rjust(7).encode()
    assert len(inspect_stitch_file(data[:20] + told + data[30:])["header_faults"]) == faults


def test_an_empty_design_is_inspected_and_garbage_is_refused(write):
    data = write("tiny")[1]
    assert inspect_stitch_file(data[:512] + b"\x00\x00\xf3")["stitches"] == 0
    with pytest.raises(StitchFileError):
        inspect_stitch_file(b"garbage" * 200)
