"""Calculation engine: pure functions from typed inputs to a defended verdict. It knows nothing of the web."""

VERSION = "0.4.0"
