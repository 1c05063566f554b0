/* Prints the tables that coilwalk wrote (coil.c). */
#include <stdio.h>

#include "coil.c"

#define EACH(name, table) \
    printf(name); \
    for (unsigned k = 0; k < sizeof table / sizeof table[0]; k++) \
        printf(" %lu", (unsigned long)table[k]); \
    printf("\n")

int main(void)
{
    EACH("forward", coil_forward);
    EACH("reverse", coil_reverse);
    EACH("ramp", coil_ramp);
    return 0;
}
