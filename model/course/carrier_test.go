package course

import (
	"math"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

// modulated makes outputs with a carrier of 50 µs: duty gives that of each output
// in a row. Ticks are nanoseconds.
func modulated(rows int, rowNs int64, duty func(row, output int) float64) *Course {
	const period = 50_000
	g := newGatherer(1e-9)
	g.add([]recording.Sample{{At: 0}})
	end := int64(10_000_000)
	for at := end; at < end+int64(rows)*rowNs; at += period {
		row := int((at - end) / rowNs)
		var falls [4]int64
		high := uint32(0)
		for k := range 4 {
			if d := duty(row, k); d > 0.005 {
				high |= 1 << k
				falls[k] = at + int64(d*period)
			}
		}
		g.add([]recording.Sample{{At: at, High: high}})
		for high != 0 {
			first := -1
			for k := range 4 {
				if high>>k&1 == 1 && (first < 0 || falls[k] < falls[first]) {
					first = k
				}
			}
			high &^= 1 << first
			if falls[first] < at+period {
				g.add([]recording.Sample{{At: falls[first], High: high}})
			}
		}
	}
	return g.end(end + int64(rows)*rowNs + period)
}

// Microsteps by duty: 100 cos and 100 sin of the angle, as published tables of
// microstepping drivers have them; here 8 rows to a full step, both ways.
func TestMicrostepsByDuty(t *testing.T) {
	for _, way := range []float64{1, -1} {
		c := modulated(160, 2_000_000, func(row, output int) float64 {
			angle := way * float64(row) * math.Pi / 16
			return 0.9 * max(0, math.Cos(angle-float64(output)*math.Pi/2))
		})
		v := Judge(c, [4]string{"1", "2", "3", "4"}, Question{})
		if len(v.Runs) != 1 || v.Runs[0].Mode != "micro" || float64(v.Runs[0].Direction) != way || v.Runs[0].Rows != 160 {
			t.Fatalf("way %v: %+v", way, v.Runs)
		}
		if r := v.Runs[0].Median; math.Abs(r-500) > 5 {
			t.Errorf("%v rows a second, want 500", r)
		}
		if p := *v.Position; math.Abs(p-way*159.0/8) > 0.05 {
			t.Errorf("%v full steps, want %v", p, way*159.0/8)
		}
		if !strings.Contains(strings.Join(v.Notes, " "), "There are 8 rows to a full step") || !strings.Contains(strings.Join(v.Notes, " "), "20 kHz") {
			t.Errorf("notes: %q", v.Notes)
		}
	}
}

// Half step under a carrier of one duty is half step.
func TestCarrierTakenOut(t *testing.T) {
	rows := strings.Fields(halves)
	c := modulated(64, 5_000_000, func(row, output int) float64 { return 0.6 * float64(rows[row%8][output]-'0') })
	v := Judge(c, [4]string{"1", "2", "3", "4"}, Question{})
	if !v.Sound || len(v.Runs) != 1 || v.Runs[0].Mode != "half" || v.Runs[0].Rows != 64 || *v.Position != 31.5 {
		t.Errorf("sound %v, %v, runs %+v, position %v", v.Sound, v.Faults, v.Runs, *v.Position)
	}
}

// Rows that follow each other as evenly, and as fast, are no carrier.
func TestFastRowsAreNoCarrier(t *testing.T) {
	for _, mode := range []string{halves, fulls, waves} {
		rows := strings.TrimSpace(strings.Repeat(mode, 200))
		for _, interval := range []int64{60, 250, 1000} {
			c := writtenCourse(t, interval, "0000*90 "+rows)
			if k, ok := carrierOf(c); ok {
				t.Errorf("%q every %d µs has a carrier: %+v", mode[:9], interval, k)
			}
		}
	}
}
