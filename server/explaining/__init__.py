"""Explanations of figures as people read them: words, set formulas, inputs with their basis."""
