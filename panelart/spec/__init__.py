"""The spec: its language as a table, and the way from the text a designer wrote to the resolved panel."""
