"""Prints, as JSON, the response of SoX's `riaa` effect in dB re 1 kHz: one sample in, the answer transformed."""
import json
import subprocess
import sys

import numpy as np

HZ = [20, 30, 50, 80, 100, 200, 315, 500, 1000, 2000, 3150, 5000, 8000, 10000, 15000, 20000]
SIZE = 2**18
results = {}
for rate in (88200, 96000):
    impulse = np.zeros(SIZE, '<f4')
    impulse[0] = 0.2
    raw = ['-t', 'f32', '-r', str(rate), '-c', '1', '-']
    out = subprocess.run(['sox', '-V1', *raw, *raw, 'riaa'], input=impulse.tobytes(), capture_output=True, check=True).stdout
    h = np.frombuffer(out, '<f4').astype(float)
    n = np.arange(h.size)
    level = np.array([abs(np.sum(h * np.exp(-2j * np.pi * f / rate * n))) for f in HZ])
    results[str(rate)] = [round(float(v), 4) for v in 20 * np.log10(level / level[HZ.index(1000)])]
version = subprocess.run(['sox', '--version'], capture_output=True, text=True, check=True).stdout.strip().split()[-1]
json.dump({'sox': version, 'hz': HZ, 'dB': results}, sys.stdout)
sys.stdout.write('\n')
