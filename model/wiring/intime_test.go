package wiring

import (
	"math"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

func plantFor(t testing.TB, name string) rotor.Plant {
	t.Helper()
	m := builtIn(t, name)
	p, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// With any of the 16 wrong orders of outputs the direction command makes no
// difference: the reversed table is the forward one begun at another row and
// moved by 180° electrical or by nothing, and so is the motion, rotor start
// included, for equal halves and a load that is the same at every angle. Shown on
// the machine in time, for one wrong order of each kind in all three modes.
func TestWrongOrdersIgnoreTheDirection(t *testing.T) {
	p := plantFor(t, "hybrid-4")
	p.Damping *= 4 // so that rounding is not blown up by chaos
	wrong := 0
	for _, wiring := range sequence.Permutations() {
		if wiring.Turns() != sequence.Standing {
			continue
		}
		wrong++
		for _, mode := range sequence.Modes {
			forward := fieldsSent(wiring, mode, 1)
			reverse := fieldsSent(wiring, mode, -1)
			shift, turn, ok := alikeBut(forward, reverse)
			if !ok {
				t.Fatalf("%v %s: the reversed table is another one", wiring, mode.Name)
			}
			if wrong > 4 { // the tables agree; the motion of these few stands for all
				continue
			}
			const rate = 120
			at := func(way, from int, deg float64) []float64 {
				motion := rotor.NewMotion(&p)
				motion.Start(rotor.State{Place: rotor.Position{Deg: math.Mod(deg, 360)}})
				start := motion.State().Place
				var turned []float64
				order := mode.Order()
				for k := range 3 * order.Len() {
					row := order.Row(int64(way * (k + from)))
					motion.Energise(row.Through(wiring))
					if err := motion.Advance(float64(k+1) / rate); err != nil {
						t.Fatal(err)
					}
					turned = append(turned, motion.State().Place.From(start))
				}
				return turned
			}
			a, b := at(-1, 0, 37), at(1, shift, 37+turn)
			for k := range a {
				if math.Abs(a[k]-b[k]) > 0.05 {
					t.Fatalf("%v %s: after row %d the reversed table has turned it by %.3f°, the forward one by %.3f°", wiring, mode.Name, k+1, a[k], b[k])
				}
			}
		}
	}
	if wrong != 16 {
		t.Errorf("%d wrong orders", wrong)
	}
}

func fieldsSent(wiring sequence.Permutation, mode sequence.Mode, way int64) (fields []sequence.Field) {
	order := mode.Order()
	for k := range int64(order.Len()) {
		fields = append(fields, order.Row(way*k).Through(wiring).Field())
	}
	return fields
}

// alikeBut finds the row of one cycle at which the other begins, and whether it is
// moved by 180°.
func alikeBut(forward, reverse []sequence.Field) (shift int, turn float64, ok bool) {
	n := len(forward)
	for _, turn := range []float64{0, 180} {
		sign := math.Cos(turn * math.Pi / 180)
		for shift := range n {
			same := true
			for k := range n {
				f, r := forward[(k+shift)%n], reverse[k]
				same = same && math.Abs(sign*f.A-r.A) < 1e-9 && math.Abs(sign*f.B-r.B) < 1e-9
			}
			if same {
				return shift, turn, true
			}
		}
	}
	return 0, 0, false
}

// A rate that is too high for a start explains a buzz, and a slow trial that turns
// confirms it; slowly, the same buzz is put down to the wiring. (The hybrid buzzes
// at 3000 with two leads swapped as well.)
func TestRateIsToBlame(t *testing.T) {
	motors := []string{"hybrid-4", "vent-flap"}
	if raced {
		motors = motors[:1] // coupled halves take five times as long
	}
	for _, name := range motors {
		s := NewSuspects(builtIn(t, name))
		judge := func(text string) Judged {
			symptoms, err := ReadSymptoms("x", []byte(text))
			if err != nil {
				t.Fatal(err)
			}
			return s.Judge(symptoms)
		}
		slow := judge("half forward buzz at 200\nhalf reverse buzz at 200\n").Ranked[0]
		if len(slow.Faults) == 0 {
			t.Errorf("%s, a buzz at 200 rows/s: %s", name, slow.Text)
		}
		if turns := judge("half forward cw at 400\nhalf reverse ccw at 400\n").Ranked[0]; turns.Text != "no fault of wiring or driver" {
			t.Errorf("%s turns as commanded: %s", name, turns.Text)
		}
		if name == "hybrid-4" {
			continue
		}
		fast := judge("half forward buzz at 3000\nhalf reverse buzz at 3000\nhalf forward cw\nhalf reverse ccw\n").Ranked[0]
		if len(fast.Faults) != 0 || fast.Text != "no fault of wiring or driver: the rate itself" || fast.Odds < 0.35 {
			t.Errorf("it starts at some 1200 rows/s, and buzzes at 3000: %s (%.2f)", fast.Text, fast.Odds)
		}
	}
}

// In time and slowly, what is sure in the statics is what happens.
func TestTimeAgreesWithStatics(t *testing.T) {
	m, p := builtIn(t, "hybrid-4"), plantFor(t, "hybrid-4")
	for _, trial := range someTrials() {
		trial.Rate = 40
		for _, f := range Faults(m) {
			slow := Behave(m, []Fault{f}, Trial{Mode: trial.Mode, Way: trial.Way})
			for _, does := range []Does{Clockwise, CounterClockwise} {
				if slow.Share[does] > 0.99 {
					if run := BehaveInTime(m, p, []Fault{f}, trial); run.Share[does] < 0.99 {
						t.Errorf("%s, %v: %v by the statics, %v in time", f.Text(m), trial, slow.Share, run.Share)
					}
				}
			}
		}
	}
}

// So slowly that each row comes to rest, a motor without friction does in time what
// its rests say: it goes among as many places where it buzzes, and with two leads
// swapped or an output that stays on in wave drive, which know no way, it is carried
// off by a load either way alike.
func TestSlowlyTheMachineGoesByItsRests(t *testing.T) {
	m, p := builtIn(t, "hybrid-4"), plantFor(t, "hybrid-4")
	for _, c := range []struct {
		fault Fault
		mode  sequence.Mode
		ways  bool // either alike
	}{
		{Fault{Kind: Swapped, I: 0, K: 1}, sequence.Half, true},
		{Fault{Kind: Swapped, I: 1, K: 2}, sequence.Wave, true},
		{Fault{Kind: OutputOn, I: 0}, sequence.Wave, true},
		{Fault{Kind: OutputDead, I: 2}, sequence.Half, false},
		{Fault{Kind: OutputDead, I: 2}, sequence.Wave, false},
	} {
		slow := Trial{Mode: c.mode, Way: sequence.Forward}
		rests := Behave(m, []Fault{c.fault}, slow)
		slow.Rate = 12
		b := BehaveInTime(m, p, []Fault{c.fault}, slow)
		name := c.fault.Text(m) + ", " + c.mode.Name
		if b.Places != rests.Places || b.Places < 3 {
			t.Errorf("%s: %d places in time, %d by its rests", name, b.Places, rests.Places)
		}
		sum := 0.0
		for _, share := range b.Share {
			sum += share
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("%s: the shares are %g in all", name, sum)
		}
		if ways := math.Abs(b.Share[Clockwise]-b.Share[CounterClockwise]) < 1e-9; ways != c.ways || b.Share[Buzzes] < 0.3 {
			t.Errorf("%s: %v", name, b.Share)
		}
	}
}
