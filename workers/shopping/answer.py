"""The list as plain JSON."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from service.craft.fabric import Fabric
from service.craft.measure import Length, Number, length_object
from workers.shopping.needs import Needs
from workers.shopping.notions import BattingNeed, FusibleWeb, ThreadNeed
from workers.shopping.reckoning import ClothFigures, Figures, ProjectFigures
from workers.shopping.shops import Bought, Planned, add_bought, to_cents

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

    def cloth(self, found: ClothFigures) -> Json:
        """A cloth with every figure of it."""
        fabric, roll = found.cloth.fabric, found.roll
        price = fabric.price
        studio = self._studio(roll)
        return {
            "name": fabric.name,
            "colour": fabric.colour,
            "usable_width": self.length(fabric.usable_width),
            "one_way": fabric.one_way,
            "price": price and {"amount": float(price[0]), "per": self.length(price[1])},
            "projects": [self._share(one) for one in roll.projects],
            **self._ways(roll),
            "studio": {**studio, "after_stash": found.after_stash and self._planned(found.after_stash)},
            "in_pieces": found.in_pieces
            and PieceWriter(self.measure, self.kits).sold_as(fabric, found.in_pieces),
            "proved": roll.proved,
            "notes": list(found.cloth.notes),
        }

    def _ways(self, figures: Figures) -> Json:
        return {
            "one_kit": self._bought(figures.one_kit),
            "apart": self._bought(figures.apart),
            "by_project": self._bought(figures.by_project),
            "at_once": self._planned(figures.at_once),
            "saved": {
                "kits_together": self._bought(figures.apart.less(figures.by_project)),
                "projects_together": self._bought(figures.by_project.less(figures.at_once.bought)),
                "in_all": self._bought(figures.apart.less(figures.at_once.bought)),
            },
        }

    def _studio(self, figures: Figures) -> Json:
        return {
            "by_project": self._bought(figures.studio),
            "at_once": self._planned(figures.studio_at_once),
            "beyond_one_kit": self._bought(figures.studio.less(figures.one_kit)),
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
            "length": self.length(reach.amount),
            "lower_bound": self.length(reach.lower_bound),
            "proved": reach.proved,
            **self._bought(plan.bought),
        }

    def _bought(self, bought: Bought) -> Json:
        return {"buy": self.length(bought.buy), "cost": write_money(bought.cost)}


class PieceWriter(Writer):
    """Writes the figures of a cloth that is bought in pieces."""

    def sold_as(self, fabric: Fabric, figures: Figures) -> Json:
        """The piece, and how many of them."""
        sold_as = fabric.sold_as
        assert sold_as is not None, "only what is sold in pieces has figures in pieces"  # noqa: S101
        return {
            "name": sold_as.name,
            "width": self.length(sold_as.width),
            "length": self.length(sold_as.length),
            "price": write_money(sold_as.price),
            **self._ways(figures),
            "studio": self._studio(figures),
            "proved": figures.proved,
        }

    def _planned(self, plan: Planned) -> Json:
        reach = plan.reach
        return {"lower_bound": int(reach.lower_bound), "proved": reach.proved, **self._bought(plan.bought)}

    def _bought(self, bought: Bought) -> Json:
        return {"count": int(bought.buy), "cost": write_money(bought.cost)}


def write_money(amount: Fraction | None) -> float | None:
    """An amount to the cent, or None where it is not known."""
    return None if amount is None else float(to_cents(amount))


def write_costs(cloths: Sequence[ClothFigures]) -> Json:
    """What all cloths of a known price cost together (None where no price is known), and which have none.

    A cloth whose price by the length is not known counts by the piece, where it is sold so and that price is known.
    """
    priced = [found.priced for found in cloths if found.priced is not None]
    unknown = [found.cloth.fabric.name for found in cloths if found.priced is None]
    apart, at_once = add_bought(f.apart for f in priced), add_bought(f.at_once.bought for f in priced)
    return {
        "complete": not unknown,
        "price_unknown": unknown,
        "one_kit": write_money(add_bought(f.one_kit for f in priced).cost),
        "apart": write_money(apart.cost),
        "by_project": write_money(add_bought(f.by_project for f in priced).cost),
        "at_once": write_money(at_once.cost),
        "saved": write_money(apart.less(at_once).cost),
        "studio": write_money(add_bought(f.studio for f in priced).cost),
        "studio_at_once": write_money(add_bought(f.studio_at_once.bought for f in priced).cost),
    }
