package motor

import (
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// Odds reckoned by hand from the shares and the normal curve: a reading of 1.5°
// deviation is at its middle 1/(1.5·√2π) = 0.26596 to a degree.
func TestOddsByHand(t *testing.T) {
	// 200 steps of a 200-step motor, 183° seen: half steps make 180°, two deviations
	// off. (0.98·0.26596·e⁻² + 0.02/543)·0.12 = 0.0042373; all other divisors
	// 0.02/543·0.87 = 0.0000320.
	told := Explain(believing(t, "hybrid-4", "", sequence.Full, 0, 0), saw(t, "200 steps = 183 deg"))
	if len(told) != 1 || math.Abs(told[0].Odds-0.99249) > 2e-5 || told[0].Expects[0] != 180 {
		t.Errorf("%+v", told)
	}
	// Where 360 rows are held for a turn, degrees taken for steps make the same, so
	// their shares alone part them: 0.75 to 0.08.
	told = Explain(believing(t, "hybrid-4", "", sequence.Full, 360, 0), saw(t, "360 deg = 648 deg"))
	if len(told) != 2 || told[0].asking != asDeclared || told[1].asking != degreesForSteps || math.Abs(told[0].Odds/told[1].Odds-0.75/0.08) > 1e-9 {
		t.Errorf("%+v", told)
	}
	// A divisor of 1 that was believed, and one of 8 that was not, are told equally
	// well by two readings that contradict each other: 0.62 to 0.06.
	told = Explain(believing(t, "hybrid-4", "", sequence.Full, 0, 0), saw(t, "200 steps = 360 deg", "1600 steps = 360 deg"))
	one, eight := told[0].Odds, told[1].Odds
	if told[0].divisor != 1 || told[1].divisor != 8 || math.Abs(one/eight-0.62/0.06) > 1e-9 {
		t.Errorf("%+v", told)
	}
}

// What the ratio of a train may be, before anything was seen.
func TestRatiosThatATrainMayHave(t *testing.T) {
	for _, c := range []struct {
		belief Belief
		want   map[string]float64
	}{
		{believing(t, "hybrid-4", "", sequence.Full, 0, 0), map[string]float64{"1": 1}},
		{believing(t, "geared-can", "9:32,11:22", sequence.Full, 0, 0), map[string]float64{"64/9": 0.94, "other": 0.06}},
		{believing(t, "geared-can", "9:32,11:22", sequence.Full, 0, 7), map[string]float64{"64/9": 0.79, "other": 0.06, "7": 0.15}},
		{believing(t, "geared-can", "1:4", sequence.Full, 0, 4), map[string]float64{"4": 0.94, "other": 0.06}},
	} {
		got := c.belief.ratios()
		for _, r := range got {
			name := "other"
			if r.ratio != nil {
				name = r.ratio.RatString()
			}
			if math.Abs(r.odds-c.want[name]) > 1e-12 {
				t.Errorf("%s: %v, want %v", name, r.odds, c.want[name])
			}
		}
		if len(got) != len(c.want) {
			t.Errorf("%d ratios, want %v", len(got), c.want)
		}
	}
}

// What a cause leaves free is weighed over its whole range: against the integral
// about it done in twenty thousand parts, and the best of it against the reading.
func TestFreeFactorsAreWeighedOverTheirRange(t *testing.T) {
	b := believing(t, "geared-can", "1:4", sequence.Full, 0, 0) // 128 full steps to a turn
	free := cause{divisor: 1, asking: asDeclared, scale: 1}
	wrong := cause{divisor: 1, ratio: big.NewRat(4, 1), asking: declaredWrong, scale: 1}
	for _, c := range []struct {
		name   string
		cause  cause
		seen   []string
		within float64
		scale  float64 // that fits best
	}{
		{"another ratio", free, []string{"128 steps = 396 deg"}, ratioWithin, 1.1},
		{"by two readings", free, []string{"128 steps = 325 deg", "12800 steps = 32400 deg"}, ratioWithin, 0.9},
		{"by two, the long one first", free, []string{"12800 steps = 32400 deg", "128 steps = 325 deg"}, ratioWithin, 0.9},
		{"near the end of the range", free, []string{"128 steps = 429 deg"}, ratioWithin, 429.0 / 360},
		{"a declared figure", wrong, []string{"360 deg = 1080 deg"}, widest, 3},
		{"one beside steps", wrong, []string{"128 steps = 360 deg", "3600 deg = 900 deg"}, widest, 0.25},
	} {
		seen := saw(t, c.seen...)
		const parts = 20_000
		range2 := 2 * math.Log(c.within)
		want := 0.0
		for k := range parts {
			try := c.cause
			try.scale = math.Exp((float64(k)+0.5)/parts*range2 - range2/2)
			if math.Abs(try.scale/c.scale-1) < 0.05 { // beyond, a reading is wrong altogether
				want += b.likelihood(try, seen) / parts
			}
		}
		fitted := c.cause
		got := b.weigh(&fitted, seen)
		if math.Abs(got/want-1) > 0.05 || math.Abs(fitted.scale/c.scale-1) > 0.002 {
			t.Errorf("%s: weighs %v at a factor of %v, want %v at %v", c.name, got, fitted.scale, want, c.scale)
		}
	}
	for name, c := range map[string]cause{"a ratio half as large again": free, "a declared figure out of all range": wrong} {
		far := c
		text := map[bool]string{true: "128 steps = 540 deg", false: "3.6 deg = 540 deg"}[c.ratio == nil]
		if got := b.weigh(&far, saw(t, text)); got != 0 || far.scale != 1 {
			t.Errorf("%s: weighs %v at %v", name, got, far.scale)
		}
	}
	if got := b.weigh(&cause{divisor: 1, ratio: big.NewRat(4, 1), scale: 1}, saw(t, "128 steps = 360 deg")); math.Abs(got-(0.98*0.26596+0.02/720)) > 1e-5 {
		t.Errorf("with nothing free it weighs %v", got)
	}
}

// Half of the play adds to the eye's part of 1.5°, at right angles: 4° make 2.5°.
func TestSpreadWithPlay(t *testing.T) {
	b := believing(t, "geared-can", "1:4", sequence.Full, 0, 0)
	for deg, want := range map[float64]float64{0: 1.5, 4: 2.5, 7.2: 3.9} {
		b.Motor.Train.Backlash = Backlash{quantity.Degrees(deg)}
		if got := b.spread(); math.Abs(got-want) > 1e-12 {
			t.Errorf("play of %v°: %v°, want %v°", deg, got, want)
		}
	}
}

func TestHeldOfATurn(t *testing.T) {
	geared, plain := believing(t, "geared-can", "", sequence.Full, 0, 0), believing(t, "hybrid-4", "", sequence.Half, 0, 0)
	for _, c := range []struct {
		belief            Belief
		text              string
		declared, nominal string
	}{
		{geared, "64:1", "2048", "64"}, {geared, "1:64", "2048", "64"}, {geared, "2048", "2048", "64"}, {geared, "2049", "2049", ""}, {geared, "1000000000", "1000000000", "31250000"},
		{plain, "400", "400", ""}, {plain, "2:1", "800", "2"}, {plain, "1600.5", "3201/2", ""},
	} {
		b := c.belief
		err := b.Hold(c.text)
		nominal := ""
		if b.Nominal != nil {
			nominal = b.Nominal.RatString()
		}
		if err != nil || b.Declared.RatString() != c.declared || nominal != c.nominal {
			t.Errorf("%s: %v, %s, %v; want %s, %q", c.text, b.Declared, nominal, err, c.declared, c.nominal)
		}
	}
	for _, text := range []string{"", "0", "-5", "x", "1000000001", "0:1", "64:", "9:32,11:22"} {
		b := geared
		if err := b.Hold(text); err == nil || b.Declared != nil || b.Nominal != nil {
			t.Errorf("%q: %v, %v", text, b.Declared, err)
		}
	}
}

// The fewest turns that show two explanations apart: by 9° where they are within a
// turn of each other, by 6° where one is a turn ahead and it can be counted.
func TestDecisionsTakeFewTurns(t *testing.T) {
	b := believing(t, "hybrid-4", "", sequence.Full, 0, 0)
	is := func(scale float64) Explanation { return Explanation{cause: cause{divisor: 1, scale: scale}} }
	for _, c := range []struct {
		apart float64 // degrees in one turn
		seen  string
		ask   string
		past  float64
	}{
		{9.1, "360 deg = 360 deg", "one turn", 9.1}, {8.9, "360 deg = 360 deg", "2 turns", 17.8}, {3.6, "360 deg = 360 deg", "5 turns", 18},
		{1, "360 deg = 360 deg", "10 turns", 10}, {0.1, "360 deg = 360 deg", "100 turns", 10}, {0.05, "360 deg = 360 deg", "", 0}, {0, "360 deg = 360 deg", "", 0},
		{367, "360 deg = 360 deg", "one turn", 7}, {365, "360 deg = 360 deg", "2 turns", 10}, {-353, "360 deg = 360 deg", "one turn", 7}, {350, "360 deg = 360 deg", "one turn", -10},
		{9.1, "200 steps = 360 deg", "200 steps", 9.1}, {3.6, "200 steps = 360 deg", "1000 steps", 18},
	} {
		d, ok := b.Decide([]Explanation{is(1), is(1 + c.apart/360)}, saw(t, c.seen))
		if c.ask == "" {
			if ok {
				t.Errorf("%v° apart: %+v", c.apart, d)
			}
			continue
		}
		if !ok || d.Ask != c.ask || math.Abs(d.Past[0]) > 1e-9 || math.Abs(d.Past[1]-c.past) > 1e-9 || math.Mod(d.Ends[0], 360) != 0 {
			t.Errorf("%v° apart: %+v, %v; want %s", c.apart, d, ok, c.ask)
		}
	}
	if d, ok := b.Decide([]Explanation{is(1)}, saw(t, "360 deg = 360 deg")); ok {
		t.Errorf("one explanation alone: %+v", d)
	}
	if d, ok := b.Decide([]Explanation{is(0.9), is(0.9 + 0.05/360)}, saw(t, "360 deg = 360 deg")); ok {
		t.Errorf("both fall short alike, and %+v parts them", d)
	}
}

// The bounds of what can have been observed, and of what is read of a train.
func TestBoundsOfObservations(t *testing.T) {
	for text, good := range map[string]bool{"1000000000 steps = 4 deg": true, "1000000001 steps = 4 deg": false, "1 step = 1000000000 deg": true, "1 step = 1000000000.1 deg": false} {
		if _, err := ParseObserved(text); (err == nil) != good {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// The words of each cause that is not as believed, and of nothing but the way that
// the teeth have it.
func TestWordsOfCauses(t *testing.T) {
	geared := believing(t, "geared-can", "1:4", sequence.Full, 0, 0)
	short := believing(t, "geared-can", "1:4", sequence.Full, 120, 0)
	half := believing(t, "hybrid-4", "", sequence.Half, 0, 0)
	four := big.NewRat(4, 1)
	for _, c := range []struct {
		belief Belief
		cause  cause
		want   string
	}{
		{geared, cause{divisor: 1, ratio: four, scale: 1}, "all is as believed"},
		{geared, cause{divisor: 16, ratio: four, scale: 1}, "each step that is sent makes 1/16 of a step, not a full step: the driver module's microstep divisor is set to 16"},
		{geared, cause{divisor: 1, scale: 0.8}, "the train is not as stated: its ratio is about 5:1"},
		{geared, cause{divisor: 1, ratio: big.NewRat(9, 2), scale: 1}, "the train has the printed ratio 4.5:1, not 4:1"},
		{geared, cause{divisor: 2, ratio: four, asking: withoutTrain, scale: 1}, "each step that is sent makes a half step, not a full step: the table or the driver works in half step; and the firmware holds the rotor's 32 steps for a turn of the shaft: the train was left out"},
		{geared, cause{divisor: 1, ratio: four, asking: declaredWrong, scale: 10}, "the firmware does not hold 128 steps to a turn of the shaft, but about 1280"},
		{short, cause{divisor: 1, ratio: four, scale: 1}, "as the teeth have it: 120 steps to a turn are declared, but a turn is 128, so each comes out 22.5° short"},
		{short, cause{divisor: 2, ratio: four, scale: 1}, "each step that is sent makes a half step, not a full step: the table or the driver works in half step"},
		{half, cause{divisor: 1, ratio: big.NewRat(1, 1), scale: 1}, "each step that is sent makes a full step, not a half step: the table or the driver works in full step"},
		{half, cause{divisor: 2, ratio: big.NewRat(1, 1), asking: degreesForSteps, scale: 1}, "degrees were given where steps are wanted"},
	} {
		if got := c.belief.words(c.cause); got != c.want {
			t.Errorf("%+v:\ngot  %s\nwant %s", c.cause, got, c.want)
		}
	}
	for v, want := range map[float64]string{999.4: "999", 1000: "1000", 1234.5: "1234", 63.684: "63.7", 0.12345: "0.123"} {
		if got := threeDigits(v); got != want {
			t.Errorf("%v is written %s, want %s", v, got, want)
		}
	}
}

// Counts that differ, in words: which is taken, which agrees, and which is wrong.
func TestAgreementInWords(t *testing.T) {
	fifty, _ := CountRotorTeeth(50)
	rings, _ := CountRings(4, 8)
	angle := func(num, den int64) Count {
		c, err := CountAngle(big.NewRat(num, den))
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	for _, c := range []struct {
		counts []Count
		wrong  []int
		want   string
	}{
		{nil, nil, "nothing was counted"},
		{[]Count{angle(9, 10), fifty}, nil, "50 rotor teeth: 200 full steps to a rotor turn; a step angle of 0.9° is the half-step angle, which agrees"},
		{[]Count{fifty, angle(18, 10), rings}, []int{2}, "50 rotor teeth: 200 full steps to a rotor turn; a step angle of 1.8° agrees; 4 rings of 8 teeth would make 32, so it must be wrong"},
		{[]Count{fifty, rings}, nil, "50 rotor teeth: 200 full steps to a rotor turn; 4 rings of 8 teeth would make 32: one of them must be wrong; count again"},
		{[]Count{angle(7, 1)}, nil, "a step angle of 7°: 51.429 full steps to a rotor turn: no multiple of 4, so no two-phase motor has it; measure again"},
	} {
		if g := Agree(c.counts); g.Text != c.want || !slices.Equal(g.Wrong, c.wrong) {
			t.Errorf("got  %s %v\nwant %s %v", g.Text, g.Wrong, c.want, c.wrong)
		}
	}
	for _, rings := range [][2]int{{4, 0}, {4, 501}, {3, 8}, {2, 8}} {
		if c, err := CountRings(rings[0], rings[1]); err == nil {
			t.Errorf("%+v", c)
		}
	}
	for teeth, good := range map[int]bool{0: false, 1: true, 500: true, 501: false} {
		if _, err := CountRotorTeeth(teeth); (err == nil) != good {
			t.Errorf("%d rotor teeth: %v", teeth, err)
		}
		if _, err := CountRings(4, teeth); (err == nil) != good {
			t.Errorf("rings of %d teeth: %v", teeth, err)
		}
	}
	for deg, good := range map[int64]bool{0: false, 1: true, 90: true, 91: false, -1: false} {
		if _, err := CountAngle(big.NewRat(deg, 1)); (err == nil) != good || err != nil && !strings.Contains(err.Error(), "can not be") {
			t.Errorf("%d°: %v", deg, err)
		}
	}
}
