"""What is entered for one day: covers and menu mix, who is in, what is on hand."""
