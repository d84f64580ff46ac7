"""TOML is read as the library reads it, unless its keys lie deeper than anyone writes them."""

import pytest

from model.survey.toml_text import DEEPEST, toml_tables


def test_dots_in_figures_and_sentences_are_no_keys():
    curve = ", ".join(["0.5"] * 200)
    text = f'# {"." * 500}\nx = [{curve}]\n[a.b."c d"]\ny = "see a.b.c, and so on ..."\n'
    assert toml_tables(text) == {"x": [0.5] * 200, "a": {"b": {"c d": {"y": text.split('"')[3]}}}}


@pytest.mark.parametrize("key", ["a", '"a b"', "'a'", " a "])
def test_deep_keys_are_refused_by_their_line(key):
    with pytest.raises(ValueError, match="at line 2"):
        toml_tables("x = 1\n" + f".{key}".join(["a"] * (DEEPEST + 2)) + " = 1\n")
