"""Migrations, packaged so that an installed program can bring its database up to date."""
