"""The print side: the marking brought onto the real pieces on a printer's bed."""
