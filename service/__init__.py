"""Stores, serves and composes: database, HTTP, command line."""
