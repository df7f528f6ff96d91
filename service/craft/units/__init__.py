"""One file a kind of unit: its geometry, its cut sizes, its ways of making."""
