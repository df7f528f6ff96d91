"""A shopping list as a table (RFC 4180): a row a cloth, a packet of batting, a web, a thread, and a row of sums."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

MEDIA_TYPE = "text/csv"

LENGTHS = ("one_kit", "apart", "by_project", "at_once", "saved", "studio")
"""Columns with a length, each followed by one with the same as a decimal number."""
COSTS = LENGTHS
LEADS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""A cell that begins so is a formula to a spreadsheet (OWASP, CSV Injection)."""

Json = Mapping[str, Any]
Row = dict[str, Any]


def write_csv(shopping: Json) -> bytes:
    """The table in UTF-8, its first line the names of the columns."""
    columns = name_columns(shopping["measure"])
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(columns)
    for row in _list_rows(shopping):
        writer.writerow([guard_cell(row.get(column, "")) for column in columns])
    return out.getvalue().encode()


def name_columns(measure: str) -> list[str]:
    """The columns of a list in that measure.

    >>> name_columns("in")[6:10]
    ['one_kit', 'one_kit_in', 'apart', 'apart_in']
    """
    lengths = [name for column in LENGTHS for name in (column, f"{column}_{measure}")]
    counts = ["pieces_one_kit", "pieces_kits", "pieces_studio", "metres_one_kit", "metres_kits"]
    costs = [f"cost_{column}" for column in COSTS]
    return [
        "item",
        "name",
        "colour",
        "projects",
        "kits",
        "usable_width",
        *lengths,
        *counts,
        *costs,
        "proved",
        "notes",
    ]


def guard_cell(value: Any) -> Any:
    """A cell that no spreadsheet takes for a formula: text that begins like one gets an apostrophe before it.

    >>> guard_cell("=1+1"), guard_cell("leek green"), guard_cell(4.5)
    ("'=1+1", 'leek green', 4.5)
    """
    return f"'{value}" if isinstance(value, str) and value.startswith(LEADS_A_FORMULA) else value


def _list_rows(shopping: Json) -> Iterator[Row]:
    titles = {project["id"]: project["title"] for project in shopping["projects"]}
    measure, kits = shopping["measure"], shopping["kits"]
    for cloth in shopping["cloths"]:
        yield {"kits": kits, **_cloth(cloth, titles, measure)}
    for batting in shopping["batting"]:
        yield {"kits": kits, **_batting(batting, titles)}
    for web in shopping["fusible"]:
        yield {"kits": kits, **_web(web, titles, measure)}
    for thread in shopping["threads"]:
        yield {"kits": kits, **_thread(thread, titles)}
    yield {"kits": kits, **_sums(shopping)}


def _cloth(cloth: Json, titles: Mapping[str, str], measure: str) -> Row:
    figures = _pick(cloth)
    row: Row = {
        "item": "cloth",
        "name": cloth["name"],
        "colour": cloth["colour"],
        "projects": _join(titles[share["project"]] for share in cloth["projects"]),
        "usable_width": cloth["usable_width"]["text"],
        "proved": "yes" if cloth["proved"] else "no",
        "notes": "; ".join([*_say_pieces(cloth["in_pieces"]), *cloth["notes"]]),
        **_pieces(cloth["in_pieces"]),
    }
    priced = _pick(cloth["in_pieces"]) if cloth["price"] is None and cloth["in_pieces"] else figures
    for column, figure in figures.items():
        row |= _length(column, figure["buy"], measure)
        cost = priced[column]["cost"]
        row[f"cost_{column}"] = "price unknown" if cost is None else _money(cost)
    return row


def _pick(figures: Json) -> dict[str, Json]:
    """The figure of each column, out of those of a cloth or of its pieces."""
    return {
        **{column: figures[column] for column in LENGTHS[:4]},
        "saved": figures["saved"]["in_all"],
        "studio": figures["studio"]["by_project"],
    }


def _pieces(sold: Json | None) -> Row:
    if sold is None:
        return {}
    counted = {"one_kit": sold["one_kit"], "kits": sold["at_once"], "studio": sold["studio"]["by_project"]}
    return {f"pieces_{column}": figure["count"] for column, figure in counted.items()}


def _say_pieces(sold: Json | None) -> Iterator[str]:
    if sold is not None:
        yield f"pieces: {sold['name']}, {sold['width']['text']} x {sold['length']['text']}"


def _batting(batting: Json, titles: Mapping[str, str]) -> Row:
    sold, size = batting["sold_as"], f"{batting['width']['text']} x {batting['height']['text']}"
    return {
        "item": "batting",
        "name": f"{size}, {sold['name']}" if sold else size,
        "projects": titles[batting["project"]],
        "pieces_one_kit": 1,
        "pieces_kits": batting["kits"],
        "pieces_studio": batting["studio"],
    }


def _web(web: Json, titles: Mapping[str, str], measure: str) -> Row:
    return {
        "item": "fusible web",
        "name": f"for {', '.join(web['tracks'])}",
        "projects": titles[web["project"]],
        "usable_width": web["width"]["text"],
        **_length("one_kit", web["one_kit"], measure),
        **_length("apart", web["kits"], measure),
        "notes": f"by {web['counted_by']}",
    }


def _thread(thread: Json, titles: Mapping[str, str]) -> Row:
    return {
        "item": "thread",
        "name": thread["name"],
        "colour": thread["colour"],
        "projects": _join(titles[use["project"]] for use in thread["projects"]),
        "pieces_one_kit": sum(use["pieces"] for use in thread["projects"]),
        "metres_one_kit": thread["one_kit_about_metres"],
        "metres_kits": thread["kits_about_metres"],
        "notes": "about, for edge finishes in the hoop",
    }


def _sums(shopping: Json) -> Row:
    cost = shopping["cost"]
    row: Row = {f"cost_{column}": _money(cost[column]) for column in COSTS}
    unknown = _join(cost["price_unknown"])
    note = "" if cost["complete"] else f"without the cloths whose price is unknown: {unknown}"
    return {"item": "total", "name": "cloth of a known price", **row, "notes": note}


def _length(column: str, length: Json, measure: str) -> Row:
    """A length as text and as a decimal number in the measure."""
    number = length["inches"] if measure == "in" else length["mm"] / (10 if measure == "cm" else 1)
    return {column: length["text"], f"{column}_{measure}": f"{number:.6f}".rstrip("0").rstrip(".")}


def _money(amount: float | None) -> str:
    return "" if amount is None else f"{amount:.2f}"


def _join(names: Iterator[str] | Sequence[str]) -> str:
    return "; ".join(dict.fromkeys(names))
