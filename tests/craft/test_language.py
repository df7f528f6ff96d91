"""Words in the language of who reads them."""

import pytest

from service.craft.audience import Audience, writing_for
from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.language import LANGUAGES, decimal_mark, join_words, phrase, phrase_count

PATCH = {"unit": "patch", "size": ["3", "3"], "fabric": "frost"}


def document(**more):
    return {"title": "Leek", "fabrics": {"frost": {}}, "top": PATCH} | more


def test_a_message_no_catalogue_has_stays_english():
    with writing_for(Audience(language="nl")):
        assert phrase("no catalogue says {this}", this="leek") == "no catalogue says leek"
        assert phrase_count("{number} zzz", "{number} zzzs", 2) == "2 zzzs"


def test_nothing_said_is_nothing_in_every_language():
    with writing_for(Audience(language="nl")):
        assert (phrase(""), join_words([])) == ("", "")


def test_a_value_is_never_read_as_a_message_or_as_a_pattern():
    assert phrase("Cut {name}.", name="{count} %s strips") == "Cut {count} %s strips."


@pytest.mark.parametrize(("language", "expected"), [("en", "."), ("nl", ",")])
def test_the_decimal_mark_is_the_language_s_own(language, expected):
    """Unicode CLDR, by Babel."""
    with writing_for(Audience(language=language)):
        assert decimal_mark() == expected


def test_words_are_joined_as_the_language_does():
    with writing_for(Audience(language="nl")):
        assert join_words(["prei", "bonen", "kool"]) == "prei, bonen en kool"


def test_a_track_reads_in_its_own_language_and_in_the_units_of_the_document():
    tracks = [{"name": "by hand", "has": []}, {"name": "met de hand", "has": [], "language": "nl"}]
    project = read_document(document(units="metric", tracks=tracks))
    assert [project.audience_of(track) for track in project.tracks] == [
        Audience("metric"),
        Audience("metric", "nl"),
    ]
    assert project.name_for(Audience("metric", "nl"), "cutting.json") == "cutting-nl-metric.json"


def test_a_language_there_is_no_catalogue_for_is_a_fault_that_names_those_there_are():
    with pytest.raises(DocumentFaults) as caught:
        read_document(document(language="leekish"))
    (fault,) = caught.value.faults
    assert fault.pointer == "/language" and all(tag in fault.right for tag in LANGUAGES)
