#!/usr/bin/env python3
"""Works the closed-form equations out a second time, from their published form, and reports the worst difference.

    recompute.py EQUATION FILE     FILE: CSV with a column of inputs each, and `result`, what soilhold made of them
    recompute.py --list            the equations known

Written from the equations as printed (docs/factors.md names the sources), apart from the program: each in the units it
was published in, angles by arctan, constants of conversion from their definitions. Exits 1 when a case differs by more
than 1e-9 of its value (of 1e-6 where the value is smaller), 2 when there is nothing to compare.
"""
import csv
import sys

import numpy as np

FOOT = 0.3048  # m
INCH = 25.4  # mm
ACRE = 43560 * FOOT**2 / 10000  # ha
SHORT_TON = 2000 * 0.45359237 / 1000  # t
FOOT_TONF = FOOT * 2000 * 0.45359237 * 9.80665 / 1e6  # MJ
K_SI = (SHORT_TON / ACRE) / (100 * FOOT_TONF / ACRE * INCH)  # t ha h/(ha MJ mm) for 1 US unit

KNOWN = {}


def equation(function):
    KNOWN[function.__name__] = function
    return function


def angle(gradient):
    return np.arctan(gradient)


# ---- rain


@equation
def unit_energy_537_us(i):
    e = 916 + 331 * np.log(i) / np.log(10)
    return np.where(i > 3, 1074, np.where(e < 0, 0, e))


@equation
def unit_energy_537(i):
    e = 0.119 + 0.0873 * np.log(i) / np.log(10)
    return np.where(i > 76, 0.283, np.where(e < 0, 0, e))


@equation
def unit_energy_brown_foster_us(i):
    return 1099 - 1099 * 0.72 / np.exp(1.27 * i)


@equation
def unit_energy_brown_foster(i):
    return 0.29 - 0.29 * 0.72 / np.exp(0.05 * i)


@equation
def erosivity_from_annual_rain(P):
    return np.where(P <= 850, 0.0483 * np.exp(1.61 * np.log(P)), 587.8 - 1.219 * P + 0.004105 * P**2)


@equation
def modified_fournier_index(**months):
    p = np.array([months[f"p{n}"] for n in range(1, 13)])
    return (p**2).sum(axis=0) / p.sum(axis=0)


@equation
def erosivity_from_fournier_index(F):
    return np.where(F < 55, 0.7397 * np.exp(1.847 * np.log(F)), 95.77 - 6.081 * F + 0.477 * F**2)


@equation
def erosivity_rango_arnoldus(F):
    return np.exp(np.log(10) * 1.29) * F**1.74


@equation
def erosivity_arnoldus_1980(F):
    return np.where(4.17 * F > 152, 4.17 * F - 152, 0)


@equation
def erosivity_from_six_hour_rain_us(P):
    return 27.38 * np.exp(2.17 * np.log(P))


# ---- soil


@equation
def nomograph_us(silt, vfs, clay, om, b, c):
    M = (silt + vfs) * (100 - clay)
    a = np.where(om > 4, 4, om)
    hundred_K = 2.1e-4 * M**1.14 * (12 - a) + 3.25 * (b - 2) + 2.5 * (c - 3)
    return np.where(hundred_K < 0, 0, hundred_K / 100)


@equation
def nomograph_rounded_si(silt, vfs, clay, om, b, c):
    M = (silt + vfs) * (100 - clay)
    a = np.where(om > 4, 4, om)
    K = 2.8e-7 * M**1.14 * (12 - a) + 4.3e-3 * (b - 2) + 3.3e-3 * (c - 3)
    return np.where(K < 0, 0, K)


@equation
def nomograph_si(silt, vfs, clay, om, b, c):
    return nomograph_us(silt, vfs, clay, om, b, c) * K_SI


@equation
def geometric_mean_diameter(sand, silt, clay):
    # The mean of each class's limits: clay 0-0.002, silt 0.002-0.05, sand 0.05-2 mm.
    return 0.001 ** (clay / 100) * 0.026 ** (silt / 100) * 1.025 ** (sand / 100)


@equation
def erodibility_from_diameter(Dg):
    z = (np.log(Dg) / np.log(10) + 1.659) / 0.7101
    return 0.0034 + 0.0405 / np.exp(z**2 / 2)


@equation
def erodibility_from_diameter_us_soils(Dg):
    z = (np.log(Dg) / np.log(10) + 1.675) / 0.6986
    return 0.0017 + 0.0494 / np.exp(z**2 / 2)


@equation
def texture_carbon_us(sand, silt, clay, carbon):
    SN1 = 1 - sand / 100
    coarse = 0.2 + 0.3 / np.exp(0.0256 * sand * (1 - silt / 100))
    fines = (silt / (clay + silt)) ** 0.3
    organic = 1 - 0.25 * carbon / (carbon + np.exp(3.72 - 2.95 * carbon))
    sandy = 1 - 0.7 * SN1 / (SN1 + np.exp(-5.51 + 22.9 * SN1))
    return coarse * fines * organic * sandy


@equation
def volcanic_us(x1, x2, x3, x4, x5):
    return np.dot([0.00311, 0.00043, 0.00185, 0.00258, -0.00823], [x1, x2, x3, x4, x5]) - 0.0397


@equation
def midwest_us(x6, x7, x8, x2, x9):
    return np.dot([0.385, -0.013, 0.247, 0.003, -0.005], [x6, x7, x8, x2, x9]) - 0.204


# ---- slope: lengths come in m, the handbooks' unit plot is 72.6 ft


def L(metres, m):
    return (metres / FOOT / 72.6) ** m


def m_537(gradient):
    percent = 100 * gradient
    return np.select([percent < 1, percent < 3.5, percent < 5], [0.2, 0.3, 0.4], 0.5)


def m_703(gradient, beta_times):
    s = np.sin(angle(gradient))
    # McCool et al. as one fraction for a moderate ratio: s/(s + 0.269 s^0.8 + 0.05); 0.269 and 0.05 are rounded
    # products of 0.0896, written out here. Half or double beta for a low or high ratio.
    rest = 0.0896 * (3 * s**0.8 + 0.56)
    return beta_times * s / (beta_times * s + rest)


def S_537(gradient):
    s = np.sin(angle(gradient))
    return 65.41 * s**2 + 4.56 * s + 0.065


def S_703(gradient):
    s = np.sin(angle(gradient))
    return np.where(gradient < 0.09, 10.8 * s + 0.03, 16.8 * s - 0.5)


@equation
def length_factor_537(length, gradient):
    return L(length, m_537(gradient))


@equation
def length_factor_703_low(length, gradient):
    return L(length, m_703(gradient, 0.5))


@equation
def length_factor_703_moderate(length, gradient):
    return L(length, m_703(gradient, 1))


@equation
def length_factor_703_high(length, gradient):
    return L(length, m_703(gradient, 2))


@equation
def steepness_factor_537(gradient):
    return S_537(gradient)


@equation
def early_steepness_factor(gradient):
    x = np.sin(angle(gradient))
    return (430 * x**2 + 30 * x + 0.43) / 6.613


@equation
def steepness_factor_703(gradient):
    return S_703(gradient)


@equation
def short_slope_steepness_factor_703(gradient):
    return 3 * np.exp(0.8 * np.log(np.sin(angle(gradient)))) + 0.56


@equation
def thawing_steepness_factor_703(gradient):
    s = np.sin(angle(gradient))
    return np.where(gradient < 0.09, 10.8 * s + 0.03, (s / 0.0896) ** 0.6)


@equation
def slope_factor_537(length, gradient):
    return L(length, m_537(gradient)) * S_537(gradient)


@equation
def slope_factor_703_low(length, gradient):
    return L(length, m_703(gradient, 0.5)) * S_703(gradient)


@equation
def slope_factor_703_moderate(length, gradient):
    return L(length, m_703(gradient, 1)) * S_703(gradient)


@equation
def slope_factor_703_high(length, gradient):
    return L(length, m_703(gradient, 2)) * S_703(gradient)


@equation
def segment_loss_share(j, N, m):
    return (j / N) ** (m + 1) - ((j - 1) / N) ** (m + 1)


@equation
def irregular_slope_537(length, m, g1, g2, g3):
    shares = [segment_loss_share(j, 3, m) for j in (1, 2, 3)]
    return L(length, m) * sum(share * S_537(g) for share, g in zip(shares, (g1, g2, g3)))


@equation
def irregular_slope_703(x1, x2, x3, g1, g2, g3):
    x1, x2, x3 = (x / FOOT for x in (x1, x1 + x2, x1 + x2 + x3))
    total, above = 0, 0 * x1
    for below, gradient in ((x1, g1), (x2, g2), (x3, g3)):
        m = m_703(gradient, 1)
        total = total + S_703(gradient) * (below ** (m + 1) - above ** (m + 1)) / 72.6**m
        above = below
    return total / x3


@equation
def unit_area_slope_factor(As, gradient):
    return (As / 22.13) ** 0.4 * (np.sin(angle(gradient)) / 0.0896) ** 1.3


@equation
def grid_cell_length_factor(A, D, m, aspect):
    # Multiplied out by D^(2m+2): the same equation with the inflow counted in cells.
    cells, x = A / D**2, np.abs(np.sin(aspect)) + np.abs(np.cos(aspect))
    return ((cells + 1) ** (m + 1) - cells ** (m + 1)) * (D / (x * 22.13)) ** m


# ---- cover


@equation
def canopy_subfactor(Fc, height):
    return 1 - Fc / np.exp(0.1 * height / FOOT)


@equation
def surface_cover_subfactor(cover, b, roughness):
    Sp, Ru = 100 * cover, roughness / INCH
    return 1 / np.exp(b * Sp * (0.24 / Ru) ** 0.08)


@equation
def surface_roughness_subfactor(roughness):
    return 1 / np.exp(0.66 * (roughness / INCH - 0.24))


@equation
def prior_land_use_subfactor(Cf, roots, buried):
    # Equation 5-9 as the erratum of 2001 has it: the minus stands before the bracket.
    return 0.951 * Cf / np.exp(0.00199 * roots + 0.000416 * buried / Cf**0.5)


@equation
def residue_cover_pct(mass, a):
    return 100 - 100 / np.exp(a * mass)


@equation
def roughness_left(rain, EI):
    return np.exp(-0.07 * rain - 0.006 * EI)


@equation
def roughness_after_operation(tabled, biomass):
    return INCH * (0.24 + (tabled / INCH - 0.24) * (1 - 0.8 / np.exp(0.0012 * biomass)))


# ---- practice, depth, delivery


@equation
def off_grade_contour(Po, row, land):
    return 1 - (1 - Po) * (1 - (row / land) ** 0.5)


@equation
def depth_of_loss_mm(loss, density):
    return loss * 1000 / (10000 * density * 1000) * 1000  # kg/ha over m2/ha and kg/m3, in mm


@equation
def delivery_ratio_vanoni(area):
    return np.minimum(1, 0.4724 * np.exp(-0.125 * np.log(area)))


@equation
def delivery_ratio_scs(area):
    return np.minimum(1, 0.5656 * np.exp(-0.11 * np.log(area)))


@equation
def delivery_ratio_boyce(area):
    return np.minimum(1, 0.41 * np.exp(-0.3 * np.log(area)))


@equation
def delivery_ratio_by_distance(D):
    return np.minimum(1, np.exp(1.1 - 0.34 * np.log(D)))


def main():
    if sys.argv[1:] == ["--list"]:
        print("\n".join(KNOWN))
        return 0
    name, path = sys.argv[1:]
    with open(path, newline="") as stream:
        rows = list(csv.reader(stream))
    columns = dict(zip(rows[0], np.array(rows[1:], dtype=float).T))
    if name not in KNOWN or len(rows) < 2:
        print(f"nothing to compare for {name}")
        return 2
    result = columns.pop("result")
    expected = KNOWN[name](**columns) * np.ones_like(result)
    difference = np.abs(result - expected) / np.maximum(np.abs(expected), 1e-6)
    worst = int(np.argmax(np.where(np.isfinite(difference), difference, np.inf)))
    print(f"{name}: {len(result)} cases, worst relative difference {difference[worst]:.2e}")
    if difference[worst] <= 1e-9:
        return 0
    inputs = ", ".join(f"{key}={values[worst]!r}" for key, values in columns.items())
    print(f"  {inputs}: soilhold {result[worst]!r}, recomputed {expected[worst]!r}")
    return 1


if __name__ == "__main__":
    sys.exit(main())
