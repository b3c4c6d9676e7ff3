"""What holds the tasks of a plan where they are, and problems changed so that it would not."""
