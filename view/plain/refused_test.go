package plain

import (
	"io"
	"strings"
	"testing"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
)

// A rate that can not be run says which can, whether it is too low or too great,
// and leaves the one that was set.
func TestRatesThatCanNotBeRun(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	b := bench.New(m)
	b.SetRate(20)
	var out strings.Builder
	if err := (&Mode{Sitting: Sitting{Bench: b}}).Run(strings.NewReader("run 0.01\nrun 1e6\n"), &out); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(out.String(), "from 0.5 to 5000 is wanted"); n != 2 || b.Rate() != 20 {
		t.Errorf("said %d times, rate %g:\n%s", n, b.Rate(), &out)
	}
}

func TestLineThatIsTooLong(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	b := bench.New(m)
	err := (&Mode{Sitting: Sitting{Bench: b}}).Run(strings.NewReader("next\n"+strings.Repeat("a", 2*longestLine)), io.Discard)
	if err == nil || !strings.Contains(err.Error(), "longer than 4096 bytes") {
		t.Error(err)
	}
}
