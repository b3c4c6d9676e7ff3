"""What work really takes: set-ups, rates and paces learned from ticked batches, and its chances."""
