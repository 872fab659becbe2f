"""The regions of a firm: read by everybody, changed by its lead, put into houses when asked."""
