"""The live page: the panel on screen, explained where it is and edited in its own spec."""
