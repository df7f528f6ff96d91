"""How light the paper is all over a picture, so that uneven light is not taken for ink."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Grey = NDArray[np.float32]
Tiles = NDArray[np.float64]

TILE_PX = 32
"""Light changes little over so many pixels (2.7 mm at 300 dots an inch)."""

PAPER_SHARE = 0.9
"""The lightest tenth of a tile is paper wherever the tile shows some."""

CLOSED_TILES = 2
"""Dips up to twice this wide in tiles are shapes, not light."""

STILL_PAPER = 0.85
"""A tile this light against the light all round is paper; a darker one lies inside a shape."""

LIGHTEST = 0.95
"""So near to the lightest tiles all is paper."""

STEADY = 0.06
"""The light of two tiles side by side differs by less."""


def even_out(grey: Grey, light: Tiles) -> Grey:
    """The picture divided by its paper: paper is about 1 everywhere, ink as much less as it reflects less.

    The light stands in the middle of tiles, and is straight between them. A row of tiles at a time stays in the
    processor's memory: whole pages are slow to pass over.
    """
    rows, columns = grey.shape
    above, share = _between_tiles(rows, light.shape[0])
    left, aside = _between_tiles(columns, light.shape[1])
    right = np.minimum(left + 1, light.shape[1] - 1)
    across = (light[:, left] * (1 - aside) + light[:, right] * aside).astype(np.float32)
    below, part_of = np.minimum(above + 1, len(across) - 1), share.astype(np.float32)[:, None]
    evened = np.empty(grey.shape, dtype=np.float32)
    for first in range(0, rows, TILE_PX):
        part = slice(first, first + TILE_PX)
        paper = across[above[part]] * (1 - part_of[part])
        paper += across[below[part]] * part_of[part]
        np.divide(grey[part], paper, out=evened[part])
    return evened


def _between_tiles(pixels: int, tiles: int) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """For each pixel of a row the tile whose middle lies before it, and its share of the way to the next."""
    place = np.clip((np.arange(pixels) + 0.5) / TILE_PX - 0.5, 0, tiles - 1)
    before = place.astype(np.intp)
    return before, place - before


def paper_map(tiles: Tiles) -> Tiles:
    """The grey of the paper, tile by tile; inside shapes as the light round them lets expect."""
    seen = _close(tiles)
    expected = _fit_light(seen)
    paper = np.where(seen > STILL_PAPER * expected, seen, expected)
    return np.maximum(_average(paper), 1.0)


def spread_paper(tiles: Tiles) -> Tiles:
    """The grey of the paper where shapes cover much of it: paper is what hangs together with the lightest tiles.

    From one tile to the next light changes little; to a shape, however light, it changes at once.
    """
    is_paper = tiles >= LIGHTEST * np.percentile(tiles, 98)
    for _ in range(sum(tiles.shape)):
        padded = np.pad(np.where(is_paper, tiles, 0.0), 1)
        near = [padded[1:-1, :-2], padded[1:-1, 2:], padded[:-2, 1:-1], padded[2:, 1:-1]]
        again = is_paper | np.any(
            [np.abs(tiles / np.maximum(one, 1e-6) - 1) < STEADY for one in near], axis=0
        )
        if (again == is_paper).all():
            break
        is_paper = again
    expected = _surface(tiles, is_paper)
    return np.maximum(_average(np.where(is_paper, tiles, expected)), 1.0)


def light_of_tiles(grey: Grey) -> Tiles:
    """How light the lightest tenth of each tile is."""
    thin = grey[::4, ::4]
    side = TILE_PX // 4
    over = [(-n) % side for n in thin.shape]
    padded = np.pad(thin, ((0, over[0]), (0, over[1])), mode="edge")
    rows, columns = padded.shape[0] // side, padded.shape[1] // side
    tiles = padded.reshape(rows, side, columns, side).swapaxes(1, 2).reshape(rows, columns, side * side)
    rank = int(PAPER_SHARE * (side * side - 1))
    return np.partition(tiles, rank, axis=2)[:, :, rank].astype(np.float64)


def _close(tiles: Tiles) -> Tiles:
    """The largest of the neighbours, then the smallest: dips that are narrower are filled."""
    return np.negative(_largest(np.negative(_largest(tiles))))


def _largest(tiles: Tiles) -> Tiles:
    reach = CLOSED_TILES
    padded = np.pad(tiles, reach, mode="edge")
    wide = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1, axis=0).max(axis=-1)
    return np.asarray(np.lib.stride_tricks.sliding_window_view(wide, 2 * reach + 1, axis=1).max(axis=-1))


def _fit_light(tiles: Tiles) -> Tiles:
    """A quadratic surface through the tiles that are paper, found by leaving out what lies well below it."""
    terms, values = _terms(tiles), tiles.ravel()
    kept = values > 0.6 * np.percentile(values, 95)
    fitted = values
    for _ in range(8):
        fitted = _fit(terms, values, kept)
        again = values > STILL_PAPER * fitted
        if not again.any() or (again == kept).all():
            break
        kept = again
    return np.clip(fitted, 1.0, 255.0).reshape(tiles.shape)


def _surface(tiles: Tiles, kept: NDArray[np.bool_]) -> Tiles:
    fitted = _fit(_terms(tiles), tiles.ravel(), kept.ravel())
    return np.clip(fitted, 1.0, 255.0).reshape(tiles.shape)


def _terms(tiles: Tiles) -> Tiles:
    y, x = np.meshgrid(*(np.linspace(-1, 1, n) if n > 1 else np.zeros(1) for n in tiles.shape), indexing="ij")
    return np.stack([np.ones_like(x), x, y, x * x, x * y, y * y], axis=-1).reshape(-1, 6)


def _fit(terms: Tiles, values: Tiles, kept: NDArray[np.bool_]) -> Tiles:
    # a hair of weight on small coefficients: few tiles must not swing the surface
    left = terms[kept].T @ terms[kept] + 1e-3 * np.eye(6)
    return np.asarray(terms @ np.linalg.solve(left, terms[kept].T @ values[kept]))


def _average(tiles: Tiles) -> Tiles:
    padded = np.pad(tiles, 1, mode="edge")
    rows, columns = tiles.shape
    shifted = [padded[r : r + rows, c : c + columns] for r in range(3) for c in range(3)]
    return np.asarray(np.mean(shifted, axis=0))
