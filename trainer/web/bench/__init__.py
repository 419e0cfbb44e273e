"""The workbench: recipes and the arithmetic of tempering, cooling and portions; nothing is saved."""
