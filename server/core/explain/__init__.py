"""Every figure of a result, taken apart: formula, inputs, source, share of the whole."""
