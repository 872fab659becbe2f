"""Geometry of pictures; templates draw them as SVG."""
