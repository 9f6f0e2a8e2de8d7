"""Spreadsheets into a job: a sheet as a plain table, its columns matched to inputs, its rows read by the engine's own readers.

`read.review` is the whole of it: rows that hold become a batch for `webapp.services.imports`, the others say by cell why not.
"""
