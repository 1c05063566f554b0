// Invented for this project: rows placed by number.
int rows[4] = { [1] = 8, [0] = 4, [2] = 2, [3] = 1 };
