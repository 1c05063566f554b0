package main

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
)

// At its bound a reader takes what it is given, and one more is refused by the bound:
// those of tables and recordings stand beside their readers.
func TestBoundsOfReaders(t *testing.T) {
	lines := func(n int, line string) string { return strings.Repeat(line, n) }
	leads := func(n int) (text string) {
		for k := range n - 1 {
			text += fmt.Sprintf("a0, a%d, 1\n", k+1)
		}
		return text
	}
	filled := func(n int, text string) string { return text + "#" + strings.Repeat("x", n-len(text)-1) }
	meshes := func(n int) string { return strings.TrimSuffix(strings.Repeat("1:1,", n), ",") }
	ends := []string{"leads", "--ends", "BN,WH,GN,GY", "--common", "VT", "--answers", "-"}
	for _, c := range []struct {
		what             string
		args             []string
		at, beyond, said string // on standard input; or the last argument, where args end in ""
	}{
		{"mostReadings", []string{"leads", "-"}, lines(400, "BN, VT, 52\n"), lines(401, "BN, VT, 52\n"), "at most 400"},
		{"mostLeads", []string{"leads", "-"}, leads(12), leads(13), "of 12 are taken"},
		{"LongestFile", []string{"leads", "-"}, filled(64<<10, "BN, VT, 52\n"), filled(64<<10+1, "BN, VT, 52\n"), "longer than 65536 bytes"},
		{"mostReplies", ends, lines(200, "kick BN WH unsure\n"), lines(201, "kick BN WH unsure\n"), "at most 200"},
		{"mostSymptoms", []string{"faults", "-"}, lines(100, "half forward unsure\n"), lines(101, "half forward unsure\n"), "at most 100"},
		{"mostInterval", []string{"write", "c", "--stepper", "--ramp", "-"}, lines(10_000, "1000\n"), lines(10_001, "1000\n"), "1 to 10000"},
		{"longestRamp", []string{"write", "c", "--stepper", "--ramp", "-"}, filled(1<<20, "1000\n"), filled(1<<20+1, "1000\n"), "longer than 1048576 bytes"},
		{"mostMeshes", []string{"shaft", "--train", ""}, meshes(12), meshes(13), "at most 12"},
		{"mostTeeth", []string{"shaft", "--train", ""}, "1:1000", "1:1001", "1 to 1000 teeth"},
		{"mostRatio", []string{"shaft", "--believe", ""}, "1000000:1", "1000001:1", "beyond 1000000:1"},
		{"mostBacklash", []string{"shaft", "--backlash", ""}, "180deg", "180.1deg", "0 to 180 degrees"},
		{"longestLead", []string{"leads", "--answers", "/dev/null", "--common", "VT", "--ends", ""}, "WH,GN,GY," + strings.Repeat("x", 16), "WH,GN,GY," + strings.Repeat("x", 17), "longer than 16 characters"},
		{"widest", []string{"write", "c", "--bits", ""}, "0,1,2,15", "0,1,2,16", "0 to 15"},
		{"mostPin", []string{"write", "micropython", "--pins", ""}, "0,1,2,255", "0,1,2,256", "0 to 255"},
		{"MaxDivide", []string{"order", "--mode", "micro", "--divide", ""}, "256", "257", "2 to 256"},
		{"mostSampleRate", []string{"read", "../../testdata/recordings/flap.vcd", "--sample-rate", ""}, "1e12", "1.1e12", "up to 1e12"},
		{"MostRate", []string{"ramp", "--turn", "90deg", "--no-motor", "--accel", "1e9", "--rate", ""}, "1000000", "1000001", "1.000001e+06 rows/s can not be; at most 1000000"},
		{"MostAccel", []string{"ramp", "--turn", "90deg", "--no-motor", "--rate", "900", "--accel", ""}, "1e9", "1.01e9", "1.01e+09 rows/s more in each second can not be; at most 1000000000"},
		{"MostAccel", []string{"ramp", "--turn", "90deg", "--no-motor", "--rate", "900", "--accel", "1500", "--decel", ""}, "1e9", "1e300", "1e+300 rows/s more in each second can not be; at most 1000000000"},
		{"MostAccel", []string{"write", "c", "--rate", "900", "--accel", ""}, "1e9", "1e300", "1e+300 rows/s more in each second can not be; at most 1000000000"},
		{"mostSteps", []string{"ramp", "--rpm", "12", "--believes", ""}, "1000000000", "1000000001", "1000000001 steps to a turn can not be; at most 1000000000"},
		{"mostRPM", []string{"ramp", "--believes", "2048", "--rpm", ""}, "1000000", "1000001", "1000001 turns a minute can not be; at most 1000000"},
	} {
		for _, one := range []struct {
			text   string
			beyond bool
		}{{c.at, false}, {c.beyond, true}} {
			args, in := append([]string(nil), c.args...), one.text
			if last := len(args) - 1; args[last] == "" {
				args[last], in = one.text, ""
			}
			var out, errs bytes.Buffer
			status := run(args, strings.NewReader(in), &out, &errs)
			if refused := status == exitInput; refused != one.beyond || refused && !strings.Contains(errs.String(), c.said) {
				t.Errorf("%s, beyond %v: status %d, %q", c.what, one.beyond, status, errs.String())
			}
		}
	}
}
