"""What is frozen when a job is submitted, and how two frozen revisions differ."""
