"""Everything drawn, as SVG, in one style (see `styles` for the lines and `cloth` for colour and hatch)."""

from service.craft.drawing.cloth import draw_cloth_legend, draw_cloth_swatch, draw_swatch, used_cloths
from service.craft.drawing.crosses import CrossView
from service.craft.drawing.cut_diagram import draw_cuts
from service.craft.drawing.cut_views import CutView, view_cuts
from service.craft.drawing.exploding import draw_exploded, take_apart
from service.craft.drawing.lines import draw_lines
from service.craft.drawing.sheet import Sheet, measure_height_mm
from service.craft.drawing.signs import draw_tick_box
from service.craft.drawing.stages import draw_key, draw_stage
from service.craft.drawing.strips import draw_strips
from service.craft.drawing.top import draw_top, draw_unit, lay_out_top, put_top
from service.craft.drawing.views import (
    ClothView,
    ColumnInStrip,
    CutInStrip,
    PatchView,
    PieceView,
    SeamView,
    StageView,
    StripView,
    TopView,
    view_cloths,
    view_patches,
    view_pieces,
    view_top,
    view_unit,
)

__all__ = [
    "ClothView",
    "ColumnInStrip",
    "CrossView",
    "CutInStrip",
    "CutView",
    "PatchView",
    "PieceView",
    "SeamView",
    "Sheet",
    "StageView",
    "StripView",
    "TopView",
    "draw_cloth_legend",
    "draw_cloth_swatch",
    "draw_cuts",
    "draw_exploded",
    "draw_key",
    "draw_lines",
    "draw_stage",
    "draw_strips",
    "draw_swatch",
    "draw_tick_box",
    "draw_top",
    "draw_unit",
    "lay_out_top",
    "measure_height_mm",
    "put_top",
    "take_apart",
    "used_cloths",
    "view_cloths",
    "view_cuts",
    "view_patches",
    "view_pieces",
    "view_top",
    "view_unit",
]
