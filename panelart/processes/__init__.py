"""The marking processes: one module each, and the registry that names them."""
