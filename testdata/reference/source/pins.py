# Runs the class that coilwalk wrote for MicroPython (coil.py) under MicroPython,
# on a stand-in for the pins of a board, and prints every change of a pin. The
# clock is ours too, so that each run sees the same times, but it wraps where
# MicroPython's own does, and its arithmetic is MicroPython's.
import sys
import time

print(sys.implementation.name, sys.implementation.version[:3])

now = 0
PERIOD = time.ticks_add(0, -1) + 1  # of the counter of microseconds
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


class Machine:
    Pin = Pin


class Time:
    ticks_add, ticks_diff = time.ticks_add, time.ticks_diff

    @staticmethod
    def ticks_us():
        global now
        now += 1  # a look at the clock takes its time
        return time.ticks_add(START, now)

    @staticmethod
    def sleep_us(us):
        global now
        now += us


sys.modules["machine"], sys.modules["time"] = Machine, Time

import coil

coils = coil.Coils()
for rows in 9, -7, 0:
    coils.move(rows)
    print("at", coils.position)
coils.off()
