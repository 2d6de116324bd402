#!/usr/bin/env python3
"""Best arm under the exact law of a pivoted arm by SciPy's general optimisers; and the harmonics of the groove's
kinematics by brute force. Prints JSON. Run: python3 checks/geometry/exact_optimum.py > checks/geometry/exact_optimum.json

Independent of the program: no closed form, no exchange of peaks, no Gauss-Newton. Minimax: dense grid and Nelder-Mead.
Least squares: adaptive quadrature and Nelder-Mead.
"""
import json
import sys
import numpy as np
from scipy.integrate import quad
from scipy.optimize import minimize, minimize_scalar

INNER = (60.325, 57.5)
OUTER = 146.05
DISTANCES = (180.0, 222.0, 290.0, 450.0)
# one pivot distance as an argument makes that part alone, for the first inner radius
if len(sys.argv) > 1:
    INNER, DISTANCES = INNER[:1], (float(sys.argv[1]),)


def w(r, L, d, phi):
    return np.tan(np.arcsin((r * r + L * L - d * d) / (2 * r * L)) - phi) / r


def nulls(L, d, phi):
    half = L * np.sin(phi)
    root = np.sqrt(half * half - (L * L - d * d))
    return [half - root, half + root]


def polish(f, x):
    """Nelder-Mead, started again from where it stopped until nothing changes."""
    for _ in range(6):
        start = np.array(x, float)
        simplex = np.array([start, start + [0.2, 0], start + [0, 0.2]])
        x = minimize(f, start, method='Nelder-Mead', options=dict(xatol=1e-10, fatol=1e-15, maxiter=5000, initial_simplex=simplex)).x
        if np.max(np.abs(x - start)) < 1e-9:
            break
    return x


def minimax(ri, ro, d):
    r = np.linspace(ri, ro, 6001)
    f = lambda p: 1e4 * np.max(np.abs(w(r, p[0], d, np.radians(p[1]))))
    L0 = np.sqrt(d * d + 8000)
    x = polish(f, [L0, np.degrees(np.arcsin(93 / L0))])
    return x[0], np.radians(x[1])


def least_squares(ri, ro, d):
    nodes, weights = np.polynomial.legendre.leggauss(80)
    r = (ro - ri) / 2 * nodes + (ro + ri) / 2
    f = lambda p: 1e8 * np.sum(weights * w(r, p[0], d, np.radians(p[1])) ** 2)
    L0 = np.sqrt(d * d + 8100)
    x = polish(f, [L0, np.degrees(np.arcsin(93 / L0))])
    return x[0], np.radians(x[1])


def overhang_only(ri, ro, d, linear_offset):
    f = lambda L: 1e8 * quad(lambda r: w(r, L, d, np.arcsin(linear_offset / L)) ** 2, ri, ro, epsabs=1e-16, epsrel=1e-12)[0]
    L0 = np.sqrt(d * d + 8100)
    L = minimize_scalar(f, bounds=(L0 - 4, L0 + 4), method='bounded', options=dict(xatol=1e-10)).x
    return L, np.arcsin(linear_offset / L)


def harmonic(ratio, degrees, n=4096):
    """Second harmonic of the velocity of a stylus that reads a sine groove along a line turned by an angle."""
    e = ratio * np.tan(np.radians(degrees))
    x = 2 * np.pi * np.arange(n) / n
    y = np.sin(x)
    for _ in range(200):
        y = np.sin(x + e * y)
    spectrum = np.abs(np.fft.rfft(y)) * np.arange(n // 2 + 1)
    return spectrum[2] / spectrum[1]


out = {'optima': [], 'harmonics': []}
for ri in INNER:
    for d in DISTANCES:
        LA, pA = minimax(ri, OUTER, d)
        LC, pC = least_squares(ri, OUTER, d)
        # the published linear offset of A, from its own definition: the Chebyshev nodes in 1/r
        a, b = 1 / ri, 1 / OUTER
        n = [1 / ((a + b) / 2 + s * (a - b) / 2 * np.cos(np.pi / 4)) for s in (1, -1)]
        LB, pB = overhang_only(ri, OUTER, d, sum(n) / 2)
        for name, L, p in (('lofgren-a', LA, pA), ('lofgren-b', LB, pB), ('least-squares', LC, pC)):
            out['optima'].append({'criterion': name, 'inner': ri, 'outer': OUTER, 'spindleToPivot': d,
                                  'effectiveLength': round(L, 6), 'nulls': [round(x, 4) for x in nulls(L, d, p)]})
for ratio, degrees in ((0.1, 1), (0.3, 2), (0.5, 2), (1, 3)):
    out['harmonics'].append({'ratio': ratio, 'degrees': degrees, 'percent': round(100 * float(harmonic(ratio, degrees)), 6)})
print(json.dumps(out, indent=1))
