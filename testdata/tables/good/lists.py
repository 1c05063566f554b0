"""Invented for this project: a feeder. ORDER = [[9, 9]]"""
import array
PINS = (17, 18, 27, 22)
ORDER = [
    [1, 0, 0, 0],  # A [0,0,0,0]
    [1, 1, 0, 0],
    [0, 1, 0, 0],
    [0, 1, 1, 0],
]
MODES = {"wave": [0x8, 0x4, 0x2, 0x1], 'full': (0b1100, 0b0110, 0b0011, 0b1001)}


class Feeder:
    def __init__(self):
        self.rows = array.array('B', [0o14, 0o6, 3, 9])
        self.flags = ((True, False), (True, True), (False, True), (False, False))
        print(self.rows[2], max(1, 2))
LEADING = [1000, 0100, 0010, 0001]
