"""Whole numbers of a last decimal place as text: no float, so no wobble and no negative zero."""


def decimal_text(units: int, places: int, *, trim: bool = False) -> str:
    """`units` of the last of `places` decimals: (1588, 2) is `15.88`.

    trim : bool — drop zeros, and then the point, from the end of the decimals
    """
    digits = str(abs(units)).rjust(places + 1, "0")
    sign = "-" if units < 0 else ""
    if not places:
        return sign + digits
    decimals = digits[-places:]
    if trim:
        decimals = decimals.rstrip("0")
    return sign + digits[:-places] + ("." + decimals if decimals else "")
