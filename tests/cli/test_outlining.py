"""`batchbee outline`, over real HTTP."""

from tests.outlines.tracing.drawn import encode, leaf, paint


def test_a_picture_is_uploaded_with_its_scale(terminal, tmp_path):
    """Its shapes are said with their sizes, and the overlay is written."""
    project = terminal.studio.add()
    picture, overlay = tmp_path / "leek.png", tmp_path / "leek.svg"
    picture.write_bytes(encode(paint([leaf(30, 20, 40)], dpi=150, size=(60, 40))))
    done = terminal.run("outline", project, picture, "--dpi", 150, "--overlay", overlay)
    assert done.exit_code == 0, done.output
    assert "Read leek.png: middle (" in done.output
    assert "<svg" in overlay.read_text()


def test_a_picture_without_a_scale_says_what_is_missing(terminal, tmp_path):
    """Exit code 1, and the three ways."""
    picture = tmp_path / "leek.png"
    picture.write_bytes(encode(paint([leaf(30, 20, 40)], dpi=150, size=(60, 40))))
    done = terminal.run("outline", terminal.studio.add(), picture)
    assert done.exit_code == 1
    assert "calibration sheet" in done.output
