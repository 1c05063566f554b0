// Invented for this project.
int rows[] = { 1, 0, 0, 1 };
