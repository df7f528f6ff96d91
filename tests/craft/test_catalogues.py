"""The catalogues of words hold what the code says today, every message has its translation, and both fit together."""

import ast
import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache

import pytest

from api_docs import collect_words
from service.craft.audience import Audience, writing_for
from service.craft.language import ENGLISH, LANGUAGES
from service.craft.tools import say_tool
from workers.completeness.steps import NAMED_IN_WORDS

OTHERS = [tag for tag in LANGUAGES if tag != ENGLISH]
SAYING = {"phrase": 1, "mark": 1, "phrase_count": 2}
"""What says a message, and how many forms of it come first."""

PLACE = re.compile(r"{(\w+)[^}]*}")
MARKED = (ast.Name, ast.Attribute, ast.Subscript)
"""What a message said by its name may be: a constant, a field, or an entry of either."""

PUT_TOGETHER = {"str", "repr", "format", "phrase", "phrase_count"}
"""Functions whose answer is no message; others may find one."""


@cache
def read_code() -> tuple[tuple[str, str, tuple[ast.expr, ...]], ...]:
    """Every call that says a message: its place, its name, and the forms of the message as they are written."""
    found = []
    for folder in ("service", "workers"):
        for path in sorted((collect_words.ROOT / folder).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in SAYING:
                    forms = tuple(node.args[: SAYING[node.func.id]])
                    found.append(
                        (f"{path.relative_to(collect_words.ROOT)}:{node.lineno}", node.func.id, forms)
                    )
    return tuple(found)


@cache
def read_stored(language: str) -> dict[object, object]:
    return collect_words.read_all(language)


def forms_of(message: object) -> tuple[str, ...]:
    """A message as one text, or as one for each number."""
    return tuple(map(str, message)) if isinstance(message, tuple | list) else (str(message),)


def is_marked(message: ast.expr) -> bool:
    """Whether a message is a literal, or comes by a name from where it is marked."""
    if isinstance(message, ast.IfExp):
        return is_marked(message.body) and is_marked(message.orelse)
    if isinstance(message, ast.Call):
        called = ast.unparse(message.func)
        return called.removeprefix("self.").isidentifier() and called not in PUT_TOGETHER
    return isinstance(message, MARKED) or (
        isinstance(message, ast.Constant) and isinstance(message.value, str)
    )


def literals() -> Iterator[tuple[str, tuple[str, ...]]]:
    """The messages that stand in the code as they are, each with its place."""
    for place, _, forms in read_code():
        if all(isinstance(form, ast.Constant) for form in forms):
            yield place, tuple(str(form.value) for form in forms)  # type: ignore[attr-defined]


@pytest.mark.parametrize("language", OTHERS)
def test_the_stored_catalogues_are_what_collecting_would_write_today(language, tmp_path, monkeypatch):
    """`make docs` changes nothing: what is new in the code is in them, what nothing says any more is not."""
    made = dict(collect_words.bring_up_to_date(language))
    stored = {path.stem: path for path in (collect_words.CATALOGUES / language).glob("*.po")}
    assert set(made) == set(stored)
    (tmp_path / language).mkdir()
    monkeypatch.setattr(collect_words, "CATALOGUES", tmp_path)
    for room, catalogue in made.items():
        collect_words.write_catalogue(language, room, catalogue)
        assert (tmp_path / language / f"{room}.po").read_text() == stored[room].read_text(), room


@pytest.mark.parametrize("language", OTHERS)
def test_every_message_has_its_translation(language):
    bare = [message for message, said in read_stored(language).items() if not all(forms_of(said or ""))]
    assert len(read_stored(language)) > 1000
    assert bare == []


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_fills_in_what_its_message_fills_in(language):
    """The same names in braces; the form for one may leave out the number."""
    wrong = []
    for message, said in read_stored(language).items():
        wanted = {frozenset(PLACE.findall(form)) for form in forms_of(message)}
        for form in forms_of(said or ""):
            names = frozenset(PLACE.findall(form))
            if form and names not in wanted | {want - {"number"} for want in wanted}:
                wrong.append((message, form))
    assert wrong == []


@pytest.mark.parametrize("language", OTHERS)
def test_a_sentence_stays_a_sentence(language):
    """Where a message ends in a full stop its translation does, and the spaces round both are the same."""
    wrong = []
    for message, said in read_stored(language).items():
        written, form = forms_of(message)[-1], forms_of(said or "")[-1]
        stops = written.endswith(".") and not form.endswith(".")
        spaces = [text.strip() and (text[0].isspace(), text[-1].isspace()) for text in (written, form)]
        if form and (stops or spaces[0] != spaces[1]):
            wrong.append((message, said))
    assert wrong == []


def test_messages_are_literals_or_marked_where_they_stand():
    """No text put together in place is said as a message: nobody could translate it."""
    wrong = [
        f"{place}: {name}({ast.unparse(form)})"
        for place, name, forms in read_code()
        for form in forms
        if not is_marked(form) or (name != "phrase" and not isinstance(form, ast.Constant))
    ]
    assert len(read_code()) > 1000
    assert wrong == []


def test_every_message_of_the_code_is_collected():
    """Also where it stands in a place that the collector reads past, as inside an f-string."""
    collected = {
        form for _, catalogue in collect_words.collect() for m in catalogue for form in forms_of(m.id)
    }
    assert [(place, forms) for place, forms in literals() if not set(forms) <= collected] == []


def test_a_message_has_one_form_for_many_whoever_says_it():
    """gettext finds a message by its form for one, so that another form for many would never be found."""
    many = defaultdict(set)
    for _, forms in literals():
        many[forms[0]].add(forms[1:])
    assert {one: forms for one, forms in many.items() if len(forms) > 1} == {}


@pytest.mark.parametrize("language", OTHERS)
def test_steps_call_a_tool_as_the_materials_do(language):
    """The check for completeness finds tools in the words of steps by what the materials call them."""
    with writing_for(Audience(language=language)):
        tools = {tool: say_tool(tool) for tool in NAMED_IN_WORDS}
    wrong = [
        (tool, message)
        for message, said in read_stored(language).items()
        for tool, name in tools.items()
        if re.search(rf"\b{tool}\b", forms_of(message)[0], re.IGNORECASE)
        and name.lower() not in forms_of(said)[0].lower()
    ]
    assert wrong == []
