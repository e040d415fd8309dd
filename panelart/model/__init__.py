"""The frozen nouns of the trade, in millimetres, x right, y up, seen from the front."""
