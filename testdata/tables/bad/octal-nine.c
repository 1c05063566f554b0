// Invented for this project: 8 is no octal digit.
int rows[] = {8, 4,
              098, 1};
