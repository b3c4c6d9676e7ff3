"""What ticks have taught of set-ups, rates and paces, for whoever plans with them."""
