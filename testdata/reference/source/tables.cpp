/* Prints the tables that coilwalk wrote (coil.hpp). */
#include <cstdio>

#include "coil.hpp"

#define EACH(name, table) \
    printf(name); \
    for (unsigned k = 0; k < sizeof table / sizeof table[0]; k++) \
        printf(" %lu", (unsigned long)table[k]); \
    printf("\n")

int main(void)
{
    EACH("forward", coil::forward);
    EACH("reverse", coil::reverse);
    EACH("ramp", coil::ramp);
    return 0;
}
