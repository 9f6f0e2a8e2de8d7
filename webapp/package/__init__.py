"""The calculation package on paper: written from what was frozen, typeset part by part, bound into one PDF."""
