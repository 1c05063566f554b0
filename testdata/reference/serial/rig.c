/*
 * Runs an image in the simulator simavr, with its serial line on a
 * pseudo-terminal or fed from a script, and records the pins of ports B, C and D
 * as VCD. A test-only program; no part of coilwalk is linked with it.
 *
 *     rig -s SCRIPT|-u LINK [-v OUT.vcd] [-b BYTES] [-t SECONDS] [-m CHIP] [-f HERTZ] IMAGE.elf|IMAGE.hex
 *
 *   -u LINK    the line is a pseudo-terminal; LINK leads to it, and simulated
 *              time is held to the clock on the wall
 *   -s SCRIPT  the line gets what the script says, at its simulated time, as fast
 *              as it goes; the run is the same each time. A line is a time in us
 *              from the start (or +us from the line before), then bytes in hex;
 *              ! before a byte makes it a framing error, the word freeze
 *              sends the processor into an endless loop. # begins a comment
 *   -v OUT     the pins, as PB0 to PD7; a pin is x until it is first written
 *   -b BYTES   each byte with its simulated time in us: "in 12.500 f9"
 *   -t SECONDS of simulated time; 0: until TERM
 *
 * Says on standard output, a line each: "clock NS at US" (CLOCK_REALTIME and
 * simulated time; at the start, and for each SIGUSR2), "frozen at US", "restart at
 * US", and at the end "ended at US, worst lag MS ms". SIGUSR1 freezes the
 * processor, INT and TERM end the run, with the recording whole.
 *
 * What the simulator can not show: a wrong baud (the speed of a pseudo-terminal
 * means nothing), an overrun of the chip's own two bytes. It takes 11 bit times a byte.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later (it links simavr, which is GPL-3+)
 */
#define _GNU_SOURCE
#include <fcntl.h>
#include <pty.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "avr_extint.h"
#include "avr_ioport.h"
#include "avr_uart.h"
#include "sim_avr.h"
#include "sim_elf.h"
#include "sim_hex.h"
#include "sim_vcd_file.h"

#define SLICE_US 100 /* of simulated time, between looks at the line and the clock */
#define MOST_EVENTS 200000

struct event {
    double us;
    int byte; /* with UART_INPUT_FE; below 0: freeze */
};

static volatile sig_atomic_t stop, freeze, ask;
static avr_t *avr;
static int line = -1, fits; /* the pseudo-terminal; whether the chip takes bytes */
static struct event *events;
static int event_count, event_next;
static FILE *bytes;
static avr_irq_t *into;
static avr_cycle_count_t slice, looked; /* and when it was last looked */

static void on_signal(int number)
{
    if (number == SIGUSR1)
        freeze = 1;
    else if (number == SIGUSR2)
        ask = 1;
    else
        stop = 1;
}

static double us(void) { return avr->cycle * 1e6 / avr->frequency; }

static long long realtime(void)
{
    struct timespec t;

    clock_gettime(CLOCK_REALTIME, &t);
    return t.tv_sec * 1000000000ll + t.tv_nsec;
}

static double wall(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec + t.tv_nsec * 1e-9;
}

static void say(const char *what)
{
    printf("%s at %.3f\n", what, us());
    fflush(stdout);
}

static void say_clock(void)
{
    printf("clock %lld at %.3f\n", realtime(), us());
    fflush(stdout);
}

/* An endless loop at the end of the flash; interrupts stay as they are. */
static void do_freeze(void)
{
    avr->flash[avr->flashend - 1] = 0xff; /* rjmp to itself */
    avr->flash[avr->flashend] = 0xcf;
    avr->pc = avr->flashend - 1;
    if (avr->state == cpu_Sleeping)
        avr->state = cpu_Running;
    freeze = 0;
    say("frozen");
}

static void on_out(avr_irq_t *irq, uint32_t value, void *nothing)
{
    uint8_t byte = (uint8_t)value;

    (void)irq, (void)nothing;
    if (bytes)
        fprintf(bytes, "out %.3f %02x\n", us(), byte);
    if (line >= 0 && write(line, &byte, 1) != 1)
        fprintf(stderr, "rig: a byte is lost: nobody reads\n");
}

static void on_xon(avr_irq_t *irq, uint32_t value, void *nothing) { (void)irq, (void)value, (void)nothing; fits = 1; }
static void on_xoff(avr_irq_t *irq, uint32_t value, void *nothing) { (void)irq, (void)value, (void)nothing; fits = 0; }

static void feed(int byte)
{
    if (bytes)
        fprintf(bytes, "in %.3f %02x%s\n", us(), byte & 0xff, byte & UART_INPUT_FE ? " !" : "");
    avr_raise_irq(into, byte);
}

/* What the line has for the chip, as far as that takes it. */
static void pump(void)
{
    uint8_t byte;

    while (fits && line >= 0 && read(line, &byte, 1) == 1)
        feed(byte);
    while (fits && event_next < event_count && events[event_next].us <= us()) {
        int what = events[event_next++].byte;

        if (what < 0)
            freeze = 1;
        else
            feed(what);
    }
}

/* A timer of the simulator's, so that no sleep is longer than a slice. */
static avr_cycle_count_t on_slice(avr_t *which, avr_cycle_count_t when, void *nothing)
{
    (void)nothing;
    looked = which->cycle;
    pump();
    return when + slice;
}

static void no_sleep(avr_t *which, avr_cycle_count_t cycles) { (void)which, (void)cycles; }

static int fail(const char *what, const char *which)
{
    fprintf(stderr, "rig: %s %s\n", what, which);
    exit(2);
}

static void add_event(double when, int byte)
{
    if (event_count == MOST_EVENTS)
        fail("too long:", "the script");
    events[event_count++] = (struct event){ when, byte };
}

static void read_script(const char *name)
{
    FILE *f = fopen(name, "r");
    char text[4096];
    double when = 0;

    events = calloc(MOST_EVENTS, sizeof *events);
    if (!f || !events)
        fail("can not read", name);
    while (fgets(text, sizeof text, f)) {
        char *word = strtok(text, " \t\r\n");

        if (!word || *word == '#')
            continue;
        when = *word == '+' ? when + atof(word + 1) : atof(word);
        while ((word = strtok(NULL, " \t\r\n")) && *word != '#') {
            char *end;
            int error = *word == '!';
            long byte = strtol(word + error, &end, 16);

            if (!strcmp(word, "freeze"))
                add_event(when, -1);
            else if (*end || byte < 0 || byte > 255)
                fail("no byte:", word);
            else
                add_event(when, (int)byte | (error ? UART_INPUT_FE : 0));
        }
    }
    fclose(f);
}

static void load(const char *name)
{
    size_t n = strlen(name);

    if (n > 4 && !strcmp(name + n - 4, ".hex")) {
        ihex_chunk_p chunks = NULL;
        int count = read_ihex_chunks(name, &chunks);

        if (count <= 0)
            fail("can not read", name);
        for (int k = 0; k < count; k++)
            if (chunks[k].baseaddr + chunks[k].size <= avr->flashend + 1)
                memcpy(avr->flash + chunks[k].baseaddr, chunks[k].data, chunks[k].size);
        avr->codeend = avr->flashend;
    } else {
        static elf_firmware_t image;

        if (elf_read_firmware(name, &image))
            fail("can not read", name);
        avr_load_firmware(avr, &image);
        avr->codeend = avr->flashend;
    }
}

static void open_line(const char *link)
{
    char name[128];
    struct termios t;
    int other; /* stays open: no error between two clients */

    if (openpty(&line, &other, name, NULL, NULL))
        fail("no pseudo-terminal for", link);
    tcgetattr(other, &t);
    cfmakeraw(&t);
    tcsetattr(other, TCSANOW, &t);
    fcntl(line, F_SETFL, O_NONBLOCK);
    unlink(link);
    if (symlink(name, link))
        fail("can not make", link);
}

/* What a restart of the chip takes away, besides at the start. */
static void prepare(void)
{
    uint32_t flags = 0;

    avr_ioctl(avr, AVR_IOCTL_UART_GET_FLAGS('0'), &flags);
    flags &= ~(uint32_t)(AVR_UART_FLAG_STDIO | AVR_UART_FLAG_POLL_SLEEP);
    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    /* else a low pin 2 or 3 of port D has the simulator look at it each cycle */
    avr_extint_set_strict_lvl_trig(avr, 0, 0);
    avr_extint_set_strict_lvl_trig(avr, 1, 0);
    looked = avr->cycle;
    avr_cycle_timer_register(avr, slice, on_slice, NULL);
}

static avr_vcd_t recording;

int main(int argc, char **argv)
{
    const char *chip = "atmega328p", *pins = NULL, *link = NULL, *script = NULL;
    double hertz = 16e6, seconds = 0, start, worst = 0;
    struct sigaction action = { .sa_handler = on_signal };
    avr_cycle_count_t next = 0;
    int option, state = cpu_Running;

    while ((option = getopt(argc, argv, "u:s:v:b:t:m:f:")) != -1)
        switch (option) {
        case 'u': link = optarg; break;
        case 's': script = optarg; break;
        case 'v': pins = optarg; break;
        case 'b':
            if (!(bytes = fopen(optarg, "w")))
                fail("can not write", optarg);
            break;
        case 't': seconds = atof(optarg); break;
        case 'm': chip = optarg; break;
        case 'f': hertz = atof(optarg); break;
        default: return 2;
        }
    if (optind != argc - 1 || !link == !script)
        fail("an image is wanted,", "and one of -u and -s");
    avr = avr_make_mcu_by_name(chip);
    if (!avr)
        fail("no chip is called", chip);
    avr_init(avr);
    load(argv[optind]);
    avr->frequency = (uint32_t)hertz;
    avr->sleep = no_sleep;
    slice = (avr_cycle_count_t)(hertz * SLICE_US / 1e6);
    prepare();
    into = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), on_out, NULL);
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XON), on_xon, NULL);
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XOFF), on_xoff, NULL);
    if (pins) {
        avr_vcd_init(avr, pins, &recording, 10000);
        for (const char *port = "BCD"; *port; port++)
            for (int bit = 0; bit < 8; bit++) {
                avr_irq_t *irq = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ(*port), bit);
                char name[8];

                snprintf(name, sizeof name, "P%c%d", *port, bit);
                if (irq)
                    avr_vcd_add_signal(&recording, irq, 1, name);
            }
        avr_vcd_start(&recording);
    }
    if (script)
        read_script(script);
    if (link)
        open_line(link);
    for (int k = 0; k < 5; k++)
        sigaction((int[]){ SIGINT, SIGTERM, SIGHUP, SIGUSR1, SIGUSR2 }[k], &action, NULL);
    start = wall();
    say_clock();
    while (!stop && state != cpu_Done && state != cpu_Crashed) {
        state = avr_run(avr);
        if (avr->cycle - looked > 3 * slice) { /* the watchdog bit: a restart drops all timers */
            prepare();
            say("restart");
        }
        if (freeze)
            do_freeze();
        if (ask) {
            ask = 0;
            say_clock();
        }
        if (seconds > 0 && us() >= seconds * 1e6)
            break;
        if (link && avr->cycle >= next) {
            double ahead = us() / 1e6 - (wall() - start);

            next = avr->cycle + slice;
            if (ahead > 0) {
                struct timespec t = { (time_t)ahead, (long)((ahead - (double)(time_t)ahead) * 1e9) };

                nanosleep(&t, NULL);
            } else if (-ahead > worst)
                worst = -ahead;
        }
    }
    if (pins)
        avr_vcd_close(&recording);
    if (bytes)
        fclose(bytes);
    if (link)
        unlink(link);
    printf("ended at %.3f, worst lag %.1f ms\n", us(), worst * 1e3);
    return state == cpu_Crashed ? 1 : 0;
}
