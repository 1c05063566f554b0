# Prints the tables that coilwalk wrote (coil.py), and the moments of moves.
import coil

print("forward", *[level for row in coil.COIL_FORWARD for level in row])
print("reverse", *[level for row in coil.COIL_REVERSE for level in row])
print("ramp", *coil.COIL_RAMP)
for position, rows in (0, 12), (12, -15), (-3, 1), (5, 0):
    for due, at, levels in coil.coil_moments(position, rows):
        print(due, at, *levels)
