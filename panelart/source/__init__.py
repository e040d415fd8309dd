"""What the user wrote, read with its places: YAML text to nodes, nodes by a table of kinds to typed values.

Nothing here knows panels: specs, catalogue files and limit files are all read with it.
"""
