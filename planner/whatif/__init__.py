"""What if: a changed kitchen, planned beside the kitchen as it is."""
