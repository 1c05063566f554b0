package handoff

import (
	"fmt"
	"strings"
)

// benchHead says what the bench firmware is, how it is put onto a board and what
// the board needs. Its lines are safe in a comment.
func (w *Walk) benchHead(b Board) (lines []string) {
	add := func(format string, values ...any) { lines = append(lines, Safe(fmt.Sprintf(format, values...))) }
	board := *w
	board.Board = b
	pull, other := "to ground", "high"
	if b.ActiveLow {
		pull, other = "to the logic supply", "low"
	}
	add("Bench firmware: a board switches four outputs as coilwalk at the other end of")
	add("its serial line says. Made by coilwalk. For AVR chips with a UART0.")
	add("")
	add("Motor %s: %s.", w.Motor.Name, w.Motor.Title)
	for k, e := range w.Motor.Wiring {
		add("Output %d: lead %s, coil end %s%s.", k+1, w.Motor.Output(w.Motor.Wiring, k), e, board.seat(k))
	}
	add("%s.", w.supply())
	add("A %s pin switches its coil on. %d baud, 8 bits, no parity, 1 stop bit.", b.level(), w.baud())
	add("")
	add("To build it, with your chip in the place of CHIP:")
	add("    avr-gcc -mmcu=CHIP -std=c99 -Os -Wall -o bench.elf bench.c")
	add("    avr-objcopy -O ihex -R .eeprom bench.elf bench.hex")
	add("and load bench.hex as you load your board. Or in the usual board IDE: a folder")
	add("bench with an empty sketch bench.ino and this file, as bench.c, beside it.")
	add("")
	add("All coils are off from the start on, and nothing switches one on before all four")
	add("pins were made outputs. They go off, and have to be made outputs again, when no")
	add("message came for 2 s, when a byte is no message, when the line drops one,")
	add("and when the watchdog restarts a program that hangs (250 ms).")
	add("The protocol is a part of Firmata 2.5, and F0 0E for what that does not have.")
	add("")
	add("In reset and in its boot loader a pin floats, and no firmware can help that:")
	add("put 10 kOhm from each output's pin %s, so that none is taken for %s.", pull, other)
	add("")
	for _, caution := range w.usual() {
		add("Caution: %s", caution)
	}
	add("Caution: switched off, the motor lets go: a weight or a spring then moves the")
	add("mechanism. Support it, and keep your fingers out of it.")
	add("Caution: this is for a bench with somebody beside it. What is fed from the mains, or")
	add("falls under local codes, is for those who are licensed for it.")
	for k := range lines {
		lines[k] = strings.TrimRight(lines[k], " ")
	}
	return lines
}
