package handoff

import (
	"bytes"
	"strings"
	"testing"

	"coilwalk/sequence"
)

// clientPackages are firmata-io, serialport, and what they need.
var clientPackages = []string{"firmata-io", "serialport", "@serialport/binding-mock", "@serialport/bindings-cpp", "@serialport/bindings-interface",
	"@serialport/parser-byte-length", "@serialport/parser-cctalk", "@serialport/parser-delimiter", "@serialport/parser-inter-byte-timeout",
	"@serialport/parser-packet-length", "@serialport/parser-readline", "@serialport/parser-ready", "@serialport/parser-regex",
	"@serialport/parser-slip-encoder", "@serialport/parser-spacepacket", "@serialport/stream", "debug", "ms", "node-gyp-build"}

// A client that is not ours takes the bench firmware for a board of its kind, and
// drives forty rows through it, which the pins then have, one after the other and
// with none in between.
func TestReferenceClientOfTheBench(t *testing.T) {
	for _, low := range []bool{false, true} {
		w := benchWalk(t, low)
		t.Run(w.Board.level(), func(t *testing.T) {
			t.Parallel()
			var rows []string
			var want []sequence.Row
			for k := range 40 {
				row := sequence.Half.Order().Row(int64(k))
				if k >= 30 { // some that no order has
					row = nibble(benchRows[k%len(benchRows)])
				}
				levels := w.Board.Levels(row)
				rows = append(rows, strings.Trim(strings.ReplaceAll(tuple(levels), ", ", ""), "()"))
				want = append(want, row)
			}
			run := outside{name: "serial/client-" + w.Board.level(), given: map[string][]byte{"bench.c": made(t, Bench, w), "rows.txt": []byte(strings.Join(rows, "\n") + "\n")},
				sources: []string{"serial/rig.c", "serial/client.mjs", "serial/client.sh"}, npm: clientPackages,
				command: "avr-gcc -mmcu=atmega328p -std=c99 -Os -o image.elf bench.c && gcc -std=c99 -O1 -I/usr/include/simavr -o rig rig.c -lsimavr -lelf -lutil && sh client.sh 8 9 10 11",
				version: "echo $(node --version), $(avr-gcc --version | head -n 1), simavr $(dpkg-query -W -f '${Version}' libsimavr-dev)"}
			said := run.said(t)
			at := bytes.Index(said, []byte("$timescale"))
			if at < 0 {
				t.Fatalf("no recording in %q", said)
			}
			level := func(k int) string { return string(rows[39][k]) }
			wantSaid := "protocol 2.5, firmware coilwalk bench\npin 8: modes 1\npin 9: modes 1\npin 10: modes 1\npin 11: modes 1\n" +
				"pin 8: mode 1, level " + level(0) + "\npin 9: mode 1, level " + level(1) + "\npin 10: mode 1, level " + level(2) + "\npin 11: mode 1, level " + level(3) + "\n" +
				"0e: f0 0e 02 " + hexByte(bitsOf(want[39])) + " 01 f7\n"
			if got := string(said[:at]); got != wantSaid {
				t.Errorf("the client said\n%swant\n%s", got, wantSaid)
			}
			var got []sequence.Row
			for _, s := range stands(t, w, said[at:]) {
				got = append(got, s.row)
			}
			sameRows(t, got, append(append([]sequence.Row{off}, want...), off))
		})
	}
}
