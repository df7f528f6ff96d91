"""The language of a project: lengths, cloth, units, pieces, tracks, the document. Pure."""
