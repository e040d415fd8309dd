"""A first panel from a list: parts measured with their legends, arranged in rows and zones, written as a spec."""
