"""What texts mean: words, numbers, quantities with their units, ratings, designations.

    parse("10 µs/div")  ->  one run, Quantity(10, µs/div)
    parse("T1AL250V")   ->  one run, FuseRating(T, 1 A, L, 250 V)
    parse("RS-232 A")   ->  Designation("interface", "RS-232"), Space, Word("A")

The room knows no panels. Everything that asks what a text means asks it.
"""
