"""The demo kitchen: an invented restaurant whose past is played through the same actions a person uses."""
