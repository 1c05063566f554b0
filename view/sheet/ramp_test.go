package sheet

import (
	"context"
	"math"
	"math/big"
	"os"
	"strings"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/model/travel"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// measuredMotor is a motor of six leads as it is measured, 60 ohm a half, in whose rates a
// swing grows slowly near the highest.
func measuredMotor(t *testing.T) motor.Motor {
	t.Helper()
	m, _ := motor.BuiltIn("hybrid-6")
	m.Figures = motor.Figures{}
	for _, err := range []error{m.Figures.Resistance.Set("59.8 ohm"), m.Figures.Voltage.Set("12 V"), m.Figures.HoldingTorque.Set("250 mN.m")} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return m
}

func moved(t *testing.T, m motor.Motor, rows int64, rate float64) *report.Ramp {
	t.Helper()
	r := Ramp{Motor: m, Mode: sequence.Half, Asked: "it", Wish: travel.Wish{Top: rate}, Timer: travel.Timer{Clock: 1e6, Bits: 32}}
	r.Turns = new(big.Rat).Quo(new(big.Rat).SetInt64(rows), m.StepsPerShaftTurn(r.Mode))
	var err error
	if r.Plant, r.Estimates, err = rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{}); err != nil {
		t.Fatal(err)
	}
	way, err := r.Rows()
	if err != nil {
		t.Fatal(err)
	}
	answer, err := r.Answer(context.Background(), way)
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

// A longer move is never too short for what a shorter one gets to; what is told to
// be followed is, what is told to be held instead is as well; and a rate that rates
// does not follow is told to be too high, and no acceleration as if it were good.
func TestRampsAndRatesAgree(t *testing.T) {
	vent, _ := motor.BuiltIn("vent-flap")
	refused, least, shares := 0, 4, []float64{0.95, 1.02} // of the highest rate
	motors, moves := map[string]motor.Motor{"measured": measuredMotor(t), "vent-flap": vent}, []int64{30, 400, 4000, 40_000}
	if os.Getenv("COILWALK_RACE") != "" { // nothing is done at once: one, so that all of it is run
		delete(motors, "measured")
		moves, shares, least = moves[1:2], shares[:1], 0
	}
	for name, m := range motors {
		p, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
		if err != nil {
			t.Fatal(err)
		}
		found, _ := rotor.NewTrials(p, sequence.Half).Follow(rotor.Sweep{}, nil)
		for _, share := range shares {
			rate := math.Round(share * found.PullOut)
			got := 0.0 // the highest rate of a shorter move
			for _, rows := range moves {
				r := moved(t, m, rows, rate)
				text := r.Text()
				if short := strings.Contains(text, "too short"); short && r.Peak < 0.98*got {
					t.Errorf("%s: %d rows at %v/s: too short for more than %v, and a shorter move gets to %v", name, rows, rate, r.Peak, got)
				}
				switch f := r.Follows; {
				case f.Followed:
					got = max(got, r.Peak)
					if r.AccelFrom == "none" || r.Peak < rate && !strings.Contains(text, "too short") {
						t.Errorf("%s: %d rows at %v/s are followed:\n%s", name, rows, rate, text)
					}
					if rows >= 4000 && share > 1 {
						t.Errorf("%s: %d rows at %v/s are followed, and rates goes on to %v", name, rows, rate, found.PullOut)
					}
				default:
					refused++
					if share < 1 || r.AccelFrom != "none" || r.Clean() || rows > 30 && !strings.Contains(text, "the rate is too high, for it goes on at up to") || strings.Contains(text, "start is too fast") || !strings.Contains(text, "(only tried: ") || strings.Contains(text, "too short") {
						t.Errorf("%s: %d rows at %v/s, of %v:\n%s", name, rows, rate, found.PullOut, text)
					}
					if *f.AtS < 0 || *f.AtS > r.Seconds || *f.AtRate > rate {
						t.Errorf("%s: %d rows at %v/s: falls out after %v s of %v at %v/s", name, rows, rate, *f.AtS, r.Seconds, *f.AtRate)
					}
					if f.Holds == nil || rows > 30 && *f.Holds < 0.9*found.PullOut || *f.Holds > rate {
						t.Errorf("%s: %d rows at %v/s: no rate is told instead, of %v", name, rows, rate, found.PullOut)
					} else if again := moved(t, m, rows, *f.Holds); !again.Clean() || again.Peak < *f.Holds*(1-1e-3) {
						t.Errorf("%s: %d rows at %v/s instead of %v/s:\n%s", name, rows, *f.Holds, rate, again.Text())
					}
				}
			}
		}
	}
	if refused < least {
		t.Errorf("%d moves are not followed: the cases try little", refused)
	}
}

// Where the start rate comes from is told with what it is a part of.
func TestRampSaysWhereItsStartComesFrom(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	for rate, want := range map[float64]string{1500: "(85 % of the start–stop rate of the motor's model, 1181 rows/s)", 400: "(at once: the motor's model starts at up to 1181 rows/s)"} {
		if text := moved(t, m, 500, rate).Text(); !strings.Contains(text, want) {
			t.Errorf("%v/s: %q is not told:\n%s", rate, want, text)
		}
	}
}

// A ramp starts where rates advise it to.
func TestARampStartsWhereRatesAdvise(t *testing.T) {
	r := rotor.Rates{StartStop: 1000, PullOut: 3000}
	if verdict, from := r.For(2000); verdict != rotor.NeedsRamp || from != travel.StartShare*r.StartStop {
		t.Errorf("%v from %g, a ramp from %g", verdict, from, travel.StartShare*r.StartStop)
	}
}
