// Invented for this project.
int x; /* a comment
int rows[] = {8, 4, 2, 1};
