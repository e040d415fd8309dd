"""One representation that every file is written from: shapes in named inks on named layers, in millimetres."""
