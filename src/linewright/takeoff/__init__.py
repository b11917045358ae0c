"""What has to be bought for a design: tube in lengths that are sold, fittings, insulation, refrigerant; its cost."""

from linewright.takeoff.by_system import Need, Needs, needs
from linewright.takeoff.counting import take_off
from linewright.takeoff.prices import Cost, Unpriced, cost, invented_prices
from linewright.takeoff.reading import read_prices, read_stock
from linewright.takeoff.records import Cutting, Gap, Kind, Line, Material, Piece, TakeOff
from linewright.takeoff.settings import Per, PriceList, PriceRow, Settings, Stock, StockForm, StockRow

__all__ = [
    "Cost",
    "Cutting",
    "Gap",
    "Kind",
    "Line",
    "Material",
    "Need",
    "Needs",
    "Per",
    "Piece",
    "PriceList",
    "PriceRow",
    "Settings",
    "Stock",
    "StockForm",
    "StockRow",
    "TakeOff",
    "Unpriced",
    "cost",
    "invented_prices",
    "needs",
    "read_prices",
    "read_stock",
    "take_off",
]
