/*
 * Runs an image in the simulator simavr and records pins of one port as VCD. A
 * test-only program; no part of coilwalk is linked with it.
 *
 *     rig image.elf out.vcd B 0 1 2 3
 *
 * Ends when the image sleeps with interrupts off, with 0; after 60 simulated
 * seconds, or when the processor crashed, with 1.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later (it links simavr, which is GPL-3+)
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "avr_ioport.h"
#include "sim_avr.h"
#include "sim_elf.h"
#include "sim_vcd_file.h"

#define CLOCK_HZ 16000000u
#define LONGEST_S 60u

int main(int argc, char **argv)
{
    static elf_firmware_t image;
    static avr_vcd_t vcd;
    avr_t *avr;
    int state = cpu_Running;

    if (argc < 5) {
        fprintf(stderr, "rig: an image, a recording, a port and its bits are wanted\n");
        return 2;
    }
    avr = avr_make_mcu_by_name("atmega328p");
    if (!avr || elf_read_firmware(argv[1], &image)) {
        fprintf(stderr, "rig: %s can not be run\n", argv[1]);
        return 2;
    }
    avr_init(avr);
    avr_load_firmware(avr, &image);
    avr->frequency = CLOCK_HZ;
    avr_vcd_init(avr, argv[2], &vcd, 10000);
    for (int k = 4; k < argc; k++) {
        char name[16];

        snprintf(name, sizeof name, "P%c%.3s", argv[3][0], argv[k]);
        avr_vcd_add_signal(&vcd, avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ(argv[3][0]), atoi(argv[k])), 1, name);
    }
    avr_vcd_start(&vcd);
    while (state != cpu_Done && state != cpu_Crashed && avr->cycle < (avr_cycle_count_t)LONGEST_S * CLOCK_HZ)
        state = avr_run(avr);
    avr_vcd_close(&vcd);
    return state == cpu_Done ? 0 : 1;
}
