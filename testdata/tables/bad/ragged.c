// Invented for this project: a column is missing in row 3.
int rows[4][4] = {
  {1,0,0,0}, {0,1,0,0},
  {0,1,0}, {0,0,0,1} };
