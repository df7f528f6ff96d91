"""What viewers need, as plain text to paste under a video: cloth, what finishes it, tools, what to bring."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from service.craft.language import phrase
from service.craft.tools import say_tool
from workers.handouts.cloth_plans import ClothPlan
from workers.handouts.finishing import list_finishing
from workers.handouts.inputs import Inputs
from workers.handouts.steps import list_tools


def write_supplies(inputs: Inputs, cloths: Sequence[ClothPlan]) -> str:
    """The list for all tracks; what only some need says which."""
    project = inputs.project
    parts = [
        (phrase("Supplies: {title}", title=project.title), []),
        (phrase("Cloth"), [f"{plan.cloth.name}: {_say_buy(plan)}" for plan in cloths]),
        (
            phrase("To finish it"),
            [f"{row.title}: {row.text}" for row in list_finishing(project, inputs.cutting)],
        ),
        (phrase("Tools"), list(_list_tools(inputs))),
        (
            phrase("Bring your own, it is not in our files"),
            [phrase("the outline of the {name}", name=piece.name) for piece in inputs.brought],
        ),
    ]
    said = [f"{title}\n" + "".join(f"- {line}\n" for line in lines) for title, lines in parts if lines]
    if project.page:
        address = phrase("Everything is here: {page}", page=project.page)
        said.append(f"{address}\n")
    return "\n".join([f"{parts[0][0]}\n", *said])


def _say_buy(plan: ClothPlan) -> str:
    if not plan.buy:
        return phrase("see the handout")
    return f"{plan.buy.main} ({plan.buy.second})" if plan.buy.second else plan.buy.main


def _list_tools(inputs: Inputs) -> Iterator[str]:
    """Every tool once, with the tracks that need it where not all do."""
    tracks: dict[str, list[str]] = {}
    for track in inputs.project.tracks:
        for tool in list_tools(inputs.steps(track)):
            tracks.setdefault(tool, []).append(track.name)
    for tool, names in tracks.items():
        everybody = len(names) == len(inputs.project.tracks)
        said = say_tool(tool)
        yield said if everybody else phrase("{tool} (for: {tracks})", tool=said, tracks=", ".join(names))
