// Invented for this project: rows that look like bits and are not.
int feeder[8] = {
    1000, 1100, 0100, 0110,
    0010, 0011, 0001, 1001 };
