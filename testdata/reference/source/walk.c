/*
 * Walks a plan with the stepping source that coilwalk wrote (coil.c), and prints
 * each word that it puts on the port, with the time in ticks. First by coil_tick,
 * then by coil_poll with a clock that wraps.
 */
#include <stdio.h>

#include "coil.c"
#include "plan.h"

static uint32_t now;

void coil_write(uint8_t word)
{
    printf("%lu %02x\n", (unsigned long)now, word);
}

static void stop_in_time(struct coil_stepper *motor, unsigned k)
{
    if (plan[k].stop_after != 0 && motor->made == plan[k].stop_after)
        coil_stop(motor);
}

int main(void)
{
    const unsigned moves = sizeof plan / sizeof plan[0];
    struct coil_stepper motor;

    coil_begin(&motor, (enum coil_mode)plan[0].mode);
    for (unsigned k = 0; k < moves; k++) {
        uint32_t wait;

        coil_change(&motor, (enum coil_mode)plan[k].mode);
        coil_move(&motor, plan[k].rows);
        now += PAUSE_TICKS;
        while ((wait = coil_tick(&motor)) != 0) {
            stop_in_time(&motor, k);
            now += wait;
        }
    }
    printf("at %ld\n", (long)motor.position);

    now = 0u - 5000u; /* so that it wraps within the first move */
    coil_begin(&motor, (enum coil_mode)plan[0].mode);
    for (unsigned k = 0; k < moves; k++) {
        coil_change(&motor, (enum coil_mode)plan[k].mode);
        coil_move(&motor, plan[k].rows);
        now += PAUSE_TICKS;
        while (coil_busy(&motor)) {
            coil_poll(&motor, now);
            stop_in_time(&motor, k);
            if (coil_busy(&motor))
                now++;
        }
    }
    printf("at %ld\n", (long)motor.position);
    coil_halt(&motor);
    return 0;
}
