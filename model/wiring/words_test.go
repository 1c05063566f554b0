package wiring

import (
	"math"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Each fault as a person writes it, and what is told of it: the flap's outputs 1 to
// 4 feed BN WH GN GY, its common is VT; the 6-lead hybrid's BK RD GN BU, its taps
// are YE and WH; the 8-lead one's RD WH BK GN.
func TestFaultsInWords(t *testing.T) {
	for _, c := range []struct{ motor, fault, text, cure string }{
		{"vent-flap", "swap 2 3", "WH and GN swapped (outputs 2, 3)", "supply off; exchange outputs 2 and 3 at the plug, or columns 2 and 3 in the firmware; exchanging 1 and 4 instead makes it turn too, the other way"},
		{"vent-flap", "swap 4,1", "BN and GY swapped (outputs 1, 4)", "exchange outputs 1 and 4 at the plug, or columns 1 and 4 in the firmware; exchanging 2 and 3 instead"},
		{"vent-flap", "swap 1 3", "coil A reversed (BN and GN exchanged)", "supply off; exchange BN and GN at the plug, or send the order in reverse"},
		{"vent-flap", "reversed b", "coil B reversed (WH and GY exchanged)", "exchange WH and GY at the plug"},
		{"vent-flap", "open green", "GN open (lead, plug or coil)", "supply off, unplug; measure GN: crimp"},
		{"vent-flap", "dead 4", "output 4 (GY) never comes on", "the line to the driver's input 4"},
		{"vent-flap", "stuck 2", "output 2 (WH) never goes off", "supply off at once: coil WH heats; then check the pin of input 2"},
		{"vent-flap", "tap", "the common VT not at the supply", "supply off; put it to the motor supply"},
		{"hybrid-6", "tap A", "the tap YE not at the supply", "supply off; put it to the motor supply"},
		{"hybrid-6", "tap wh", "the tap WH not at the supply", "supply off; put it to the motor supply"},
		{"hybrid-8", "tap B", "the inner ends of phase B not at the supply", "supply off; put it to the motor supply"},
		{"hybrid-8", "half BK", "the half of BK the wrong way round", "supply off; exchange both leads of the half of BK"},
		{"hybrid-4", "DEAF", "the direction command never arrives", "check the sign of the speed"},
		{"hybrid-4", "sag", "the supply sags with two phases on", "measure the supply at the driver while two phases are on"},
	} {
		m := builtIn(t, c.motor)
		f, err := ParseFault(m, c.fault)
		if err != nil || f.Text(m) != c.text || !strings.Contains(f.Cure(m), c.cure) {
			t.Errorf("%s, %s: %q, cure %q, %v", c.motor, c.fault, f.Text(m), f.Cure(m), err)
		}
	}
	for name, faults := range map[string][]string{
		"vent-flap": {"", "swap", "swap 1", "swap 0 1", "swap 4 5", "swap 2 2", "open", "open VT", "dead 0", "dead 5", "dead x", "reversed", "reversed C", "half BN", "explodes", "swap 1 2 3"},
		"hybrid-4":  {"tap", "tap A", "half BK"}, "hybrid-6": {"tap", "tap BK", "half BK"},
	} {
		for _, fault := range faults {
			if f, err := ParseFault(builtIn(t, name), fault); err == nil {
				t.Errorf("%s, %q: %+v", name, fault, f)
			}
		}
	}
	// 4 neighbours to swap, 2 coils, 4 leads, 8 outputs dead or on, deaf and sag; taps
	// only where one goes to the supply, halves only of 8 leads.
	for name, want := range map[string]int{"hybrid-4": 20, "vent-flap": 21, "hybrid-6": 22, "hybrid-8": 26} {
		if got := len(Faults(builtIn(t, name))); got != want {
			t.Errorf("%s can have %d faults, want %d", name, got, want)
		}
	}
}

// The other swap that cures a wrong order: for every wiring and swap it is another,
// and with both done the shaft turns the other way.
func TestTheOtherSwapTurnsTheOtherWay(t *testing.T) {
	for _, wiring := range sequence.Permutations() {
		for i := range 4 {
			for k := i + 1; k < 4; k++ {
				f := Fault{Kind: Swapped, I: i, K: k}
				a, b, ok := f.otherSwap(wiring)
				if wiring[i].Opposite() == wiring[k] {
					continue // a coil reversed, which turns anyway
				}
				if !ok || a == i && b == k || a >= b {
					t.Fatalf("%v, outputs %d and %d: %d and %d, %v", wiring, i, k, a, b, ok)
				}
				// What the coil ends get of an order written for the wiring as it was.
				now := wiring.Swapped(i, k).Swapped(a, b)
				var ring sequence.Permutation
				for o, end := range wiring {
					ring[end] = now[o]
				}
				if step := (int(ring[1]) - int(ring[0]) + 4) % 4; step != 3 || (int(ring[2])-int(ring[1])+4)%4 != 3 || (int(ring[3])-int(ring[2])+4)%4 != 3 {
					t.Fatalf("%v, outputs %d and %d, then %d and %d: the ends are fed in the order %v", wiring, i, k, a, b, ring)
				}
			}
		}
	}
}

func TestBehaviourInWords(t *testing.T) {
	for _, c := range []struct {
		b      Behaviour
		text   string
		likely Does
	}{
		{Behaviour{Share: map[Does]float64{Clockwise: 1}, Hold: 1}, "turns clockwise", Clockwise},
		{Behaviour{Share: map[Does]float64{CounterClockwise: 0.985, Still: 0.015}, Hold: 0.89}, "turns counter-clockwise, weakly", CounterClockwise},
		{Behaviour{Share: map[Does]float64{Clockwise: 1}, Hold: 0.9}, "turns clockwise", Clockwise},
		{Behaviour{Share: map[Does]float64{Skips: 0.5, Buzzes: 0.3, Still: 0.2}, Places: 2, Hold: 0.5}, "turns too little 50 %, buzzes, 2 places 30 %, stays still 20 %", Skips},
		{Behaviour{Share: map[Does]float64{Buzzes: 1}, Places: 1}, "buzzes", Buzzes},
		{Behaviour{Share: map[Does]float64{Clockwise: 0.4, CounterClockwise: 0.4, Still: 0.2}, Either: true, Hold: 0.5}, "turns clockwise 40 %, turns counter-clockwise 40 %, stays still 20 %, weakly; held by hand, it can be turned round", Buzzes},
	} {
		if got := c.b.Text(); got != c.text || c.b.Likeliest() != c.likely {
			t.Errorf("%+v: %q, %s", c.b, got, c.b.Likeliest())
		}
	}
}

// How probable a word is for a behaviour, by hand from the table of what is told:
// behind gears three tenths of the difference between a buzz and standing still go
// over, and places of a buzz are counted right in six of ten.
func TestChanceOfAWord(t *testing.T) {
	share := func(parts map[Does]float64) Behaviour { return Behaviour{Share: parts, Hold: 1} }
	turns, half := share(map[Does]float64{Clockwise: 1}), share(map[Does]float64{Buzzes: 0.5, Still: 0.5})
	buzz := share(map[Does]float64{Buzzes: 1})
	places := buzz
	places.Places = 2
	weak := turns
	weak.Hold = 0.7
	either := turns
	either.Either = true
	for _, c := range []struct {
		name   string
		seen   Seen
		places int
		b      Behaviour
		geared bool
		want   float64
	}{
		{"turns", "cw", 0, turns, false, 0.94}, {"turns, told wrong", "ccw", 0, turns, true, 0.02},
		{"half and half", "buzz", 0, half, false, (0.83 + 0.05) / 2}, {"half and half, still", "still", 0, half, false, (0.05 + 0.92) / 2},
		{"behind gears", "buzz", 0, buzz, true, 0.83 + 0.3*(0.05-0.83)}, {"still behind gears", "still", 0, buzz, true, 0.05 + 0.3*(0.83-0.05)},
		{"skips behind gears", "skips", 0, buzz, true, 0.08},
		{"counted right", "buzz", 2, places, false, 0.83 * 0.6}, {"counted wrong", "buzz", 3, places, false, 0.83 * 0.08}, {"not counted", "buzz", 0, places, false, 0.83},
		{"gears hide the places", "buzz", 3, places, true, 0.83 + 0.3*(0.05-0.83)}, {"no places are known", "buzz", 3, buzz, false, 0.83},
		{"weak", Weak, 0, weak, false, 0.52}, {"weak, told of a strong one", Weak, 0, turns, false, 0.07}, {"weak, and it does not turn", Weak, 0, buzz, false, 0.02},
		{"turned round by hand", Reverses, 0, either, false, 0.5}, {"not to be turned round", Reverses, 0, turns, false, 0.03}, {"unsure", Unsure, 0, turns, false, 1},
	} {
		if got := chanceOf(Symptom{Seen: c.seen, Places: c.places}, c.b, c.geared); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	for _, row := range told {
		sum := 0.0
		for _, p := range row {
			sum += p
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Errorf("what is told of it adds up to %v: %v", sum, row)
		}
	}
	for want, p := range map[float64]map[Seen]float64{0: {"cw": 0.3}, 1: {"cw": 2, "buzz": 2}, 2: {"cw": 0.1, "ccw": 0.1, "still": 0.1, "buzz": 0.1}, 1.5: {"cw": 2, "ccw": 1, "skips": 1}} {
		if got := entropyOf(p); math.Abs(got-want) > 1e-12 {
			t.Errorf("%v: %v bits, want %v", p, got, want)
		}
	}
}

// The density of a reading, by hand: of 2 half-coils of 50 ohm and 0.3 ohm of meter
// leads 100.3 is expected, give or take √((3.5 % of 100)² + 0.1²) = 3.5014 ohm; a
// slip may be anything, evenly over eight decades: 1/(r + 0.1)/18.4207.
func TestChanceOfAReading(t *testing.T) {
	slipped := func(ohm float64) float64 { return 0.01 / (ohm + 0.1) / 18.420681 }
	for _, c := range []struct {
		name                string
		r                   Reading
		halves, ohm, meters float64
		want                float64
	}{
		{"as expected", Reading{Ohm: 100.3}, 2, 50, 0.3, 0.99*0.1139370 + slipped(100.3)},
		{"one deviation off", Reading{Ohm: 100.3 + 3.5014283}, 2, 50, 0.3, 0.99*0.0691063 + slipped(103.8014)},
		{"a joint", Reading{Ohm: 0.3}, 0, 50, 0.3, 0.99*3.9894228 + slipped(0.3)},
		{"far off", Reading{Ohm: 1000}, 2, 50, 0.3, slipped(1000)},
		{"open as expected", Reading{Open: true}, apart, 50, 0.3, 0.99},
		{"open where a coil is", Reading{Open: true}, 1, 50, 0.3, 0.01},
		{"open where a joint is", Reading{Open: true}, 0, 50, 0.3, 0.01},
		{"a coil where nothing is", Reading{Ohm: 50}, apart, 50, 0.3, slipped(50)},
	} {
		if got := chance(c.r, c.halves, c.ohm, c.meters); math.Abs(got/c.want-1) > 1e-5 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func TestOhmsInWords(t *testing.T) {
	for v, want := range map[float64][2]string{99.96: {"100.0", "100"}, 100: {"100", "100"}, 9.94: {"9.94", "9.9"}, 10: {"10.0", "10"}, 1234: {"1234", "1200"}, 0.1234: {"0.12", "0.12"}, 52.4: {"52.4", "52"}, 7.24: {"7.24", "7.2"}, 1.06: {"1.06", "1.1"}} {
		if a, b := ohms(v), twoDigits(v); a != want[0] || b != want[1] {
			t.Errorf("%v: %s, and to two digits %s; want %s, %s", v, a, b, want[0], want[1])
		}
	}
}

// The bounds of what a person may write down, and what a text of readings is.
func TestBoundsOfWhatIsWritten(t *testing.T) {
	if r, err := ReadReadings("r", []byte(strings.Repeat("a,b,1\n", 400))); err != nil || len(r) != 400 {
		t.Errorf("400 readings: %d, %v", len(r), err)
	}
	if r, err := ReadReadings("r", []byte("a,b,1\nc,d,1\ne,f,1\ng,h,1\ni,j,1\nk,l,100M\na,case,0\n")); err != nil || len(r) != 7 {
		t.Errorf("12 leads and the case: %d, %v", len(r), err)
	}
	if _, err := ReadReadings("r", []byte("a,b,100.1M\n")); err == nil {
		t.Error("100.1 Mohm is read")
	}
	if all, err := ReadSymptoms("s", []byte(strings.Repeat("half forward cw\n", 100))); err != nil || len(all) != 100 {
		t.Errorf("100 symptoms: %d, %v", len(all), err)
	}
	if _, err := ReadSymptoms("s", []byte(strings.Repeat("half forward cw\n", 101))); err == nil || !strings.Contains(err.Error(), "s:101: this is symptom 101; at most 100") {
		t.Error(err)
	}
	for text, good := range map[string]bool{"half forward buzz 1": true, "half forward buzz 100": true, "half forward buzz 0": false, "half forward buzz 101": false,
		"half forward cw at 1e6": true, "half forward cw at 1000001": false, "half forward cw at 0": false, "half forward cw at NaN": false} {
		if _, err := ParseSymptom(text); (err == nil) != good {
			t.Errorf("%s: %v", text, err)
		}
	}
	five, _ := OfFive([]motor.Lead{"p", "q", "r", "s"}, "z")
	if all, err := ReadReplies("a", []byte(strings.Repeat("kick p q cw\n", 200)), five); err != nil || len(all) != 200 {
		t.Errorf("200 answers: %d, %v", len(all), err)
	}
	if _, err := ReadReplies("a", []byte(strings.Repeat("kick p q cw\n", 201)), five); err == nil || !strings.Contains(err.Error(), "a:201: this is answer 201; at most 200") {
		t.Error(err)
	}
	for text, want := range map[string]bool{
		"BN,VT,52\n": true, "# by hand\nlead,lead,ohm\nBN,VT,open\n": true, "a b 5\nc d 5 kohm\n": true, "lead,lead,ohm\nx,y,z\na,b,1\n": false,
		"": false, "# nothing\n": false, "BN,VT\n": false, "1,2,3,4\n": false, "{1,2,3}\n": false, "a,b,=1\n": false, "a,b,c\n": false,
	} {
		if got := LikeReadings([]byte(text)); got != want {
			t.Errorf("%q is like readings: %v", text, got)
		}
	}
	if leads, err := ParseLeads("brown, WH a1,case"); err != nil || !slices.Equal(leads, []motor.Lead{"BN", "WH", "a1", Case}) {
		t.Errorf("%v, %v", leads, err)
	}
	if leads, err := ParseLeads("a b c d e f g h i j k l"); err != nil || len(leads) != 12 {
		t.Errorf("%v, %v", leads, err)
	}
	for text, want := range map[string]string{"a b c d e f g h i j k l m": "13 leads are named; at most 12", "BN brown": "BN stands twice", "RDWH": "which colour is the base"} {
		if leads, err := ParseLeads(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, %v", text, leads, err)
		}
	}
	for text, want := range map[string]float64{" 52 ": 52, "1.2k": 1200, "0": 0, "52.3 ohm": 52.3} {
		if ohm, open, err := ParseReading(text); err != nil || open || math.Abs(ohm-want) > 1e-9 {
			t.Errorf("%s: %v, %v, %v", text, ohm, open, err)
		}
	}
}

// What a settlement says to do, line by line.
func TestSettlementInWords(t *testing.T) {
	s := asked(t, 4, false, "kick p q cw\nkick q r cw\nkick p q cw")
	done := s.Settle([4]motor.Lead{"p", "s", "r", "q"}).Text()
	if len(done) != 3 || done[0] != "On outputs 1 to 4: p q r s." && done[0] != "On outputs 1 to 4: r s p q." || !strings.HasPrefix(done[1], "As it is wired: supply off, exchange ") || !strings.Contains(done[1], "columns ") || !strings.HasPrefix(done[2], "Send the order forward") {
		t.Errorf("%q", done)
	}
	if right := s.Settle([4]motor.Lead{"q", "r", "s", "p"}).Text(); len(right) != 3 || right[1] != "So it is wired already." || right[0] != "On outputs 1 to 4: q r s p." {
		t.Errorf("%q", right)
	}
	if unknown := s.Settle([4]motor.Lead{"p", "", "r", "q"}).Text(); len(unknown) != 2 {
		t.Errorf("%q", unknown)
	}
}
