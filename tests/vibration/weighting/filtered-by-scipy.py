# Makes the values of filter.test.ts: python3 filtered-by-scipy.py. SciPy filters the same samples by W_h, as ISO 8041-1:2017 defines it, brought
# to 96 kHz by its own bilinear transform, each part prewarped at its corner.
import math

import scipy
from scipy.signal import bilinear_zpk, sosfilt, zpk2sos

RATE = 96000
FRAMES = 192000


def samples(seed):
    state = seed
    for _ in range(FRAMES):
        state = (state * 1664525 + 1013904223) % 2**32
        yield state / 2**31 - 1


def quadratic(hz, q):
    """Roots of 1 + s/(q w) + (s/w)^2, and w."""
    warped = 2 * RATE * math.tan(math.pi * hz / RATE)
    real = -warped / (2 * q)
    turn = warped * math.sqrt(1 - 1 / (4 * q * q))
    return [complex(real, turn), complex(real, -turn)], warped


def section(zeros, poles, gain):
    return zpk2sos(*bilinear_zpk(zeros, poles, gain, RATE))


high_poles, _ = quadratic(10**0.8, math.sqrt(0.5))
low_poles, low = quadratic(10**3.1, math.sqrt(0.5))
turn_poles, turn = quadratic(100 / (2 * math.pi), 0.64)
chain = [
    section([0, 0], high_poles, 1),
    section([], low_poles, low**2),
    section([-turn], turn_poles, turn),
]
print("SciPy", scipy.__version__)
for seed in (1, 2, 3):
    values = list(samples(seed))
    for sos in chain[:2]:
        values = sosfilt(sos, values)
    band = math.sqrt(sum(v * v for v in values) / FRAMES)
    values = sosfilt(chain[2], values)
    print(seed, "band", repr(band), "weighted", repr(math.sqrt(sum(v * v for v in values) / FRAMES)))
