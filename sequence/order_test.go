package sequence

import (
	"math"
	"math/big"
	"testing"
	"time"

	"pgregory.net/rapid"
)

const far = 1_000_000_000_000_000 // 10¹⁵

func everyMode(t testing.TB) []Mode {
	modes := append([]Mode(nil), Modes[:]...)
	for d := MinDivide; d <= MaxDivide; d++ {
		m, err := Micro(d, 0)
		if err != nil {
			t.Fatal(err)
		}
		modes = append(modes, m)
	}
	return modes
}

func TestGoldenCycles(t *testing.T) {
	for name, want := range map[string][]string{
		"wave": {"1000", "0100", "0010", "0001"},
		"full": {"1100", "0110", "0011", "1001"},
		"half": {"1000", "1100", "0100", "0110", "0010", "0011", "0001", "1001"},
	} {
		m, err := ModeNamed(name, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		if m.Rows() != len(want) {
			t.Errorf("%s has %d rows", name, m.Rows())
		}
		for k, bits := range want {
			if r := m.Order().Row(int64(k)); r.Bits() != bits || !r.Whole() {
				t.Errorf("%s row %d: %s, want %s", name, k+1, r.Bits(), bits)
			}
		}
	}
	if _, err := ModeNamed("sine", 0, 0); err == nil {
		t.Error("a mode that there is not")
	}
	for _, d := range []int{-1, 0, 1, 257} {
		if _, err := Micro(d, 0); err == nil {
			t.Errorf("a divisor of %d", d)
		}
	}
}

// The angle that a step commands agrees with the field that its row sets up,
// for every row of every divisor.
func TestAnglesAreThoseOfTheFields(t *testing.T) {
	for _, m := range everyMode(t) {
		o := m.Order()
		for k := range int64(m.Rows()) {
			exact, _ := o.Degrees(k).Float64()
			deg, ok := o.Row(k).Field().Degrees()
			if !ok || math.Abs(Between(deg, exact)) > 1e-9 {
				t.Fatalf("%s row %d: commands %v°, sets up %v°", m.Title, k, exact, deg)
			}
		}
	}
}

// Step 10¹⁵ is as exact as step 1, both ways, also for divisors that do not
// divide 90.
func TestFarStepsAreExact(t *testing.T) {
	for _, m := range everyMode(t) {
		o := m.Order()
		n := big.NewInt(int64(m.Rows()))
		for _, step := range []int64{1, -1, far, -far, far + 1, far - 3} {
			want := new(big.Int).Mod(big.NewInt(step), n).Int64() // never negative
			if int64(o.Index(step)) != want || o.Row(step) != o.Row(want) {
				t.Fatalf("%s step %d: at %d, want %d", m.Title, step, o.Index(step), want)
			}
			deg := new(big.Rat).Mul(big.NewRat(90, int64(m.PerStep)), new(big.Rat).SetInt64(step))
			deg.Add(deg, big.NewRat(int64(m.FirstAt), 1))
			if o.Degrees(step).Cmp(deg) != 0 {
				t.Fatalf("%s step %d: %v°", m.Title, step, o.Degrees(step))
			}
		}
	}
	if m, _ := Micro(7, 0); m.Order().Degrees(1).RatString() != "90/7" {
		t.Errorf("a seventh of a step is %v°", m.Order().Degrees(1))
	}
}

// A row forward and a row back lead to the next and the last place of the
// cycle from wherever one is, and so does any number of them: the same steps of
// the angle with the other sign.
func TestForwardThenBack(t *testing.T) {
	modes := everyMode(t)
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(modes).Draw(t, "mode")
		at := rapid.Int64Range(-far, far).Draw(t, "at")
		n := rapid.Int64Range(0, far).Draw(t, "n")
		o := m.Order()
		on, back := (o.Index(at)+1)%o.Len(), (o.Index(at)+o.Len()-1)%o.Len()
		if o.Index(at+1) != on || o.Index(at-1) != back {
			t.Fatalf("from place %d on to %d and back to %d", o.Index(at), o.Index(at+1), o.Index(at-1))
		}
		if o.Row(at+int64(m.Rows())) != o.Row(at) || o.Row(at+1) == o.Row(at) {
			t.Fatal("the cycle is not as long as the mode says")
		}
		by := new(big.Rat).Sub(o.Degrees(at+n), o.Degrees(at))
		if by.Add(by, o.Degrees(at-n)).Cmp(o.Degrees(at)) != 0 {
			t.Fatal("back is not the mirror of forward")
		}
	})
}

// The modes agree where their rows coincide.
func TestModesAgree(t *testing.T) {
	half := Half.Order()
	for k := range int64(4) {
		if half.Row(2*k) != Wave.Order().Row(k) || half.Row(2*k+1) != Full.Order().Row(k) {
			t.Errorf("half step does not hold the rows of wave and full at %d", k)
		}
	}
	for _, m := range everyMode(t)[len(Modes):] {
		o := m.Order()
		for k := range int64(4) {
			if o.Row(k*int64(m.PerStep)) != Wave.Order().Row(k) {
				t.Errorf("%s: row %d is not the wave row", m.Title, k)
			}
			if m.PerStep%2 == 0 {
				f := o.Row(k*int64(m.PerStep) + int64(m.PerStep)/2).Field()
				want := Full.Order().Row(k).Field()
				if math.Abs(f.A*math.Sqrt2-want.A) > 1e-15 || math.Abs(f.B*math.Sqrt2-want.B) > 1e-15 {
					t.Errorf("%s: half way to the next step it is %v", m.Title, f)
				}
			}
		}
	}
}

func TestNearestIsTheRowItself(t *testing.T) {
	for _, m := range everyMode(t) {
		o := m.Order()
		some := 37
		if raced {
			some = 5
		}
		for k := 0; k < o.Len(); k += 1 + o.Len()/some { // some rows of each will do
			deg, _ := o.Row(int64(k)).Field().Degrees()
			for _, off := range []float64{0, 0.1, -0.1, 360, -720} {
				if got := o.Nearest(deg + off); got != k {
					t.Fatalf("%s: nearest to row %d (%v°) is %d", m.Title, k, deg+off, got)
				}
			}
		}
	}
	if Custom([]Row{{}, {1, 0, 1, 0}}).Nearest(90) != 0 {
		t.Error("rows without a field have no nearest")
	}
}

func TestRowsThatCancel(t *testing.T) {
	for _, c := range []struct {
		row             Row
		none            bool
		deg             float64
		unipolar, bipol float64 // heat
	}{
		{Row{}, true, 0, 0, 0},
		{Row{1, 0, 1, 0}, true, 0, 2, 0},
		{Row{1, 1, 1, 1}, true, 0, 4, 0},
		{Row{1, 1, 1, 0}, false, 90, 3, 1},
		{Row{0, 1, 0, 1}, true, 0, 2, 0},
		{Row{1, 1, 0, 0}, false, 45, 2, 2},
		{Row{0, 0, 0.5, 0.5}, false, 225, 0.5, 0.5},
	} {
		f := c.row.Field()
		deg, ok := f.Degrees()
		if f.None() != c.none || ok == c.none || deg != c.deg || c.row.Heat(Unipolar) != c.unipolar || c.row.Heat(Bipolar) != c.bipol {
			t.Errorf("%v: %v %v %v, heat %v and %v", c.row, f.None(), deg, ok, c.row.Heat(Unipolar), c.row.Heat(Bipolar))
		}
	}
	if r := (Row{1, 1, 1, 0}); !r.BothOn(0) || r.BothOn(1) {
		t.Error("both ends of A are on, not of B")
	}
}

// A step by 10¹⁵ costs what a step by 1 costs: nothing is allocated, and no loop
// runs.
func TestFarStepCostsNoMore(t *testing.T) {
	o := Half.Order()
	for _, step := range []int64{1, far} {
		if n := testing.AllocsPerRun(100, func() { o.Row(step) }); n != 0 {
			t.Errorf("step %d allocates %v times", step, n)
		}
	}
	const rounds = 1_000_000
	var took [2]time.Duration
	for i, step := range []int64{1, far} {
		start := time.Now()
		for range rounds {
			o.Row(step)
		}
		took[i] = time.Since(start)
	}
	t.Logf("%d steps by 1: %v, by 10^15: %v", rounds, took[0], took[1])
	if took[1] > 20*took[0]+50*time.Millisecond {
		t.Errorf("a step by 10^15 takes %v times a step by 1", took[1]/took[0])
	}
}

func TestParseEnd(t *testing.T) {
	for text, want := range map[string]End{"A+": APlus, "b+": BPlus, "A-": AMinus, " B− ": BMinus} {
		if e, ok := ParseEnd(text); !ok || e != want {
			t.Errorf("%q: %v %v", text, e, ok)
		}
	}
	for _, text := range []string{"", "A", "C+", "A+B", "+A", "A0"} {
		if e, ok := ParseEnd(text); ok {
			t.Errorf("%q is read as %v", text, e)
		}
	}
}
