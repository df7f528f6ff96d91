"""What is said of cut files: in words that somebody at a cutting machine knows, each piece by its name."""

from __future__ import annotations

from typing import Any

from workers.outlines.cut_notes import say_notes


def piece(name: str, turning: float = 0.0, under: tuple[tuple[str, float], ...] = ()) -> dict[str, Any]:
    """A piece as the report describes it."""
    reaches = [{"piece": other, "mm": reach} for other, reach in under]
    return {"name": name, "count": 1, "turning_mm": turning, "reaches_under": reaches}


def file(*pieces: dict[str, Any], thin: tuple[str, ...] = (), hard: tuple[str, ...] = ()) -> dict[str, Any]:
    """A cut file as the report describes it, as far as the notes look at it."""
    return {"pieces": list(pieces), "thin": list(thin), "hard_turns": list(hard)}


def test_raw_pieces_without_faults_are_told_nothing_of_turning_or_care() -> None:
    """The plainest file: mirrored, raw, test square, as drawn, the blade."""
    notes = say_notes([file(piece("leaf"))])
    assert len(notes) == 5
    assert "Edges are raw: there is no seam allowance." in notes
    assert not any("leaf" in note for note in notes)


def test_turned_pieces_are_named_with_what_is_turned_under() -> None:
    """3/16 in is 4.7625 mm; where every piece is turned, nothing is said of raw edges."""
    mixed = say_notes([file(piece("leaf"), piece("bean", 4.763))])
    assert "Edges are raw: there is no seam allowance, but for the pieces named next." in mixed
    assert "With 4.8 mm to turn under along the edges that show: bean." in mixed
    assert not any("Edges are raw" in note for note in say_notes([file(piece("bean", 4.763))]))


def test_what_reaches_under_another_piece_is_named_with_both_names_once() -> None:
    """The same piece in the files of two mats is one piece to the reader."""
    leaf = piece("leaf", under=(("stalk", 6.35),))
    notes = say_notes([file(leaf), file(leaf)])
    assert [note for note in notes if "stalk" in note] == [
        "leaf reaches up to 6.3 mm further where it lies under stalk: leave that edge flat."
    ]


def test_thin_and_sharp_pieces_are_named_with_what_to_do() -> None:
    """Each once, in the order of the files."""
    notes = say_notes(
        [file(piece("a"), thin=("a",)), file(piece("b"), piece("a"), thin=("a", "b"), hard=("b",))]
    )
    assert "With narrower than" not in " ".join(notes)
    assert any(note.startswith("Narrower than 3 mm somewhere: a, b. Cut slowly") for note in notes)
    assert any("under 25 degrees: b. Cut slowly, and try one first." in note for note in notes)


def test_no_note_shows_the_name_of_a_field() -> None:
    """Fields have an underscore or stand in backticks; people read neither."""
    notes = say_notes([file(piece("a", 5, (("b", 6),)), piece("c"), thin=("a",), hard=("a",))])
    assert not any("_" in note or "`" in note for note in notes)
