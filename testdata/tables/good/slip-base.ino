// Invented for this project: one row without its 0b, and one that C takes as octal.
int open_rows[] = { 0b1000, 0b1100, 0b0100, 0b0110, 0b0010, 0b0011, 0b0001, 1001 };
int close_rows[] = { 0b1001, 0b0001, 0b0011, 0b0010, 0110, 0b0100, 0b1100, 0b1000 };
