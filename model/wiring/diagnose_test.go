package wiring

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"coilwalk/testdata/bounds"
)

// Each fault, told as it shows most often, stays among the first five, and is
// never ruled out: statics and one look each often leave several.
func TestFaultsAreFoundFromWhatTheyDo(t *testing.T) {
	first := 0
	count := 0
	for _, name := range []string{"vent-flap", "hybrid-4", "hybrid-6", "hybrid-8"} {
		m, s := builtIn(t, name), suspectsOf(t, name)
		for _, f := range Faults(m) {
			at := slices.IndexFunc(s.all, func(one suspect) bool { return slices.Contains(one.faults, f) })
			if at < 0 {
				t.Errorf("%s: %s is no suspect", name, f.Text(m))
				continue
			}
			var seen []Symptom
			for k, trial := range Trials() {
				b := s.all[at].does[k]
				symptom := Symptom{Trial: trial, Seen: Seen(b.SeenIn(k, 6))}
				if b.Share[Buzzes] > 0.4 {
					symptom.Places = b.Places
				}
				seen = append(seen, symptom)
			}
			count++
			found := false
			for rank, d := range s.Judge(seen).Ranked[:min(5, len(s.all))] {
				if len(d.Faults) > 0 && d.Faults[0].Kind == f.Kind && d.Odds > 0.005 {
					found = true
					if rank == 0 {
						first++
					}
				}
			}
			if !found {
				t.Errorf("%s: %s is not among the first five", name, f.Text(m))
			}
		}
	}
	t.Logf("%d of %d come first", first, count)
	if 2*first < count {
		t.Errorf("only %d of %d come first", first, count)
	}
}

// A bench of its own: a fault by chance, what it does by its shares, told wrong
// now and then. The odds of the first are kept by the share that is right.
func TestFaultOddsAreCalibrated(t *testing.T) {
	random := rand.New(rand.NewPCG(12, 7))
	s := suspectsOf(t, "hybrid-4")
	total := 0.0
	for _, one := range s.all {
		total += one.prior
	}
	pick := func(does []Behaviour, k int) Seen {
		x := random.Float64()
		word := Still
		for _, d := range everyDoes {
			if x -= does[k].Share[d]; x < 0 {
				word = d
				break
			}
		}
		if random.IntN(20) == 0 { // told wrong
			word = everyDoes[random.IntN(len(everyDoes))]
		}
		return Seen(word)
	}
	const runs = 1500
	right, stated := 0, 0.0
	for range runs {
		x := random.Float64() * total
		truth := 0
		for i, one := range s.all {
			if x -= one.prior; x < 0 {
				truth = i
				break
			}
		}
		var seen []Symptom
		for k, trial := range Trials() {
			if random.IntN(3) > 0 {
				seen = append(seen, Symptom{Trial: trial, Seen: pick(s.all[truth].does, k)})
			}
		}
		top := s.Judge(seen).Ranked[0]
		stated += top.Odds
		if top.Text == "no fault of wiring or driver" && truth == 0 || len(top.Faults) > 0 && len(s.all[truth].faults) > 0 && top.Faults[0] == s.all[truth].faults[0] {
			right++
		}
	}
	share, mean := float64(right)/runs, stated/runs
	t.Logf("stated %.3f, right %.3f", mean, share)
	if share < mean-0.04 || share > mean+0.08 {
		t.Errorf("the first is right in %.3f of all, and said %.3f", share, mean)
	}
}

// What people ask, and the answer of common practice (threads on forums, no one
// source): the likeliest names it, and what to do.
func TestWhatPeopleAsk(t *testing.T) {
	for _, c := range []struct{ motor, symptoms, want, cure string }{
		{"hybrid-4", "half forward buzz\nhalf reverse buzz\nfull forward buzz", "two leads swapped", "exchange"},
		{"hybrid-4", "half forward ccw\nhalf reverse cw", "reversed", "either coil"},
		{"hybrid-4", "half forward cw\nhalf reverse cw\nfull reverse cw", "direction command never arrives", "firmware"},
		{"vent-flap", "half forward still\nfull forward still\nwave reverse still", "common VT not at the supply", "motor supply"},
		{"hybrid-4", "half forward cw\nhalf reverse ccw\nfull forward cw", "no fault", "rate or the supply"},
		{"hybrid-6", "full forward buzz\nfull reverse buzz\nhalf forward skips\nwave forward cw\nwave reverse ccw", "", "supply off"},
	} {
		symptoms, err := ReadSymptoms("x", []byte(c.symptoms))
		if err != nil {
			t.Fatal(err)
		}
		top := suspectsOf(t, c.motor).Judge(symptoms).Ranked[0]
		if !strings.Contains(top.Text, c.want) || !strings.Contains(top.Cure, c.cure) {
			t.Errorf("%s, %q: %s (%.2f); %s", c.motor, c.symptoms, top.Text, top.Odds, top.Cure)
		}
	}
}

// What slow trials can not show is said: a start that is too fast, until a rate is told.
func TestWhatSlowTrialsDoNotShow(t *testing.T) {
	for text, want := range map[string]bool{"half forward buzz": true, "half forward buzz\nfull forward cw": true, "half forward buzz at 600": false, "full forward cw\nhalf forward buzz at 600": false} {
		symptoms, err := ReadSymptoms("x", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		j := suspectsOf(t, "hybrid-4").Judge(symptoms)
		if got := strings.Contains(strings.Join(j.NotJudged, "\n"), "a start that is too fast"); got != want {
			t.Errorf("%q: not judged are %q", text, j.NotJudged)
		}
	}
}

func TestNextTrialIsAskedUntilSure(t *testing.T) {
	s := suspectsOf(t, "hybrid-4")
	j := s.Judge(nil)
	if j.Next == nil || j.Next.ByHand {
		t.Fatalf("nothing is asked first: %+v", j.Next)
	}
	var seen []Symptom
	for range 6 { // the direction command never arrives
		if j.Next == nil || j.Next.ByHand {
			break
		}
		seen = append(seen, Symptom{Trial: j.Next.Trial, Seen: Seen(Clockwise)})
		j = s.Judge(seen)
	}
	if top := j.Ranked[0]; len(top.Faults) != 1 || top.Faults[0].Kind != Deaf || top.Odds < 0.85 || len(seen) > 4 {
		t.Errorf("after %d trials: %s, %.2f", len(seen), top.Text, top.Odds)
	}
}

func TestBadSymptoms(t *testing.T) {
	for text, want := range map[string]string{
		"half forward":           "is no symptom",
		"half forward buzz 2 3":  "is no symptom",
		"quarter forward buzz":   `"quarter" is none of the modes`,
		"half up buzz":           `"up" is no direction`,
		"half forward buz":       `did you mean "buzz"`,
		"half forward smoke":     "nothing that can be seen",
		"half forward buzz x":    "counts nothing",
		"half forward cw 2":      "only a buzz has places",
		"half forward cw at x":   `"x" is no rate`,
		"half forward cw at 4.9": "leave it out",
		"half forward at 3":      "is no symptom",
	} {
		_, err := ReadSymptoms("s.txt", []byte("# seen\n"+text+"\n"))
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "s.txt:2") {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	good, err := ReadSymptoms("s.txt", []byte("\ufeffHALF, forward, Buzz, 3 # rocks\r\n\nwave reverse unsure\nfull forward buzz 2 at 600\n"))
	if err != nil || len(good) != 3 || good[0].Places != 3 || good[1].Seen != Unsure || good[2].Rate != 600 || good[2].Places != 2 {
		t.Errorf("%+v, %v", good, err)
	}
}

func FuzzSymptoms(f *testing.F) {
	f.Add("half forward buzz 2\nwave reverse cw # so\n")
	f.Add("full,reverse,weak")
	f.Fuzz(func(t *testing.T, text string) {
		var all []Symptom
		var err error
		bounds.Hold(t, len(text), 4<<20, 4000, func() { all, err = ReadSymptoms("x", []byte(text)) })
		if err != nil {
			return
		}
		for _, s := range all {
			if place(s.Trial) < 0 || s.Line < 1 {
				t.Fatalf("%q reads %+v", text, s)
			}
		}
	})
}
