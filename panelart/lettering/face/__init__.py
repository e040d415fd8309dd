"""Our own panel face: strokes in readable source, spacing measured on them, and the fonts built from both.

``python -m panelart.lettering.face`` builds the fonts; see ``fonts/README.md`` for the grammar of the source.
"""
