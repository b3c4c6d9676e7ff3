"""Pure domain and solver: from a kitchen file to a timed plan. No I/O, no SQL, no HTTP.

The packages follow the data's way: ``kitchen`` (what exists), ``demand`` (portions to be ready
for), ``quantities`` (what to pull and make), ``lots`` (the units of work), ``schedule`` (who, where
and when), ``check`` (an independent proof of each plan), ``sheet`` (what each cook reads) and
``labor`` (where the minutes go).
"""
