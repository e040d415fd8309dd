"""Component lists as designers have them: tables in any usual form, read loosely and without a silent guess."""
