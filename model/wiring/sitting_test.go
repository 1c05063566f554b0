package wiring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"coilwalk/model/motor"
)

// seeds gives how many seeded runs a check makes; ten times as many with
// COILWALK_LONG.
func seeds(n int) int {
	if os.Getenv("COILWALK_LONG") != "" {
		return 10 * n
	}
	if raced {
		return n / 4
	}
	return n
}

// With right answers always the right mapping, and for 5 leads never more than
// three questions (the information bound is two: 3² ≥ 6).
func TestRightAnswersAlwaysLeadHome(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 6))
	for _, leads := range []int{4, 5, 6, 8} {
		for _, geared := range []bool{false, true} {
			worst, sum := 0, 0
			runs := seeds(60)
			for range runs {
				b := newShaftBench(random, leads)
				b.geared = geared
				s, asked := b.play(40)
				if best := s.Mappings()[0]; !b.right(best) || best.Odds < Trusted {
					t.Fatalf("%d leads, geared %v: %+v is told for %v after %v", leads, geared, best, b.angle, s.Replies())
				}
				if len(s.Contradictions()) > 0 {
					t.Fatalf("right answers contradict: %v", s.Contradictions())
				}
				worst, sum = max(worst, asked), sum+asked
			}
			t.Logf("%d leads, geared %v: %.2f questions on average, %d at most", leads, geared, float64(sum)/float64(runs), worst)
			if most := map[bool]int{false: 3, true: 4}[geared]; leads == 5 && worst > most {
				t.Errorf("5 leads, geared %v, took %d questions", geared, worst)
			}
		}
	}
}

// Wrong answers and such as can not be told: the share that ends right, and the
// odds that were stated.
func TestWrongAnswersAreRecoveredFrom(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	type bin struct {
		n, right int
		odds     float64
	}
	bins := make([]bin, 5)
	for _, wrong := range []float64{0, 0.05, 0.10, 0.15} {
		for _, leads := range []int{4, 5, 6, 8} {
			runs := seeds(200)
			right, sum := 0, 0
			for run := range runs {
				b := newShaftBench(random, leads)
				b.wrong, b.blind, b.geared = wrong, 0.20, run%2 == 1
				s, asked := b.play(60)
				sum += asked
				best := s.Mappings()[0]
				k := min(int((best.Odds-Trusted)/(1-Trusted)*5), 4)
				if best.Odds < Trusted {
					t.Errorf("%d leads with %.0f %% wrong: not settled after %d questions", leads, 100*wrong, asked)
					continue
				}
				bins[k].n++
				bins[k].odds += best.Odds
				if b.right(best) {
					right++
					bins[k].right++
				}
			}
			share := float64(right) / float64(runs)
			t.Logf("%d leads, %2.0f %% wrong, 20 %% unsure: %.1f %% right, %.2f questions", leads, 100*wrong, 100*share, float64(sum)/float64(runs))
			least := 0.95
			switch {
			case wrong == 0:
				least = 1
			case wrong <= 0.05:
				least = 0.97
			}
			slack := 2 * math.Sqrt(least*(1-least)/float64(runs))
			if share < least-slack {
				t.Errorf("%d leads with %.0f %% wrong: %.3f right, %.2f wanted", leads, 100*wrong, share, least)
			}
		}
	}
	for i, b := range bins {
		if b.n < 50 {
			continue
		}
		share, stated := float64(b.right)/float64(b.n), b.odds/float64(b.n)
		t.Logf("odds %.2f to %.2f: %d runs, stated %.3f, right %.3f", Trusted+float64(i)*(1-Trusted)/5, Trusted+float64(i+1)*(1-Trusted)/5, b.n, stated, share)
		if share < stated-2*math.Sqrt(stated*(1-stated)/float64(b.n))-0.005 {
			t.Errorf("of the runs that stop with stated odds %.3f only %.3f are right", stated, share)
		}
	}
}

// One who does not know the word "held" can not tell instead, and is led home all
// the same, without a contradiction.
func TestHeldCanGoUnsaid(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 8))
	unsaid := 0
	for range seeds(60) {
		b := newShaftBench(random, 8)
		b.plain = true
		s, _ := b.play(40)
		if best := s.Mappings()[0]; !b.right(best) || best.Odds < Trusted || len(s.Contradictions()) > 0 {
			t.Fatalf("%+v is told for %v after %v", best, b.angle, s.Replies())
		}
		for _, r := range s.Replies() {
			if r.Word == "unsure" {
				unsaid++
			}
		}
	}
	if unsaid == 0 {
		t.Error("two halves never pulled together: the test tests nothing")
	}
}

// A test that could not be told gives way to others, but not to the many that
// hardly tell anything: it is asked again before long.
func TestUnsureIsAskedAgain(t *testing.T) {
	s := asked(t, 8, true, "")
	var questions []string
	for range 12 {
		ask, _ := s.Next()
		questions = append(questions, ask.Question.String())
		s.Answer(append(s.Replies(), Reply{Question: ask.Question, Word: "unsure"}))
	}
	if questions[1] == questions[0] || !slices.Contains(questions[2:], questions[0]) {
		t.Errorf("%q", questions)
	}
}

// An answer that is taken back is as if it had never been given, and the order
// of answers does not matter.
func TestAnswersCanBeTakenBack(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 9))
	for range 40 {
		b := newShaftBench(random, []int{4, 5, 6, 8}[random.IntN(4)])
		b.wrong, b.blind = 0.2, 0.1
		s, _ := b.play(8)
		replies := slices.Clone(s.Replies())
		if len(replies) < 2 {
			continue
		}
		before := s.Mappings()
		slices.Reverse(replies)
		s.Answer(replies)
		for i, m := range s.Mappings() {
			if math.Abs(m.Odds-before[i].Odds) > 1e-9 {
				t.Fatalf("in another order: %v, %v", m, before[i])
			}
		}
		s.Answer(replies[1:])
		fresh := Sit(b.topology())
		fresh.Answer(replies[1:])
		if fmt.Sprint(fresh.Mappings()) != fmt.Sprint(s.Mappings()) {
			t.Fatal("an answer that was taken back still counts")
		}
	}
}

// Published rules. The nudge test of I. Harries, "Other Stepper Motors": with one
// end held, another that turns the shaft a little clockwise is the next coil, a
// little counter-clockwise the one before, nothing the opposite. W. G. Jansen,
// "Identifying Stepper Motors", Elektor 090420: the half with the largest induced
// voltage is the other half of the phase. And the opposed halves of the page on
// unknown motors (massmind): free only if both are one phase.
func TestPublishedShaftRules(t *testing.T) {
	five, err := OfFive([]motor.Lead{"4", "1", "2", "3"}, "com")
	if err != nil {
		t.Fatal(err)
	}
	read := func(text string) *Sitting {
		s := Sit(five)
		replies, err := ReadReplies("x", []byte(text), five)
		if err != nil {
			t.Fatal(err)
		}
		s.Answer(replies)
		return s
	}
	nudged := read("kick 4 3 cw\nkick 4 1 ccw\nkick 4 2 slack\n")
	if best := nudged.Mappings()[0]; best.Order != [4]motor.Lead{"4", "3", "2", "1"} || best.Odds < Trusted {
		t.Errorf("nudged: %+v", best)
	}
	// Who held 4, went up through 3 on the next half step, and so on, turned clockwise.
	induced := read("pulse 4 2 up\npulse 4 1 none\n")
	total := 0.0
	for _, m := range induced.Mappings() {
		if m.Order[2] == "2" {
			total += m.Odds
		}
	}
	if total < 0.9 {
		t.Errorf("induced in 2: opposite 4 with odds %.2f", total)
	}
	opposed := read("stiff 4 2 no\nstiff 4 1 yes\n")
	total = 0
	for _, m := range opposed.Mappings() {
		if m.Order[2] == "2" {
			total += m.Odds
		}
	}
	if total < 0.8 {
		t.Errorf("loose with 2: opposite 4 with odds %.2f", total)
	}
}

// The next test for 8 leads: at most 50 ms.
func BenchmarkBudgetNextTest8(b *testing.B) {
	bench := newShaftBench(rand.New(rand.NewPCG(1, 1)), 8)
	for b.Loop() {
		s := Sit(bench.topology())
		if _, ok := s.Next(); !ok {
			b.Fatal("nothing to ask")
		}
	}
	b.ReportMetric(50e6, "allowed-ns")
}
