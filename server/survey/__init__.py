"""A first survey: usual constructions, a guessed leakage, and a whole house from a short form."""
