"""What both sides share, and the web side."""
