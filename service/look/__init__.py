"""The look that handouts, drawings and pages share: palette and type."""
