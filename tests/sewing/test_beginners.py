"""Whether somebody who has never pieced can follow the lists of the demo series: no term unexplained, no step without a
picture, one action a step.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from service.craft.document import Project, read_document
from workers.handouts.pictures import draw_stages
from workers.handouts.seam_test import draw_seam_test
from workers.handouts.words import GLOSSARY
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan

MONTHS = sorted(path.parent.name for path in Path("seed_data").glob("*/project.json"))
SECOND_ACTION = re.compile(r"\b(?:and|then) (?:sew|cut|press|trim|draw|iron|mark)\b", re.IGNORECASE)

WORDS = ("text", "why", "if_not")

Steps = list[dict[str, Any]]


class Month:
    """A month of the demo series: its project, its sewing plan, its steps by track."""

    def __init__(self, name: str) -> None:
        raw = json.loads(Path("seed_data", name, "project.json").read_text())
        self.project: Project = read_document(raw)
        files = {file.name: json.loads(file.data) for file in make_sewing_plan(JobInput("sewing", raw))}
        self.sewing: dict[str, Any] = files["sewing.json"]
        self.steps: dict[str, Steps] = {
            made["track"]: made["steps"] for name, made in files.items() if name.startswith("steps-")
        }


@pytest.fixture(scope="module", params=MONTHS)
def month(request: pytest.FixtureRequest) -> Month:
    return Month(request.param)


def test_every_term_of_the_glossary_is_explained_where_a_step_first_uses_it(month: Month) -> None:
    """Read from top to bottom on every track, with the title over each stage; what viewers have done is left out."""
    titles = {stage["id"]: stage["title"] for stage in month.sewing["stages"]}
    for track, all_steps in month.steps.items():
        steps = [step for step in all_steps if not month.project.track(track).has_done(step["chapter"])]
        said = [
            " ".join([titles.get(step["stage"], step["heading"]), *(step[key] for key in WORDS)])
            for step in steps
        ]
        for term, (looks, _) in GLOSSARY.items():
            pattern = re.compile(rf"\b(?:{looks})\b", re.IGNORECASE)
            using = [step for step, words in zip(steps, said, strict=True) if pattern.search(words)]
            explaining = [step for step in steps if term in [entry["term"] for entry in step["terms"]]]
            assert explaining == using[:1], (track, term)


def test_every_step_of_piecing_stands_beside_a_picture(month: Month) -> None:
    pictures = draw_stages(month.project, month.sewing) | draw_seam_test(month.project)
    for steps in month.steps.values():
        piecing = [step for step in steps if step["chapter"] == "piecing"]
        assert len(piecing) > 10
        assert [step["id"] for step in piecing if (step["stage"] or step["heading"]) not in pictures] == []


def test_a_step_of_piecing_is_one_action(month: Month) -> None:
    """No step sews and then presses as well; those who are new are told how, in further sentences."""
    for track in month.project.tracks:
        texts = [step["text"] for step in month.steps[track.name] if step["chapter"] == "piecing"]
        firsts = [text.partition(". ")[0] for text in texts]
        assert [text for text in firsts if SECOND_ACTION.search(text)] == []


def test_every_measured_step_says_what_to_look_at_and_the_first_one_how(month: Month) -> None:
    for steps in month.steps.values():
        said = [step["if_not"] for step in steps if step["size"]]
        assert all(said)
        assert "Turn of cloth:" in said[0] and "Pressing:" in said[0] and "Seam allowance:" in said[0]
        assert not any("Turn of cloth:" in words for words in said[1:])
        assert not any(step["if_not"] for step in steps if not step["size"])
