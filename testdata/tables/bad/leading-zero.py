# Invented for this project: Python has no numbers with a leading 0.
rows = [0x8, 0110, 2, 1]
