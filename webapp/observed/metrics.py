"""Counts for Prometheus, served on a port of their own and only when one is set."""

from prometheus_client import CollectorRegistry, Counter, Histogram, start_http_server

BUCKETS_S = (0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0)


class Metrics:
    """Counts of one application."""

    def __init__(self) -> None:
        self.registry = CollectorRegistry()
        self._answers = Counter(
            "wallseat_answers", "Requests answered", ("method", "route", "status"), registry=self.registry
        )
        self._seconds = Histogram(
            "wallseat_answer_seconds", "Time to answer", ("route",), buckets=BUCKETS_S, registry=self.registry
        )
        self._slow = Counter("wallseat_slow_statements", "Database statements that took long", registry=self.registry)

    def answered(self, method: str, route: str, status: int, seconds: float) -> None:
        """One request more."""
        self._answers.labels(method, route, str(status)).inc()
        self._seconds.labels(route).observe(seconds)

    def slow(self) -> None:
        """One slow statement more."""
        self._slow.inc()

    def serve(self, host: str, port: int) -> None:
        """Answer on a port, in a thread that ends with the program. Raises: OSError where it can't be had."""
        start_http_server(port, addr=host, registry=self.registry)
