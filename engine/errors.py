"""What the engine raises. A check that fails is a result, not an exception."""


class EngineError(Exception):
    """Anything the engine refuses to compute."""


class BadInput(EngineError):
    """A value that cannot be meant: wrong sign, wrong unit, absurd size, nonsense text.

    Args:
        field: name of the input at fault ("" when no single one is).
        message: what to enter instead, in a full sentence.
    """

    def __init__(self, field: str, message: str) -> None:
        super().__init__(f"{field}: {message}" if field else message)
        self.field = field
        self.message = message


class OutOfScope(EngineError):
    """A rule does not cover the case; an attachment turns this into a `refer` line.

    Args:
        rule: the rule that ends here ("ACI 318-19 17.3.1").
        why: what is outside it, and what to bring to a licensed engineer.
    """

    def __init__(self, rule: str, why: str) -> None:
        super().__init__(f"{rule}: {why}")
        self.rule = rule
        self.why = why
