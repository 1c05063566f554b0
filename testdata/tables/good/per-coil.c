// Invented for this project: a valve, one array an output.
int yellow[] = {1, 1, 0, 0, 0, 0, 0, 1};
int orange[] = {0, 1, 1, 1, 0, 0, 0, 0};
int brown[]  = {0, 0, 0, 1, 1, 1, 0, 0};
int black[]  = {0, 0, 0, 0, 0, 1, 1, 1};
int by_coil[4][8] = {
    {1,1,0,0,0,0,0,1}, {0,1,1,1,0,0,0,0},
    {0,0,0,1,1,1,0,0}, {0,0,0,0,0,1,1,1}};
int polarityA[] = {1, 0, 0, 1}, polarityB[] = {1, 1, 0, 0};
