"""The plan of the coming days, the services it is for, and closing them."""
