"""A straight-seam block as a planar subdivision: does it cover, along which seams is it sewn, how is it cut."""
