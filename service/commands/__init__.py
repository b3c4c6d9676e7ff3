"""The commands' work; their names and options stand in ``service.cli``."""
