"""What each command does once its arguments are read: one module a command, each with `run(wanted)`."""
