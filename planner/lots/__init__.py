"""From quantities to lots: the units the solver places."""
