"""The list as plain JSON."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

from service.craft.measure import Length, Number, length_object
from workers.shopping.needs import Needs
from workers.shopping.notions import BattingNeed, FusibleWeb, ThreadNeed
from workers.shopping.reckoning import Bought, ClothFigures, Planned, ProjectFigures, add_bought, to_cents

Json = dict[str, Any]


class Writer:
    """Writes figures in one measure. Money is exact until it is written, and then rounded to the cent."""

    def __init__(self, measure: str, kits: int) -> None:
        self.measure, self.kits = measure, kits

    def length(self, value: Number) -> Length:
        """A length as it stands in every answer."""
        return length_object(value, self.measure)

    def project(self, needs: Needs) -> Json:
        """A project on the list."""
        return {
            "id": needs.asked.id,
            "title": needs.project.title,
            "release": needs.asked.release,
            "step_outs": [out.title for out in needs.step_outs],
        }

    def cloth(self, figures: ClothFigures) -> Json:
        """A cloth with every figure of it."""
        fabric = figures.cloth.fabric
        price = fabric.price
        return {
            "name": fabric.name,
            "colour": fabric.colour,
            "usable_width": self.length(fabric.usable_width),
            "one_way": fabric.one_way,
            "price": price and {"amount": float(price[0]), "per": self.length(price[1])},
            "projects": [self._share(one) for one in figures.projects],
            "one_kit": self._bought(figures.one_kit),
            "apart": self._bought(figures.apart),
            "by_project": self._bought(figures.by_project),
            "at_once": self._planned(figures.at_once),
            "saved": self._saved(figures),
            "studio": {
                "by_project": self._bought(figures.studio),
                "at_once": self._planned(figures.studio_at_once),
                "beyond_one_kit": self._bought(figures.studio.less(figures.one_kit)),
            },
            "proved": figures.proved,
            "notes": list(figures.cloth.notes),
        }

    def batting(self, need: BattingNeed) -> Json:
        """The batting of one project."""
        plan = need.plan
        return {
            "project": need.needs.asked.id,
            "width": self.length(plan.width),
            "height": self.length(plan.height),
            "sold_as": plan.packet
            and {
                "name": plan.packet.name,
                "width": self.length(plan.packet.short),
                "height": self.length(plan.packet.long),
            },
            "kits": self.kits,
            "studio": 1,
        }

    def web(self, need: FusibleWeb) -> Json:
        """Fusible web for one project, counted for some of its tracks."""
        web, project = need.web, need.needs.project
        return {
            "project": need.needs.asked.id,
            "tracks": list(web.tracks),
            "counted_by": web.counted_by,
            "mat": web.mat,
            "width": self.length(project.web_width),
            "one_kit": self.length(web.length),
            "kits": self.length(web.length * self.kits),
        }

    def thread(self, need: ThreadNeed) -> Json:
        """Thread of one colour; about how many metres go through the needle for its edge finishes."""
        one_kit = sum(metres for _, _, metres in need.uses)
        return {
            "name": need.thread.name,
            "colour": need.thread.colour,
            "projects": [
                {"project": needs.asked.id, "pieces": pieces, "about_metres": round(metres, 1)}
                for needs, pieces, metres in need.uses
            ],
            "one_kit_about_metres": round(one_kit, 1),
            "kits_about_metres": round(one_kit * self.kits, 1),
        }

    def _saved(self, figures: ClothFigures) -> Json:
        return {
            "kits_together": self._bought(figures.apart.less(figures.by_project)),
            "projects_together": self._bought(figures.by_project.less(figures.at_once.bought)),
            "in_all": self._bought(figures.apart.less(figures.at_once.bought)),
        }

    def _share(self, one: ProjectFigures) -> Json:
        return {
            "project": one.share.needs.asked.id,
            "fabrics": list(one.share.keys),
            "one_kit": self._planned(one.one_kit),
            "kits": self._planned(one.kits),
            "studio": self._planned(one.studio),
        }

    def _planned(self, plan: Planned) -> Json:
        reach = plan.reach
        return {
            "length": self.length(reach.length),
            "lower_bound": self.length(reach.lower_bound),
            "proved": reach.proved,
            **self._bought(plan.bought),
        }

    def _bought(self, bought: Bought) -> Json:
        return {"buy": self.length(bought.buy), "cost": write_money(bought.cost)}


def write_money(amount: Fraction | None) -> float | None:
    """An amount to the cent, or None where it is not known."""
    return None if amount is None else float(to_cents(amount))


def write_costs(cloths: Sequence[ClothFigures]) -> Json:
    """What all cloths of a known price cost together (None where no price is known), and which have none."""
    unknown = [f.cloth.fabric.name for f in cloths if f.cloth.fabric.price is None]
    apart, at_once = _total(f.apart for f in cloths), _total(f.at_once.bought for f in cloths)
    return {
        "complete": not unknown,
        "price_unknown": unknown,
        "one_kit": write_money(_total(f.one_kit for f in cloths).cost),
        "apart": write_money(apart.cost),
        "by_project": write_money(_total(f.by_project for f in cloths).cost),
        "at_once": write_money(at_once.cost),
        "saved": write_money(apart.less(at_once).cost),
        "studio": write_money(_total(f.studio for f in cloths).cost),
        "studio_at_once": write_money(_total(f.studio_at_once.bought for f in cloths).cost),
    }


def _total(parts: Iterable[Bought]) -> Bought:
    """The sum of those whose cost is known."""
    return add_bought(part for part in parts if part.cost is not None)
