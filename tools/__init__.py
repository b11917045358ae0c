"""The project's own tools: setting up and running its tasks, with make or without."""
