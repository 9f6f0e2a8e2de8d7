"""Placing concrete in the walls of one circuit: lifts, rates, form pressure, weather, hold points."""
