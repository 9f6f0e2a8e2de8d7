"""Every parser as a target for fuzzing: what it may raise is a clean refusal, anything else is a fault."""
