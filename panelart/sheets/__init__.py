"""Documents for people: the proof now, each made of drawings so that every writer can print it."""
