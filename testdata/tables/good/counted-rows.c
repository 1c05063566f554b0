// Invented for this project: one array a row; then four of four a coil.
int step1[4] = {1,0,0,0};
int step2[4] = {0,1,0,0};
int step3[4] = {0,0,1,0};
int step4[4] = {0,0,0,1};
int red[4] = {1,0,0,0}, green[4] = {0,1,0,0}, blue[4] = {0,0,1,0}, white[4] = {0,0,0,1};
