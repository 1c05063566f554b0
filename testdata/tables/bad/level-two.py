# Invented for this project: ü before the place counts as one.
rows = {'ü': [[1, 0, 0, 0], [0, 1, 0, 2], [0, 0, 1, 0]]}
