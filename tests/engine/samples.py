"""Inputs of any kind drawn from their whole stated ranges."""

from hypothesis import strategies as st

from engine import fields


def within_ranges(inputs: type) -> st.SearchStrategy:
    """Every field anywhere in its range, optional ones sometimes missing."""
    return st.builds(inputs, **{s.name: _values(s) for s in fields.specs(inputs)})


def _values(spec: fields.Spec) -> st.SearchStrategy:
    if spec.kind == "number":
        # six decimals: finer than anybody types
        some = st.floats(spec.low, spec.high, allow_nan=False).map(lambda x: min(max(round(x, 6), spec.low), spec.high))
    elif spec.kind == "count":
        some = st.integers(int(spec.low), int(spec.high))
    elif spec.kind == "choice":
        return st.sampled_from([value for value, _ in spec.options])
    elif spec.kind == "yes":
        return st.booleans()
    elif spec.kind == "date":
        return st.sampled_from(["", "2020-01-01", "2026-11-25", "2031-06-30"])
    else:
        return st.sampled_from(["", "R-100", "{a} <b>"])
    return st.one_of(st.none(), some) if spec.optional else some
