"""What whoever runs an installation can see of it: a line a request, slow statements, counts. None of it names a person."""
