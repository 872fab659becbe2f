"""A strategy told in plain sentences: each change by itself, then the house as a whole."""

from server.recipes.change_words import change_in_words
from server.recipes.strategy_words import strategy_in_words

__all__ = ["change_in_words", "strategy_in_words"]
