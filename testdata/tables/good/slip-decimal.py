# Invented for this project: 80 for 8.
steps = [1, 3, 2, 6, 4, 12, 80, 9]
