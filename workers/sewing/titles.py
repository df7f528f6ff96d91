"""Titles that tell stages apart: of two stages with one title, each says what the other is not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence

from service.craft.language import mark, phrase
from service.craft.measure import format_length
from workers.sewing.names import listed
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Laid, Work, walk_patches

MIRRORED, TURN_ABOUT = ".mirrored", ".turn-about"
MOST_CLOTHS = 3
"""Cloths that a title still names."""

OF, OF_MORE = mark("of {cloths}"), mark("of {cloths} and others")

Tell = Callable[[Work], str]


def tell_apart(works: Sequence[Work], names: ClothNames) -> Mapping[str, str]:
    """A title for each stage by its id, no two alike; a title that is the only one of its words stays as it is."""
    titles = {work.stage: work.title for work in works}
    for tell in _ways_to_tell(works, names):
        counts = Counter(titles.values())
        groups: dict[str, list[Work]] = {}
        for work in works:
            if counts[titles[work.stage]] > 1:
                groups.setdefault(titles[work.stage], []).append(work)
        for title, group in groups.items():
            told = [tell(work) for work in group]
            if len(set(told)) > 1:
                titles |= {
                    work.stage: f"{title}, {more}" if more else title
                    for work, more in zip(group, told, strict=True)
                }
    return _number_others(titles)


def _ways_to_tell(works: Sequence[Work], names: ClothNames) -> tuple[Tell, ...]:
    def size(work: Work) -> str:
        width, height = (format_length(side, names.measure) for side in (work.width, work.height))
        return phrase("{width} by {height} finished", width=width, height=height)

    def cloths(work: Work) -> str:
        used = list(dict.fromkeys(names.cloth(cut.fabric) for cut in walk_patches(Laid(work))))
        return phrase(OF_MORE if len(used) > MOST_CLOTHS else OF, cloths=listed(used[:MOST_CLOTHS]))

    def taken_by(work: Work) -> str:
        users = list(dict.fromkeys(user.called for user in works if _takes(user, work) and user.called))
        return phrase("for {wholes}", wholes=listed(users[:MOST_CLOTHS])) if users else ""

    return _tell_image, _tell_turn, size, cloths, taken_by


def _takes(user: Work, work: Work) -> bool:
    return any(part.stage == work.stage for part in user.works)


def _tell_image(work: Work) -> str:
    return phrase("its mirror image") if MIRRORED in work.stage else ""


def _tell_turn(work: Work) -> str:
    return phrase("pressed the other way") if TURN_ABOUT in work.stage else ""


def _number_others(titles: Mapping[str, str]) -> dict[str, str]:
    """What no words tell apart is counted in the order of work."""
    taken = set(titles.values())
    counts, seen, found = Counter(titles.values()), Counter[str](), {}
    for stage, title in titles.items():
        found[stage] = title
        while counts[title] > 1 and found[stage] in taken:
            seen[title] += 1
            found[stage] = phrase("{title}, layout {number}", title=title, number=seen[title])
        taken.add(found[stage])
    return found
