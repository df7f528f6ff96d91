"""`batchbee calibration-sheet`, over real HTTP."""


def test_the_sheet_is_written_as_a_pdf(terminal, tmp_path):
    """With a word on what to measure."""
    file = tmp_path / "sheet.pdf"
    done = terminal.run("calibration-sheet", "--paper", "Letter", "--to", file)
    assert done.exit_code == 0, done.output
    assert file.read_bytes().startswith(b"%PDF")
    assert "50 mm" in done.output
