"""Which of a cloth's two plans is printed, and what is honestly said of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from service.craft.cutting_choices import SIMPLE
from service.craft.language import phrase, phrase_count
from workers.handouts.sizes import Shown, read_inches, show_length

Json = Mapping[str, Any]

FIELDS = frozenset(
    {"length", "strip_count", "mixed", "buy", "buy_for_tight", "lower_bound", "per_size_rule", "fit_rule"}
)


def find_followed(entry: Json) -> Json:
    """The plan of a cloth that the handout prints: its `simple` one where `follow` says so, else the tight one."""
    simple = entry.get(SIMPLE)
    return simple if entry.get("follow") == SIMPLE and isinstance(simple, Mapping) else entry


def say_plan(entry: Json, measure: str) -> str:
    """How much cloth the printed plan takes, how little it could be, and what rules of thumb would take.

    Empty where a cutting plan does not say.
    """
    return " ".join(_say(entry, measure)) if entry.keys() >= FIELDS and entry["strip_count"] else ""


def show_bought(entry: Json, measure: str) -> Shown:
    """What to buy as a shop says it, and beside it as a ruler does."""
    bought, words = show_length(entry.get("buy"), measure), str(entry.get("buy_words", ""))
    if not words:
        return bought
    metric = measure != "in" and words.endswith(" m")
    return Shown(words, bought.second if metric else ", ".join(filter(None, (bought.main, bought.second))))


def say_stacked(entry: Json, measure: str) -> str:
    """What cutting in columns would save, where the plan has worked it out; empty where it saves nothing."""
    plan = entry.get("stacked") or {}
    if not read_inches(plan.get("saves")):
        return ""
    length, saves, buy = (show_length(plan[key], measure).main for key in ("length", "saves", "buy"))
    return phrase(
        "For those who like to save cloth: {length} are enough, {saves} less, with {buy} to buy. Cut each strip into "
        "columns first, then each column across.",
        length=length,
        saves=saves,
        buy=buy,
    )


def _say(entry: Json, measure: str) -> Iterator[str]:
    printed = find_followed(entry)
    yield f"{_say_strips(printed, measure)}."
    shortest = printed["length"] == entry["length"]
    if not shortest:
        plan, less = _say_strips(entry, measure), entry["buy_for_tight"]
        yield (
            phrase("The shortest plan found: {plan}, as much to buy.", plan=plan)
            if less == entry["buy"]
            else phrase(
                "The shortest plan found: {plan}, {length} to buy.",
                plan=plan,
                length=show_length(less, measure).main,
            )
        )
    bound, by_size, by_fit = (
        show_length(entry[key], measure).main for key in ("lower_bound", "per_size_rule", "fit_rule")
    )
    if entry.get("proved"):
        yield phrase("None can be shorter.") if shortest else phrase("None can be shorter than that.")
    else:
        yield phrase(
            "None can take less than {bound}; whether one comes nearer to that is not known.", bound=bound
        )
    if by_size == by_fit:
        yield phrase("By rule of thumb it would be {length}.", length=by_size)
    else:
        yield phrase(
            "Each size from strips of its own would take {by_size}, the tallest pieces first {by_fit}.",
            by_size=by_size,
            by_fit=by_fit,
        )


def _say_strips(plan: Json, measure: str) -> str:
    """How long, how many strips, and how many of them mix sizes.

    >>> _say_strips({"length": {"text": "9 in"}, "strip_count": 3, "mixed": 1}, "in")
    '9 in of cloth in 3 strips, 1 with more than one size'
    """
    count, mixed = plan["strip_count"], plan["mixed"]
    length = show_length(plan["length"], measure).main
    if not mixed:
        return phrase_count(
            "{length} of cloth in {number} strip",
            "{length} of cloth in {number} strips",
            count,
            length=length,
        )
    if count == 1:
        return phrase("{length} of cloth in 1 strip, cut into more than one size", length=length)
    return phrase(
        "{length} of cloth in {count} strips, {mixed} with more than one size",
        length=length,
        count=count,
        mixed=mixed,
    )
