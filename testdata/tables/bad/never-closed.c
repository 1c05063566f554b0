// Invented for this project.
int rows[] = { 8, 4, 2, 1
