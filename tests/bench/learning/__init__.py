"""Sixty days of invented kitchens, planned with the file's figures and with what is learned."""
