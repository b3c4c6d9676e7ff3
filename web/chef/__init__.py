"""The sous chef's pages: the day, its plan as it is made, releases, comparisons."""
