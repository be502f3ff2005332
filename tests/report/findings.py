"""Findings of every kind, made up for the tests of reports."""

from __future__ import annotations

import string

from hypothesis import strategies as st

from kbgen.check.catalogue import RULES
from kbgen.diagnostics import Diagnostic, Label
from kbgen.place import Span

TEXTS = st.text(
    st.sampled_from("aé€\U0001f6e0%{}[]()<>#|`*:,;\\\n\r\t\x1b \u202e0" + string.ascii_letters), max_size=30
)
PATHS = st.text(st.sampled_from("ab é%:#?,;+&[]\\ \udcff"), min_size=1, max_size=12).map(lambda name: f"kb/{name}.yaml")


@st.composite
def spans(draw: st.DrawFn) -> Span:
    line, column = draw(st.integers(0, 500)), draw(st.integers(0, 200))
    end_line = line + draw(st.integers(0, 3))
    end_column = draw(st.integers(column if end_line == line else 0, 400))
    return Span(draw(PATHS), line, column, end_line, end_column)


LABELS = st.builds(Label, spans(), TEXTS)
FINDINGS = st.builds(Diagnostic, st.sampled_from(RULES), spans(), TEXTS, TEXTS, st.lists(LABELS, max_size=2).map(tuple))
