"""The program under load: a real server process, many visitors at once, for as long as is asked."""
