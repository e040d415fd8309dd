"""Outlines drawn elsewhere: DXF and SVG files read, within bounds, into one closed outline and the holes in it.

Lines and circular arcs are taken as they are; curves of other kinds become arcs within a stated tolerance. What leaves
a doubt about the metal is refused with its place. ezdxf is loaded only when a DXF file is read.
"""
