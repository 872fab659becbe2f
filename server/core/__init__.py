"""The computation: pure functions of SI numbers on the standard library, NumPy and SciPy."""
