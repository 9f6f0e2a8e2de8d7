"""What the program does with what it keeps, one module per noun. The only place where the web meets the engine's checks."""
