"""Use cases over what the studio keeps: keys, projects, outlines, the check, steps, releases. No web in here."""
