"""Tests; the folders below follow the floors of the program."""
