"""Nitrogen in closed pipe: what the gauge shows of the gas as it is, and how much of it a test takes.

Pressures in Pa (gauge unless said), temperatures in degC, volumes in m3.
"""

from __future__ import annotations

from linewright.standards.pipework.formulas import KELVIN, BeyondError, gauge_at

#: Gas constant [J/(mol K)] (CODATA), and the attraction between molecules of nitrogen by van der Waals
#: [Pa m6/mol2] (handbooks of chemistry, from memory; cross-checked in tests/published/test_reading.py).
GAS_CONSTANT, ATTRACTION = 8.314462618, 0.1370
#: Above this the formula of the gas as it is was not checked [Pa].
MOST_CHECKED_PA = 6.0e6


def gauge_of_nitrogen(pressure_pa: float, air_pa: float, filled_degc: float, read_degc: float) -> float:
    """Gauge reading of nitrogen as it is: P + (P + Pa) / T1 (1 + a (P + Pa) / (R T1)^2) (T2 - T1) [Pa].

    At 4 MPa nitrogen gives way by a tenth more for each kelvin than (P + Pa) T2 / T1 has it. Within 2 % of the change
    up to 6 MPa, between -10 and 50 degC. Raises BeyondError above 6 MPa, or beyond temperatures of a site.
    """
    gauge_at(pressure_pa, air_pa, filled_degc, read_degc)
    if pressure_pa > MOST_CHECKED_PA:
        raise BeyondError(f"nitrogen at {pressure_pa / 1e6:g} MPa")
    absolute, t = pressure_pa + air_pa, filled_degc + KELVIN
    more = 1.0 + ATTRACTION * absolute / (GAS_CONSTANT * t) ** 2
    return pressure_pa + absolute / t * more * (read_degc - filled_degc)


def free_volume(volume_m3: float, pressure_pa: float, air_pa: float) -> float:
    """Gas at the pressure of the air that raises a closed volume to a gauge pressure: V P / Pa [m3]."""
    return volume_m3 * pressure_pa / air_pa


def bore_volume(od_m: float, wall_m: float, length_m: float) -> float:
    """Volume inside tube: pi / 4 (D - 2 t)^2 L [m3].

    Raises BeyondError for a wall that leaves no bore.
    """
    bore = od_m - 2.0 * wall_m
    if bore <= 0.0:
        raise BeyondError(f"a wall of {wall_m * 1000:g} mm in tube of {od_m * 1000:g} mm")
    return 0.7853981633974483 * bore * bore * length_m
