"""Legends: candidates for every marking, chosen together so that nothing overlaps and rows and columns agree."""
