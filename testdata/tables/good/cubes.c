// Invented for this project: several tables in one, and one in a definition.
int modes[2][4][4] = {
    { {1,0,0,0}, {0,1,0,0}, {0,0,1,0}, {0,0,0,1} },
    { {1,1,0,0}, {0,1,1,0}, {0,0,1,1}, {1,0,0,1} } };
#define WAVE_ROWS { 8, \
                    4, 2, 1 }
struct motor flap = { "flap", {4, 5, 6, 7}, { 0x3, 0x6, 0xC, 0x9 } };
int laid[] = { 1,0,0,0, 0,1,0,0,
               0,0,1,0, 0,0,0,1 };
