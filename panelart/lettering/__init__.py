"""Lettering: fonts opened, words set, outlines in millimetres measured on the ink."""
