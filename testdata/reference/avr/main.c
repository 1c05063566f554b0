/*
 * Firmware for a test: walks a plan of moves with the stepping source that
 * coilwalk wrote (coil.c), each tick in the compare interrupt of timer 1, clock
 * by 8. plan.h is filled in by the test.
 */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>

#include "coil.c"
#include "plan.h"

static struct coil_stepper motor;
static volatile uint16_t stop_after;

/* A compare value takes effect at once in this mode of the timer, so it is set
 * for the interval that has just begun. */
ISR(TIMER1_COMPA_vect)
{
    uint32_t wait = coil_tick(&motor);

    if (wait == 0)
        TIMSK1 = 0;
    else
        OCR1A = (uint16_t)(wait - 1);
    if (stop_after != 0 && motor.made == stop_after)
        coil_stop(&motor);
}

static void sleep_until_done(void)
{
    set_sleep_mode(SLEEP_MODE_IDLE);
    for (;;) {
        cli();
        if (!coil_busy(&motor) && TIMSK1 == 0)
            break;
        sleep_enable();
        sei();
        sleep_cpu();
        sleep_disable();
    }
}

int main(void)
{
    coil_begin(&motor, (enum coil_mode)plan[0].mode);
    TCCR1B = _BV(WGM12) | _BV(CS11);
    for (uint8_t k = 0; k < sizeof plan / sizeof plan[0]; k++) {
        coil_change(&motor, (enum coil_mode)plan[k].mode);
        stop_after = plan[k].stop_after;
        coil_move(&motor, plan[k].rows);
        OCR1A = PAUSE_TICKS - 1;
        TCNT1 = 0;
        TIFR1 = _BV(OCF1A);
        TIMSK1 = _BV(OCIE1A);
        sleep_until_done();
    }
    cli();
    sleep_enable();
    sleep_cpu(); /* with interrupts off: the simulator ends */
    return 0;
}
