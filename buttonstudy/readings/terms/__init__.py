"""The trade's terms, with their synonyms, states and unknowns."""
