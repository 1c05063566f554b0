package wiring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"sort"
	"strings"
	"testing"

	"coilwalk/model/motor"
)

func kindOf(leads int) string { return fmt.Sprintf("%d-lead", leads) }

// determined says whether the pairs that were read leave only one kind of motor
// possible, by trying every kind under every naming of the leads that were
// named. (Four equal coils and a motor of which leads were overlooked are told
// by prior odds, not by readings; so only motors with as many leads compete,
// and those of which a lead is not named.)
func determined(m benchMotor, taken map[[2]int]bool) bool {
	for _, leads := range []int{4, 5, 6, 8} {
		if leads == m.leads || leads < m.leads {
			continue
		}
		if fits(benchMotor{leads: leads, ohm: m.ohm, broke: -1}, m, taken, make([]int, 0, m.leads), 0) {
			return false
		}
	}
	return true
}

// fits searches for places of other's leads at which it would read as m does.
func fits(other, m benchMotor, taken map[[2]int]bool, place []int, used int) bool {
	k := len(place)
	if k == m.leads {
		return true
	}
	for p := range other.leads {
		if used>>p&1 == 1 {
			continue
		}
		good := true
		for j := range k {
			good = good && (!taken[[2]int{j, k}] || alike(other, place[j], p, m, j, k))
		}
		if good && fits(other, m, taken, append(place, p), used|1<<p) {
			return true
		}
	}
	return false
}

// alike compares shapes only: the resistance itself is not known, so one
// half-coil of one motor may be two of the other.
func alike(other benchMotor, a, b int, m benchMotor, c, d int) bool {
	return (other.sees(a, b) == 0) == (m.sees(c, d) == 0)
}

// cases runs motors under random namings, noise and gaps. COILWALK_LONG=1 runs
// ten times as many.
func cases(t *testing.T, each func(m benchMotor, p *person, readings []Reading, taken map[[2]int]bool)) (count int) {
	rounds := 2
	if os.Getenv("COILWALK_LONG") != "" {
		rounds = 20
	}
	random := rand.New(rand.NewPCG(1, 2))
	assignments := map[int]int{4: 3, 5: 5, 6: 90, 8: 105} // as many namings as there are assignments
	for _, leads := range []int{4, 5, 6, 8} {
		runs := rounds * assignments[leads]
		if raced {
			runs = (runs + 3) / 4
		}
		for i := range runs {
			m := benchMotor{leads: leads, ohm: []float64{1.5, 12, 52, 300}[random.IntN(4)], broke: -1}
			p := &person{Rand: random, naming: random.Perm(leads), meter: 0.5 * random.Float64(),
				noise: []float64{0, 0.01, 0.025, 0.05}[i%4], leave: []float64{0, 0.1, 0.25, 0.4}[i/4%4]}
			readings, taken := p.read(m)
			if len(readings) == 0 {
				continue
			}
			count++
			each(m, p, readings, taken)
		}
	}
	return count
}

// The true kind never gets less odds than a wrong one when the readings
// determine it.
func TestTrueKindWins(t *testing.T) {
	certain, wrong := 0, 0
	count := cases(t, func(m benchMotor, p *person, readings []Reading, taken map[[2]int]bool) {
		a := Identify(readings)
		if len(a.Leads) < m.leads || !determined(m, taken) {
			return
		}
		certain++
		if a.Kinds[0].Kind != kindOf(m.leads) {
			wrong++
			t.Errorf("a %d-lead motor of %v ohm, ±%v, %d readings: %v", m.leads, m.ohm, p.noise, len(readings), a.Kinds)
		}
	})
	t.Logf("%d motors, %d determined by their readings, %d told wrong", count, certain, wrong)
	if certain < count/2 {
		t.Errorf("only %d of %d are determined: the test tests little", certain, count)
	}
}

// Stated odds of the whole arrangement are calibrated: of the answers with odds
// in a bin, about that share is right.
func TestOddsAreCalibrated(t *testing.T) {
	type bin struct {
		stated float64
		right  int
		n      int
	}
	bins := make([]bin, 5)
	cases(t, func(m benchMotor, p *person, readings []Reading, taken map[[2]int]bool) {
		s := sit(readings, nil)
		best := s.weigh()[0]
		right := best.kind == kindOf(m.leads) && len(s.leads) == m.leads && best.defect == nil
		place := make([]int, m.leads)
		for motorPlace, named := range p.naming {
			place[named] = motorPlace
		}
		if right {
			for i := range s.leads {
				for k := i + 1; k < len(s.leads); k++ { // all leads are named, so their order is that of the names
					halves := best.between(i, k)
					right = right && halves == map[bool]int{true: apart, false: m.sees(place[i], place[k])}[m.sees(place[i], place[k]) == 0]
				}
			}
		}
		b := &bins[min(int(best.odds*5), 4)]
		b.stated += best.odds
		b.n++
		if right {
			b.right++
		}
	})
	for i, b := range bins {
		if b.n == 0 {
			continue
		}
		stated, share := b.stated/float64(b.n), float64(b.right)/float64(b.n)
		t.Logf("odds %.1f to %.1f: %d answers, stated %.3f, right %.3f", float64(i)/5, float64(i+1)/5, b.n, stated, share)
		spread := 3*math.Sqrt(stated*(1-stated)/float64(b.n)) + 0.12
		if math.Abs(share-stated) > spread {
			t.Errorf("odds of %.2f are right in %.2f of %d cases", stated, share, b.n)
		}
	}
}

// The inference commutes with renaming of leads.
func TestRenaming(t *testing.T) {
	n := 0
	cases(t, func(m benchMotor, p *person, readings []Reading, _ map[[2]int]bool) {
		if n++; n%5 != 0 {
			return
		}
		order := p.Perm(26)
		renamed := func(l motor.Lead) motor.Lead {
			if l == "" {
				return ""
			}
			return motor.Lead(fmt.Sprintf("x%c", 'a'+order[l[4]-'a']))
		}
		other := append([]Reading(nil), readings...)
		for i := range other {
			other[i].A, other[i].B = renamed(other[i].A), renamed(other[i].B)
		}
		a, b := Identify(readings), Identify(other)
		for i := range a.Kinds {
			for _, k := range b.Kinds {
				if k.Kind == a.Kinds[i].Kind && math.Abs(k.Odds-a.Kinds[i].Odds) > 1e-6 {
					t.Fatalf("%s: %v and, renamed, %v", k.Kind, a.Kinds[i].Odds, k.Odds)
				}
			}
		}
		if want, got := phaseSets(a.Phases, renamed), phaseSets(b.Phases, func(l motor.Lead) motor.Lead { return l }); !reflect.DeepEqual(want, got) {
			t.Fatalf("phases %v and, renamed, %v", want, got)
		}
	})
}

func phaseSets(phases []Phase, rename func(motor.Lead) motor.Lead) []string {
	var all []string
	for _, p := range phases {
		var ends []string
		for _, e := range p.Ends {
			ends = append(ends, string(rename(e)))
		}
		sort.Strings(ends)
		all = append(all, strings.Join(ends, " ")+" tap "+string(rename(p.Tap)))
	}
	sort.Strings(all)
	return all
}

// Every broken lead of every kind of motor, all pairs read: found and named.
func TestBrokenLeadIsFound(t *testing.T) {
	for _, leads := range []int{4, 5, 6, 8} {
		for broke := range leads {
			m := benchMotor{leads: leads, ohm: 52, broke: broke}
			p := &person{Rand: rand.New(rand.NewPCG(3, uint64(broke))), naming: rand.New(rand.NewPCG(4, 4)).Perm(leads), noise: 0.02, meter: 0.2}
			readings, _ := p.read(m)
			a := Identify(readings)
			if a.Kinds[0].Kind != kindOf(leads) || len(a.Faults) != 1 || a.Faults[0].Kind != "open-lead" || !strings.Contains(fmt.Sprint(a.Faults[0].Leads), string(name(p.naming[broke]))) {
				t.Errorf("%d leads, %s broken: %s %+v", leads, name(p.naming[broke]), a.Kinds[0].Kind, a.Faults)
			}
		}
	}
}

func identified(t *testing.T, text string) Answer {
	t.Helper()
	r, err := ReadReadings("x", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return Identify(r)
}

// The published rules: 4 leads, two isolated pairs (a maker's FAQ); 5 leads, R
// to the common and 2R between any two ends, so that ohms can not pair the
// coils (Harries, "Other Stepper Motors"); 6 leads, R, R, 2R and open across (a
// maker's page on lead counts); 8 leads, four isolated coils (a maker's FAQ).
func TestPublishedRules(t *testing.T) {
	a := identified(t, "A,B,52\nC,D,52\nA,C,open\nA,D,open\nB,C,open\nB,D,open")
	if a.Kinds[0].Kind != FourLead || len(a.Phases) != 2 || a.Kinds[0].Odds < sure {
		t.Errorf("4 leads: %+v", a)
	}
	a = identified(t, "BN,VT,52\nWH,VT,51\nGN,VT,53\nGY,VT,52\nBN,WH,104\nGN,GY,105\nBN,GN,103")
	if a.Kinds[0].Kind != FiveLead || fmt.Sprint(a.Common) != "[VT]" || len(a.Phases) != 0 || !strings.Contains(strings.Join(a.Undetermined, " "), "Only the shaft tells") {
		t.Errorf("5 leads: %+v", a)
	}
	a = identified(t, "BK,YE,30\nYE,GN,30\nBK,GN,60\nRD,WH,30\nWH,BU,30\nRD,BU,60\nBK,RD,open\nYE,WH,open")
	if a.Kinds[0].Kind != SixLead || len(a.Phases) != 2 || a.Phases[0].Tap != "YE" || a.Phases[1].Tap != "WH" || math.Abs(a.Ohm-30) > 0.5 {
		t.Errorf("6 leads: %+v", a)
	}
	a = identified(t, "1,2,1.9\n3,4,1.9\n5,6,1.9\n7,8,1.9\n1,3,open\n3,5,open\n5,7,open\n1,5,open\n1,7,open\n3,7,open")
	if a.Kinds[0].Kind != EightLead || len(a.Phases) != 4 || !strings.Contains(strings.Join(a.Undetermined, " "), "Which two halves") {
		t.Errorf("8 leads: %+v", a)
	}
}

func TestWhatReadingsHide(t *testing.T) {
	a := identified(t, "A,B,100\nA,C,101\nA,D,102\nB,C,99\nB,D,100\nC,D,101")
	if a.Kinds[0].Kind != FiveLead || !strings.Contains(strings.Join(a.Undetermined, " "), "common: equal readings") || len(a.Faults) != 0 {
		t.Errorf("a common that was not found: %+v", a)
	}
	a = identified(t, "A,E,52\nB,E,52\nC,E,52\nD,E,52\nA,F,52\nB,F,52\nC,F,52\nE,F,0.2\nA,B,104\nC,D,104")
	if a.Kinds[0].Kind != FiveLead || len(a.Common) != 2 {
		t.Errorf("a doubled common: %+v", a)
	}
	a = identified(t, "A,B,1000\nA,C,47\nB,C,9.1\nA,D,330\nB,D,open\nC,D,2200\nA,E,15\nB,E,68\nC,E,open\nD,E,7")
	if a.Kinds[0].Kind != Other {
		t.Errorf("no motor at all: %+v", a.Kinds)
	}
}

func TestFaultsAreNamed(t *testing.T) {
	for _, c := range []struct{ text, kind, part string }{
		{"A,B,30\nB,C,30\nA,C,60\nD,E,30\nE,F,30\nD,F,60\nA,D,open\nB,E,open\nC,F,open\nA,case,open\nD,case,0.3\nE,case,30.2\nF,case,60.1", "lead-to-case", "D is connected to the motor's case"},
		{"A,B,30\nB,C,15\nA,C,45\nD,E,30\nE,F,30\nD,F,60\nA,D,open\nB,E,open", "shorted-coil", "half-coil of C"},
		{"A,B,30\nB,C,30\nA,C,60\nD,E,30\nE,F,30\nD,F,60\nA,D,0.3\nB,E,60\nB,D,30\nA,E,30\nC,F,120\nC,D,60", "shorted-phases", "two phases are shorted"},
		{"BN,VT,52\nWH,VT,52\nGN,VT,104\nGY,VT,52\nBN,WH,104\nBN,GN,52\nBN,GY,104\nWH,GN,104\nWH,GY,104\nGN,GY,104", "contradiction", "if they are exchanged"},
		{"BN,VT,52\nWH,VT,52\nGN,VT,52\nGY,VT,310\nBN,WH,104\nBN,GN,104\nBN,GY,104\nWH,GN,104\nWH,GY,104\nGN,GY,104", "contradiction", "GY–VT 310 ohm does not fit"},
	} {
		a := identified(t, c.text)
		found := false
		for _, f := range a.Faults {
			found = found || f.Kind == c.kind && strings.Contains(f.Text, c.part)
		}
		if !found {
			t.Errorf("%s: want %s with %q, found %+v of a %s", c.text, c.kind, c.part, a.Faults, a.Kinds[0].Kind)
		}
	}
}

// The next reading leads to a sure answer: asked again and again, and answered
// by the motor, it ends soon, with the truth.
func TestNextReadingLeadsToTheAnswer(t *testing.T) {
	for _, leads := range []int{4, 5, 6, 8} {
		m := benchMotor{leads: leads, ohm: 52, broke: -1}
		var readings []Reading
		for i := range leads - 1 { // every lead is named: each to the next
			ohm, open := m.truth(i, i+1)
			readings = append(readings, Reading{A: name(i), B: name(i + 1), Ohm: ohm, Open: open})
		}
		asked := 0
		for ; asked < 40; asked++ {
			a := Identify(readings)
			if a.Next == nil {
				if a.Kinds[0].Kind != kindOf(leads) || a.Kinds[0].Odds < 0.9 {
					t.Errorf("%d leads, nothing more to read after %d: %v", leads, asked, a.Kinds)
				}
				break
			}
			i, k := int(a.Next.A[4]-'a'), int(a.Next.B[4]-'a')
			ohm, open := m.truth(i, k)
			readings = append(readings, Reading{A: a.Next.A, B: a.Next.B, Ohm: ohm, Open: open})
		}
		t.Logf("%d leads: %d readings asked for after the first %d, of %d pairs", leads, asked, leads-1, leads*(leads-1)/2)
		if asked+leads-1 > leads*(leads-1)/2 {
			t.Errorf("%d leads: %d readings", leads, asked)
		}
	}
}

// Full inference for an 8-lead motor with 28 readings: at most 20 ms are meant.
func BenchmarkBudgetIdentify8(b *testing.B) {
	p := &person{Rand: rand.New(rand.NewPCG(5, 5)), naming: []int{3, 1, 4, 0, 5, 7, 2, 6}, noise: 0.02}
	readings, _ := p.read(benchMotor{leads: 8, ohm: 1.9, broke: -1})
	for b.Loop() {
		Identify(readings)
	}
	b.ReportMetric(20e6, "allowed-ns")
}

// Most of the readings are still to come, and the next is chosen: at most 200 ms.
func BenchmarkBudgetNext8(b *testing.B) {
	p := &person{Rand: rand.New(rand.NewPCG(5, 5)), naming: []int{3, 1, 4, 0, 5, 7, 2, 6}, noise: 0.02, leave: 0.7}
	readings, _ := p.read(benchMotor{leads: 8, ohm: 1.9, broke: -1})
	for b.Loop() {
		if Identify(readings).Next == nil {
			b.Fatal("nothing is left to measure")
		}
	}
	b.ReportMetric(200e6, "allowed-ns")
}
