"""One function a thing a person does; the only writers of the record book."""
