"""Judge: facts and the rulebook become findings. Knows the rule language; knows no woodworking."""
