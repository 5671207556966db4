"""
How the mean added resistance of a short boat in head seas goes with height and period, apart from the program: two response functions
over a wind sea's spectrum. Metres, seconds, newtons, degrees off the bow. Needs numpy and scipy. Run: python3 make_head_seas.py > head-seas.json
(the repository keeps it as its formatter lays it out: npx biome check --write head-seas.json).

Spectrum: Bretschneider's two-parameter form (5/16 H^2 wp^4 w^-5 exp(-5/4 (wp/w)^4)); "young" has JONSWAP's peak of 3.3 on it, the height kept.
Mean added resistance is 2 * integral of S(w) r(w) dw, r in N per square metre of wave amplitude (ITTC 7.5-02-07-02.2).

fitted: Jinkine & Ferdinande, "A method for predicting the added resistance of fast cargo ships in head waves", Int. Shipbuilding Progress 21,
1974. Fitted to ships, so taken for its shape only. The shape (11, 14; -8.5; 1.17, 0.143, the cube root of the gyradius, Fn^1.5 exp(-3.5 Fn)) was
compared with a public account of the form kept in ITTC 7.5-04-01-01.2; the factor 3600 k^2 and the power -14 above the peak are from memory.

radiated: Gerritsma & Beukelman, "Analysis of the resistance increase in waves of a fast cargo ship", ISP 19, 1972: the energy of the waves
the hull sends out, k / (2 we) * integral of (N - V dm/dx) |v|^2 dx, with heave and pitch by the ordinary strip method. The boat is drawn
here: a parabolic waterline and rocker, similar Lewis sections, no keel. Added mass and damping of a section: Ursell's source and
wave-free potentials (Q. J. Mech. Appl. Math. 2, 1949) on Tasai's Lewis form, by least squares on the stream function. The damping so found from
pressure is held against the energy of the far waves below. These equations are from memory. Oblique seas: the same, the wave's slope along
the hull by the cosine; roll, yaw and the spread of a sea's directions are left out, so trust `offBow` least.
"""
import json
from math import cos, exp, pi, radians, sqrt
import numpy as np
from scipy.optimize import brentq
from scipy.special import expi

G, RHO, GYRADIUS = 9.80665, 1025.0, 0.25
SPEED_MPS = 3.0
# Waterline length and beam; displacement from length / volume^(1/3) = 5.2, a cruising boat's (common practice).
BOATS = ((8.0, 2.7), (10.0, 3.1), (12.0, 3.5))
SLENDERNESS = 5.2
SEAS = ((0.5, 3), (1, 4), (1, 5), (1.5, 6), (2, 6), (2, 8), (2, 10), (0.9, 10), (1, 12))
STATED = SEAS.index((1, 5))
W = np.linspace(0.3, 9.0, 871)


def spectrum(height, period, peak=1.0):
    wp = 2 * pi / period
    s = 5 / 16 * height**2 * wp**4 * W**-5.0 * np.exp(-1.25 * (wp / W) ** 4)
    if peak == 1.0:
        return s
    width = np.where(W <= wp, 0.07, 0.09)
    s = s * peak ** np.exp(-((W - wp) ** 2) / (2 * width**2 * wp**2))
    return s * height**2 / 16 / np.trapezoid(s, W)


def fitted(length, beam, speed):
    froude = speed / sqrt(G * length)
    x = W * sqrt(length / G) * GYRADIUS ** (1 / 3) * froude**0.143 / 1.17
    b, d = np.where(x < 1, 11.0, -8.5), np.where(x < 1, 14.0, -14.0)
    shape = 3600 * GYRADIUS**2 * froude**1.5 * exp(-3.5 * froude) * x**b * np.exp(b / d * (1 - x**d))
    return RHO * G * beam**2 / length * shape


FULLNESS = 0.7  # a section's area over beam times draught


def lewis(beam_draught):
    """z = M (w + a1/w + a3/w^3) of half beam 1: w = 1 at the waterline, i at the keel (depth is the imaginary part)."""
    h = beam_draught / 2
    q = (h - 1) / (h + 1)
    scale = lambda a3: 1 / (1 + q * (1 + a3) + a3)
    area = lambda a3: pi / 2 * scale(a3) ** 2 * (1 - (q * (1 + a3)) ** 2 - 3 * a3**2) - FULLNESS * 2 / h
    a3 = brentq(area, -0.3, 0.3, xtol=1e-14)
    return q * (1 + a3), a3, scale(a3)


def section(nu, form, points=40, poles=12):
    """Heave of a section of half beam 1 at wave number nu: added mass over rho, damping over rho * frequency (from pressure, from far waves)."""
    a1, a3, m = form
    w = np.exp(1j * (np.arange(points) + 0.5) / points * pi / 2)
    z = m * (w + a1 / w + a3 / w**3)
    wave = np.exp(1j * nu * z)
    source = -wave * expi(-1j * nu * z)
    phi, psi = [source.real - 1j * pi * wave.real], [source.imag - 1j * pi * wave.imag]
    for n in range(1, poles + 1):
        free = w ** (-2 * n) + 1j * nu * m * (
            -(w ** (1 - 2 * n)) / (2 * n - 1) + a1 * w ** (-1 - 2 * n) / (2 * n + 1) + 3 * a3 * w ** (-3 - 2 * n) / (2 * n + 3))
        phi.append(free.real + 0j)
        psi.append(free.imag + 0j)
    # Moving down at unit speed, the stream function on the hull is minus the half breadth.
    strength = np.linalg.lstsq(np.array(psi).T, -z.real + 0j, rcond=None)[0]
    breadth = -(1j * m * (w - a1 / w - 3 * a3 / w**3)).real * pi / 2 / points
    pull = 2 * np.sum(np.array(phi).T @ strength * breadth)
    return -pull.real, pull.imag, abs(strength[0] * pi) ** 2


def sections(beam_draught):
    form = lewis(beam_draught)
    nus = np.geomspace(0.005, 40, 160)
    found = np.array([section(nu, form) for nu in nus])
    # Pressure on the hull and energy of the far waves must give one damping, over the frequencies that make waves.
    felt = nus < 12
    assert np.all(np.abs(found[felt, 1] / found[felt, 2] - 1) < 0.01), "damping by pressure and by far waves differ"
    return nus, found[:, 0], found[:, 1]


def radiated(length, beam, speed, off_deg=0.0):
    volume = (length / SLENDERNESS) ** 3
    draught = volume / (FULLNESS * beam * length * 8 / 15)
    nus, mass_of, damping_of = sections(beam / draught)
    x = np.linspace(-length / 2, length / 2, 201)
    taper = np.maximum(1 - (2 * x / length) ** 2, 0)
    b, mean_depth = beam / 2 * taper, FULLNESS * draught * taper
    spring = 2 * RHO * G * b
    over = lambda f: np.trapezoid(f, x)
    mass, inertia = RHO * volume, RHO * volume * (GYRADIUS * length) ** 2
    out = []
    for w in W:
        k = w * w / G
        along = k * cos(radians(off_deg))
        we = w + along * speed
        nu = np.maximum(we * we / G * b, nus[0])
        m = RHO * b**2 * np.interp(nu, nus, mass_of)
        n = RHO * b**2 * we * np.interp(nu, nus, damping_of)
        bb = n - speed * np.gradient(m, x)
        wave = np.exp(1j * along * x - k * mean_depth)
        # Upward force on a strip: from the wave, from a unit of heave, from a radian of bow up.
        f_wave = (spring - m * w * w + 1j * bb * w) * wave
        f_heave = -spring + m * we * we - 1j * bb * we
        f_pitch = f_heave * x + 2j * m * speed * we + bb * speed
        a = np.array([[-we * we * mass - over(f_heave), -over(f_pitch)],
                      [-over(x * f_heave), -we * we * inertia - over(x * f_pitch)]])
        heave, pitch = np.linalg.solve(a, np.array([over(f_wave), over(x * f_wave)]))
        relative = 1j * w * wave - 1j * we * (heave + x * pitch) + speed * pitch
        out.append(along / (2 * we) * over(bb * np.abs(relative) ** 2))
    return np.array(out)


def mean(response, height, period, peak=1.0):
    return 2 * np.trapezoid(spectrum(height, period, peak) * response, W)


def figures(value):
    return float(f"{value:.5g}")


def boat(length, beam):
    ways = {"fitted": fitted(length, beam, SPEED_MPS), "radiated": radiated(length, beam, SPEED_MPS)}
    # A boat very short against the wave follows it and makes hardly any waves of her own.
    assert ways["radiated"][0] < 1e-4 * ways["radiated"].max()
    stated = {name: mean(r, *SEAS[STATED]) for name, r in ways.items()}
    young = mean(ways["radiated"], *SEAS[STATED], 3.3)
    found = {
        "waterlineLengthMetres": length, "beamMetres": beam, "volumeCubicMetres": figures((length / SLENDERNESS) ** 3), "speedMps": SPEED_MPS,
        "greatestAtWaveLengthMetres": {name: figures(2 * pi * G / W[r.argmax()] ** 2) for name, r in ways.items()},
        "statedSeaNewtons": {name: figures(value) for name, value in stated.items()},
        "seas": [{
            "heightMetres": h, "peakPeriodSeconds": t,
            "overStated": {name: figures(mean(r, h, t) / stated[name]) for name, r in ways.items()},
            "overStatedYoung": figures(mean(ways["radiated"], h, t, 3.3) / young),
        } for h, t in SEAS],
    }
    ahead = stated["radiated"]
    found["offBow"] = [{"offDeg": off, "overAhead": figures(mean(radiated(length, beam, SPEED_MPS, off), *SEAS[STATED]) / ahead)}
                       for off in (30, 45, 60, 75)]
    return found


print(json.dumps({
    "statedSea": {"heightMetres": 1, "peakPeriodSeconds": 5},
    "boats": [boat(*one) for one in BOATS],
}, indent=1))
