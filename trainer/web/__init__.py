"""The pages: server-rendered, usable without script, one module a page family."""
