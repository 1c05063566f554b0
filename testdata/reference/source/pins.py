# Runs the class that coilwalk wrote for MicroPython (coil.py) under Python, on
# stand-ins for MicroPython's pins and clock, and prints every change of a pin.
import sys
import time
import types

now = 0
PERIOD = 1 << 30  # of the counter of microseconds, which wraps
START = PERIOD - 3000


class Pin:
    OUT = 1

    def __init__(self, number, mode, value):
        self.number, self.level = number, value
        print(now, "pin", number, value)

    def value(self, level):
        if level != self.level:
            print(now, self.number, level)
        self.level = level


def ticks_us():
    global now
    now += 1  # a look at the clock takes its time
    return (START + now) % PERIOD


def ticks_diff(a, b):
    return (a - b + PERIOD // 2) % PERIOD - PERIOD // 2


def sleep_us(us):
    global now
    now += us


time.ticks_us, time.ticks_diff, time.sleep_us = ticks_us, ticks_diff, sleep_us
time.ticks_add = lambda a, b: (a + b) % PERIOD
sys.modules["machine"] = types.SimpleNamespace(Pin=Pin)

import coil

coils = coil.Coils()
for rows in 9, -7, 0:
    coils.move(rows)
    print("at", coils.position)
coils.off()
