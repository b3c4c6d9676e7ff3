"""What food and hands cost, down to the dish; and what a better yield or rate is worth."""
