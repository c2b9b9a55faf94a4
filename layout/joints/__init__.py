"""One file a joint family, all of one shape.

Every joint file holds: a frozen record of the maker's choices; a frozen record of the sizes
worked out; `sizes(...)` from one to the other; and `work(...)` (or one for each part), which
gives the Worked (cuts, marks and sums), from where the parts stand.
"""
