"""From a plan to what each cook reads."""
