// Invented for this project: the last brace is missing.
int rows[][4] = {
  {1,0,0,0}, {0,1,0,0},
  {0,0,1,0}, {0,0,0,1};
int main(void) { return 0; }
