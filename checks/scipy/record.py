"""Prints, as JSON, what SciPy makes of the inputs that the tests against SciPy in test/standards make again.

    python3 checks/scipy/record.py > checks/scipy/recorded.json

Inputs are integers of a 32-bit congruential generator over 2^31, or sums of sines with the constants below, so that the
test can make the same ones. Every entry of "results" (signal mathematics) and "deck" (filters of the virtual deck) is a flat list of numbers.
"""
import json
import sys

import numpy as np
import scipy
from scipy import fft, interpolate, linalg, signal, special, stats


def uniform(count, seed):
    """-1 to 1"""
    state, out = seed, np.empty(count)
    for i in range(count):
        state = (state * 1664525 + 1013904223) & 0xFFFFFFFF
        out[i] = state / 2**31 - 1
    return out


results, deck = {}, {}


def keep(name, values, where=results):
    assert name not in where
    flat = np.asarray(values)
    if np.iscomplexobj(flat):
        flat = np.stack([flat.real, flat.imag], -1)
    where[name] = [float(v) for v in flat.ravel()]


# — windows —
for name in ('hann', 'blackmanharris', 'flattop'):
    keep(f'window {name} 24', signal.get_window(name, 24, fftbins=True))
    w = signal.get_window(name, 4096, fftbins=True)
    keep(f'window {name} gain and noise bandwidth', [w.mean(), 4096 * (w**2).sum() / w.sum() ** 2])
keep('window kaiser 31', signal.get_window(('kaiser', 7.3), 31, fftbins=False))
keep('log of bessel i0', np.log(special.i0([0.01, 0.5, 1, 3.75, 7.3, 15, 30, 50])))

# — low passes: SciPy's own design from the same attenuation and transition —
for rate, low, high, down in ((12000, 260, 600, 80), (2000, 220, 400, 70), (96000, 20000, 24000, 96), (1000, 50, 90, 40)):
    taps, beta = signal.kaiserord(down, (high - low) / (rate / 2))
    taps |= 1
    h = signal.firwin(taps, (low + high) / 2, window=('kaiser', beta), fs=rate)
    keep(f'firwin {rate} {low} {high} {down}', h)
    keep(f'firwin response {rate} {low} {high} {down}', np.abs(signal.freqz(h, worN=np.linspace(0, rate / 2, 33), fs=rate)[1]))

# — decimation —
x = uniform(400, 5)
keep('fir by 3', np.convolve(x, signal.firwin(31, 0.2), 'valid')[::3])

# — the virtual deck's running filters —
keep('section', signal.lfilter([0.3, -0.1, 0.25], [1, -1.2, 0.61], x)[-40:], deck)
keep('fir', np.convolve(x, signal.firwin(31, 0.2))[360:400], deck)
high_pass = signal.bilinear([1, 0, 0], [1, 2 * np.pi * 20 / 0.7, (2 * np.pi * 20) ** 2], 48000)
keep('high pass 20 Hz', signal.lfilter(*high_pass, x)[-40:], deck)
keep('low pass 1st 300 Hz', signal.lfilter(*signal.butter(1, 300, fs=48000), x)[-40:], deck)
keep('high pass 1st 300 Hz', signal.lfilter(*signal.butter(1, 300, 'highpass', fs=48000), x)[-40:], deck)

# — transforms and spectra —
for size in (8, 64, 512, 2048):
    z = uniform(2 * size, size)
    keep(f'fft {size}', fft.fft(z[:size] + 1j * z[size:])[:64])
rate, size = 48000, 256
left, right = uniform(4000, 11), uniform(4000, 12)
right = 0.5 * right + 0.3 * left
for name, window in (('hann', 'hann'), ('blackman-harris', 'blackmanharris'), ('flat-top', 'flattop')):
    options = dict(fs=rate, window=window, nperseg=size, noverlap=size // 2, detrend=False)
    keep(f'welch {name} left', signal.welch(left, **options)[1])
    keep(f'welch {name} right', signal.welch(right, **options)[1])
    # SciPy's csd is conj(X) Y: the cross density of (right, left) is left · conj(right)
    keep(f'welch {name} cross', signal.csd(right, left, **options)[1])
    tone = 0.7 * np.sin(2 * np.pi * 3000 * np.arange(4000) / rate)
    keep(f'welch {name} line', [signal.welch(tone, scaling='spectrum', **options)[1][16]])

# — lock-in: a tone and its leak under hum, a neighbour and noise; least squares knows every frequency beforehand —
rate, seconds, tone_hz = 48000, 4.0, 1000.3
n = np.arange(int(rate * seconds))
t = n / rate
hum = 0.05 * np.sin(2 * np.pi * 50 * t + 0.3) + 0.02 * np.cos(2 * np.pi * 2500 * t)
leak = 0.021 * np.exp(1j * np.radians(127.0))
drive = 0.4 * np.cos(2 * np.pi * tone_hz * t + 0.7)
left = drive + hum
right = (leak * 0.4 * np.exp(1j * (2 * np.pi * tone_hz * t + 0.7))).real + 0.8 * hum + 1e-4 * uniform(n.size, 21)
columns = []
for hz in (tone_hz, 50, 2500):
    columns += [np.cos(2 * np.pi * hz * t), -np.sin(2 * np.pi * hz * t)]
fit = linalg.lstsq(np.stack(columns, -1), np.stack([left, right], -1))[0]
l, r = fit[0, 0] + 1j * fit[1, 0], fit[0, 1] + 1j * fit[1, 1]
keep('lock-in amplitude and phase', [abs(l), np.angle(l)])
keep('lock-in leak', [r / l])

# — demodulation: the analytic signal by Hilbert transform, its phase unwrapped —
rate, seconds, carrier = 44100, 4.0, 3150.0
parts = ((0.5556, 0.0011, 0.2), (4.0, 0.0007, 1.1), (9.7, 0.0005, -0.4), (31.0, 0.0004, 2.0))
t = np.arange(int(rate * seconds)) / rate
phase = 2 * np.pi * carrier * 1.0004 * t
for hz, size, shift in parts:
    phase += carrier * size / hz * np.sin(2 * np.pi * hz * t + shift)
x = 0.3 * np.cos(phase)
frequency = np.diff(np.unwrap(np.angle(signal.hilbert(x)))) * rate / (2 * np.pi)
inner = slice(int(0.25 * rate), int(3.75 * rate))
when, frequency = (t[:-1] + 0.5 / rate)[inner], frequency[inner]
columns = [np.ones_like(when)]
for hz, _, _ in parts:
    columns += [np.cos(2 * np.pi * hz * when), np.sin(2 * np.pi * hz * when)]
fit = linalg.lstsq(np.stack(columns, -1), frequency)[0]
keep('hilbert mean frequency', [fit[0]])
keep('hilbert deviations', [np.hypot(fit[1 + 2 * k], fit[2 + 2 * k]) / fit[0] for k in range(len(parts))])
keep('hilbert phases', [np.arctan2(-fit[2 + 2 * k], fit[1 + 2 * k]) for k in range(len(parts))])

# — analogue responses —
hz = np.array([10, 20, 31.5, 50, 100, 315, 1000, 3150, 10000, 20000.0])
poles = 2 * np.pi * np.array([20.598997058, 20.598997058, 107.652648643, 737.862230736, 12194.217148, 12194.217148])
h = signal.freqs_zpk([0, 0, 0, 0], -poles, 1, worN=2 * np.pi * np.append(hz, 1000))[1]
keep('a-weighting dB', 20 * np.log10(np.abs(h[:-1] / h[-1])))
t1, t2, t3, t4 = 3180e-6, 318e-6, 75e-6, 7950e-6
h = signal.freqs([t2, 1], np.polymul([t1, 1], [t3, 1]), worN=2 * np.pi * np.append(hz, 1000))[1]
keep('riaa dB', 20 * np.log10(np.abs(h[:-1] / h[-1])))
h = signal.freqs(np.polymul([t2, 1], [t4, 0]), np.polymul(np.polymul([t1, 1], [t3, 1]), [t4, 1]), worN=2 * np.pi * np.append(hz, 1000))[1]
keep('riaa with 7950 us dB', 20 * np.log10(np.abs(h[:-1] / h[-1])))

# — the flutter weighting between its points: SciPy's monotone cubic through the same table —
table = np.array(((0.1, -48.0), (0.2, -30.6), (0.315, -19.7), (0.4, -15.0), (0.63, -8.4), (0.8, -6.0), (1.0, -4.2), (1.6, -1.8), (2, -0.9), (4, 0), (6.3, -0.9), (10, -2.1), (20, -5.9), (40, -10.4), (63, -14.2), (100, -17.3), (200, -23.0)))
curve = interpolate.PchipInterpolator(np.log10(table[:, 0]), table[:, 1])
keep('flutter weighting dB', curve(np.log10([0.25, 0.35, 0.5, 0.7, 0.9, 1.25, 1.8, 3, 5, 8, 15, 30, 50, 80])))

# — statistics and small systems —
values = uniform(101, 31)
keep('quantiles', [np.median(values), *np.quantile(values, [0, 0.05, 0.333, 0.95, 1])])
keep('student t 95.45 %', stats.t.ppf(0.5 + 0.9545 / 2, [3, 4, 5, 7, 10, 20, 50, 200]))
m = uniform(36, 41).reshape(6, 6)
m = m @ m.T + 0.1 * np.eye(6)
keep('symmetric system', linalg.solve(m, uniform(6, 42)))
keep('symmetric inverse', np.diag(linalg.inv(m)))

json.dump({'scipy': scipy.__version__, 'numpy': np.__version__, 'results': results, 'deck': deck}, sys.stdout, indent=None, separators=(',', ':'))
sys.stdout.write('\n')
