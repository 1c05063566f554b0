// Invented for this project: arrays, but no table.
int coils[] = {8, 9, 10, 11};
int stepDelay[] = {10, 20, 40};
float gains[] = {0.5, 1};
char *names[] = {"a", "b"};
int sums[] = {1 + 3, 1 + 2};
int named[] = {FIRST, SECOND};
int turns[] = {-1, 1, -1, 1};
