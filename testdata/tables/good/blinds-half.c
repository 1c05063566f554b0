/* Invented for this project: a window blind. { 9, 9 } here is a remark. */
#include <stdint.h>

static const int blind_pins[4] = {8, 9, 10, 11};

// two coils on in every second row {0,0,0,0}
static const uint8_t half[8][4] = {
    {1, 0, 0, 0},
    {1, 1, 0, 0},
    {0, 1, 0, 0}, /* {1,1,1,1}, */
    {0, 1, 1, 0},
    {0, 0, 1, 0},
    {0, 0, 1, 1},
    {0, 0, 0, 1},
    {1, 0, 0, 1},
};

int main(void) {
    const char *text = "{1,2,3}";
    char brace = '{';
    return half[3][1] + text[0] + brace + blind_pins[2];
}
