"""Whole journeys in a real browser, and checks of every page: marker `browser`, skipped where there is none."""
