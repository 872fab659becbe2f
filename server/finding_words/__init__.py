"""Findings in sentences: what was found, what mends it, and where that is published."""
