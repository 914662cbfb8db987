"""Trade: lumber sizes, woods, screws and hardware, read from `rules/tables/`."""
