"""A shopping list."""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from service.api.schemas.common import LengthSchema, date_field, nullable
from service.craft.shopping import MOST_KITS

KITS_RIGHT = f"a whole number from 1 to {MOST_KITS}"
FORMATS = ("json", "csv")
FORMAT_WORDS = f"one of: {', '.join(FORMATS)}"


class ShoppingQuery(Schema):
    """How many kits, and in what form."""

    kits = fields.Integer(
        load_default=1,
        validate=validate.Range(1, MOST_KITS, error=f"there are between 1 and {MOST_KITS} kits"),
        metadata={"right": KITS_RIGHT, "description": "how many kits of every project"},
        error_messages={"invalid": "this is not a whole number"},
    )
    format = fields.String(
        load_default=None,
        validate=validate.OneOf(FORMATS, error="there is no such form of a list"),
        metadata={"right": FORMAT_WORDS, "description": "goes before `Accept`"},
    )


class SeriesShoppingQuery(ShoppingQuery):
    """The same for a series, whole or for one release date."""

    release = date_field(load_default=None)


def _length(words: str) -> fields.Nested:
    return fields.Nested(LengthSchema, required=True, metadata={"description": words})


def _money(words: str) -> fields.Float:
    return fields.Float(required=True, allow_none=True, metadata={"description": words})


class BoughtSchema(Schema):
    """What is bought of a cloth, or saved."""

    buy = _length("in whole steps of the shop, shrinkage and straightening included")
    cost = _money("in the currency of the prices, to the cent; null where the price is not known")


class PlannedSchema(BoughtSchema):
    """A planned length of cloth and what is bought for it."""

    length = _length("what is cut from")
    lower_bound = _length("below this no plan is possible")
    proved = fields.Boolean(
        required=True, metadata={"description": "whether the length is the least there is"}
    )


class ShareSchema(Schema):
    """What one project takes of a cloth."""

    project = fields.String(required=True)
    fabrics = fields.List(
        fields.String(), required=True, metadata={"description": "the keys of the cloth in its document"}
    )
    one_kit = fields.Nested(PlannedSchema, required=True)
    kits = fields.Nested(PlannedSchema, required=True, metadata={"description": "all kits in one plan"})
    studio = fields.Nested(
        PlannedSchema,
        required=True,
        metadata={"description": "the studio's sample and its step-outs in one plan"},
    )


class SavedSchema(Schema):
    """What is saved by planning together."""

    kits_together = fields.Nested(
        BoughtSchema, required=True, metadata={"description": "`apart` less `by_project`"}
    )
    projects_together = fields.Nested(
        BoughtSchema, required=True, metadata={"description": "`by_project` less `at_once`"}
    )
    in_all = fields.Nested(BoughtSchema, required=True, metadata={"description": "`apart` less `at_once`"})


class OwnSchema(Schema):
    """What the studio takes for itself: a sample of every project, and its step-outs."""

    by_project = fields.Nested(BoughtSchema, required=True)
    at_once = fields.Nested(PlannedSchema, required=True)
    beyond_one_kit = fields.Nested(
        BoughtSchema, required=True, metadata={"description": "`by_project` less what one viewer takes"}
    )
    after_stash = fields.Nested(
        PlannedSchema,
        required=True,
        allow_none=True,
        metadata={"description": "`at_once`, when what is at home is cut first; null where nothing is"},
    )


class PriceSchema(Schema):
    """The price of a cloth."""

    amount = fields.Float(required=True)
    per = fields.Nested(LengthSchema, required=True)


class CountedSchema(Schema):
    """So many pieces."""

    count = fields.Integer(required=True)
    cost = _money("null where the price is not known")


class CountedPlanSchema(CountedSchema):
    """A planned number of pieces."""

    lower_bound = fields.Integer(required=True, metadata={"description": "fewer are never enough"})
    proved = fields.Boolean(required=True)


class CountedSavedSchema(Schema):
    """What is saved by planning together, in pieces."""

    kits_together = fields.Nested(CountedSchema, required=True)
    projects_together = fields.Nested(CountedSchema, required=True)
    in_all = fields.Nested(CountedSchema, required=True)


class CountedOwnSchema(Schema):
    """What the studio takes for itself, in pieces."""

    by_project = fields.Nested(CountedSchema, required=True)
    at_once = fields.Nested(CountedPlanSchema, required=True)
    beyond_one_kit = fields.Nested(CountedSchema, required=True)


class InPiecesSchema(Schema):
    """A cloth counted in the pieces it is sold as: the same figures as by the length."""

    name = fields.String(required=True, metadata={"example": "fat quarter"})
    width = fields.Nested(LengthSchema, required=True)
    length = fields.Nested(LengthSchema, required=True)
    price = _money("of one piece")
    one_kit = fields.Nested(CountedSchema, required=True)
    apart = fields.Nested(CountedSchema, required=True)
    by_project = fields.Nested(CountedSchema, required=True)
    at_once = fields.Nested(CountedPlanSchema, required=True)
    saved = fields.Nested(CountedSavedSchema, required=True)
    studio = fields.Nested(CountedOwnSchema, required=True)
    proved = fields.Boolean(required=True)


class ShoppingClothSchema(Schema):
    """One cloth: those of one name and one colour are the same."""

    name = fields.String(required=True)
    colour = fields.String(required=True)
    usable_width = fields.Nested(LengthSchema, required=True)
    one_way = fields.Boolean(required=True, metadata={"description": "its print or its pile has a direction"})
    price = fields.Nested(PriceSchema, required=True, allow_none=True)
    projects = fields.List(fields.Nested(ShareSchema), required=True)
    one_kit = fields.Nested(
        BoughtSchema,
        required=True,
        metadata={"description": "one viewer who makes every project on the list"},
    )
    apart = fields.Nested(BoughtSchema, required=True, metadata={"description": "every kit bought by itself"})
    by_project = fields.Nested(
        BoughtSchema, required=True, metadata={"description": "the kits of each project in one plan"}
    )
    at_once = fields.Nested(
        PlannedSchema, required=True, metadata={"description": "all kits of all projects in one plan"}
    )
    saved = fields.Nested(SavedSchema, required=True)
    studio = fields.Nested(OwnSchema, required=True)
    in_pieces = fields.Nested(
        InPiecesSchema,
        required=True,
        allow_none=True,
        metadata={"description": "where it is sold in pieces, and they hold everything cut from it"},
    )
    proved = fields.Boolean(required=True, metadata={"description": "whether every plan by the length is"})
    notes = fields.List(
        fields.String(), required=True, metadata={"description": "where the documents say different things"}
    )


class PacketSchema(Schema):
    """A size batting is sold in."""

    name = fields.String(required=True)
    width = fields.Nested(LengthSchema, required=True)
    height = fields.Nested(LengthSchema, required=True)


class BattingNeedSchema(Schema):
    """The batting of a project."""

    project = fields.String(required=True)
    width = fields.Nested(LengthSchema, required=True)
    height = fields.Nested(LengthSchema, required=True)
    sold_as = fields.Nested(PacketSchema, required=True, allow_none=True)
    kits = fields.Integer(required=True, metadata={"description": "how many for the kits"})
    studio = fields.Integer(required=True, metadata={"description": "how many for the studio"})


class FusibleNeedSchema(Schema):
    """The fusible web of a project, for some of its tracks."""

    project = fields.String(required=True)
    tracks = fields.List(fields.String(), required=True)
    counted_by = fields.String(required=True)
    mat = fields.String(required=True, metadata={"description": "the mat it is counted for, or empty"})
    width = _length("the width it is sold in")
    one_kit = _length("along the roll")
    kits = _length("along the roll, each kit by itself")


class ThreadUseSchema(Schema):
    """Thread for the pieces of a project."""

    project = fields.String(required=True)
    pieces = fields.Integer(required=True)
    about_metres = fields.Float(required=True)


class ThreadNeedSchema(Schema):
    """Thread of one name and colour for the edge finishes, as the stitch files sew them."""

    name = fields.String(required=True)
    colour = fields.String(required=True)
    projects = fields.List(fields.Nested(ThreadUseSchema), required=True)
    one_kit_about_metres = fields.Float(required=True)
    kits_about_metres = fields.Float(required=True)


class CostSchema(Schema):
    """What the cloths of a known price cost together; null where no price is known.

    A cloth counts by the length; where that price is not known, by the piece.
    """

    complete = fields.Boolean(required=True, metadata={"description": "whether every cloth has a price"})
    price_unknown = fields.List(
        fields.String(), required=True, metadata={"description": "the cloths that are not in the sums"}
    )
    one_kit = _money("one viewer who makes every project on the list")
    apart = _money("every kit bought by itself")
    by_project = _money("the kits of each project in one plan")
    at_once = _money("all kits of all projects in one plan")
    saved = _money("`apart` less `at_once`")
    studio = _money("the studio's samples and step-outs, project by project")
    studio_at_once = _money("the same in one plan")


class ShoppingProjectSchema(Schema):
    """A project on the list."""

    id = fields.String(required=True)
    title = fields.String(required=True)
    release = nullable()
    step_outs = fields.List(
        fields.String(), required=True, metadata={"description": "stages the studio sews ahead of filming"}
    )


class ShoppingSchema(Schema):
    """What to buy for so many kits."""

    series = nullable(metadata={"description": "the id of the series, where the list is for one"})
    release = nullable(metadata={"description": "the release date, where the list is for one"})
    kits = fields.Integer(required=True)
    measure = fields.String(
        required=True, metadata={"description": "in which lengths are written: in, mm or cm"}
    )
    projects = fields.List(fields.Nested(ShoppingProjectSchema), required=True)
    cloths = fields.List(fields.Nested(ShoppingClothSchema), required=True)
    batting = fields.List(fields.Nested(BattingNeedSchema), required=True)
    fusible = fields.List(fields.Nested(FusibleNeedSchema), required=True)
    threads = fields.List(fields.Nested(ThreadNeedSchema), required=True)
    cost = fields.Nested(CostSchema, required=True)
    proved = fields.Boolean(required=True, metadata={"description": "whether every plan takes least cloth"})
    notes = fields.List(fields.String(), required=True, metadata={"description": "what could not be counted"})
