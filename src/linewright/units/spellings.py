"""One spelling for the many ways in which a keyboard or a word processor writes a quantity."""

#: Longer texts are not quantities; the bound keeps a hostile file from costing time.
LONGEST = 60

_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}

_SAME = str.maketrans(
    {
        **dict.fromkeys("\u2032\u2018\u2019\u02b9\u00b4", "'"),  # prime, curly quotes, acute
        **dict.fromkeys("\u2033\u201c\u201d\u02ba", '"'),  # double prime, curly double quotes
        **dict.fromkeys("\u2212\u2010\u2011\u2013", "-"),  # minus, hyphens, en dash
        **dict.fromkeys("\u00ba\u02da", "°"),  # masculine ordinal, ring above
        "\u2103": "°C",
        "\u2109": "°F",
        "\u212a": "K",
        "\u2044": "/",  # fraction slash
        # The spaces keep the digits of a fraction from joining those beside it.
        **{sign: f" {fraction} " for sign, fraction in _VULGAR.items()},
    }
)


def normal(text: str) -> str:
    """`text` in plain ASCII quotes, minus and fractions, with single spaces and none at a slash."""
    if not text.isascii():
        text = text.translate(_SAME)
    words = " ".join(text.split())
    return words.replace(" /", "/").replace("/ ", "/").replace("''", '"')
