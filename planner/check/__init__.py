"""The independent checker: proves a plan without any of the solver's code."""
