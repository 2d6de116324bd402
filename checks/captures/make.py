"""Makes the recorded files of this folder with sox, ffmpeg and flac. Run by hand; the tests read only what it made.

The samples come from a 32-bit congruential generator, integers only, so that the test can make them again:
a random walk on the left, three quarters of it with noise on the right, so that an encoder's prediction,
mid/side and Rice coding all come into play.
"""
import struct
import subprocess
import sys
from pathlib import Path

FRAMES = 3000
here = Path(__file__).parent
work = Path(sys.argv[1])


def samples(bits):
    state, walk, out = 12345, 0, []
    scale = 1 << (bits - 16)
    for _ in range(FRAMES):
        pair = []
        for _ in range(2):
            state = (state * 1664525 + 1013904223) & 0xFFFFFFFF
            pair.append((state >> 16) - 32768)
        walk = max(-30000, min(30000, walk + pair[0] // 64))
        out.append(walk * scale + (pair[1] & 15))
        out.append(walk * scale * 3 // 4 + pair[1] // 256)
    return out


def wav(bits, rate):
    body = b''.join((s & (2**bits - 1)).to_bytes(bits // 8, 'little') for s in samples(bits))
    fmt = struct.pack('<HHIIHH', 1, 2, rate, rate * bits // 4, bits // 4, bits)
    data = b'WAVEfmt ' + struct.pack('<I', 16) + fmt + b'data' + struct.pack('<I', len(body)) + body
    path = work / f'{bits}.wav'
    path.write_bytes(b'RIFF' + struct.pack('<I', len(data)) + data)
    return path


def run(*command):
    subprocess.run([str(part) for part in command], check=True)


w16, w24 = wav(16, 44100), wav(24, 96000)
run('flac', '-s', '-f', '-8', '-b', '1152', '-o', here / 'flac-16.flac', w16)
run('flac', '-s', '-f', '-5', '-b', '576', '--no-padding', '-o', here / 'flac-24.flac', w24)
run('ffmpeg', '-v', 'error', '-y', '-i', w24, '-c:a', 'flac', '-sample_fmt', 's32', '-bitexact', here / 'ffmpeg-24.flac')
run('ffmpeg', '-v', 'error', '-y', '-i', w24, '-c:a', 'pcm_s24le', '-rf64', 'always', here / 'ffmpeg-24.rf64.wav')
run('sox', w24, '-e', 'floating-point', '-b', '32', here / 'sox-float.wav')
run('sox', w24, '-t', 'wavpcm', '-b', '24', here / 'sox-24.wav')
