"""Plants one named mistake in a sound plan: for the table of what the audit finds, and for learners' exercises."""
