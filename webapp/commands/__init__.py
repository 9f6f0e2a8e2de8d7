"""What `wallseat` does at the command line, one module a command."""
