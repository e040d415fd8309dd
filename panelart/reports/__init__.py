"""Findings for their readers: an inspection in, a text out. One module a form; none decides what is a finding."""
