"""The wall's lane chart: lanes over time as geometry; a template turns it into SVG."""
