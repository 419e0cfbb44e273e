"""Recipe math that stands alone: quantities, scaling, buying, dough, portions."""
