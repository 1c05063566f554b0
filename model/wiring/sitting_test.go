package wiring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/motor"
)

// seeds gives how many seeded runs a check makes; ten times as many with
// COILWALK_LONG.
func seeds(n int) int {
	if os.Getenv("COILWALK_LONG") != "" {
		return 10 * n
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
			runs := seeds(150)
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

// The fewest moves to a right order, checked by trying all.
func TestFewestExchanges(t *testing.T) {
	five, _ := OfFive([]motor.Lead{"a", "b", "c", "d"}, "z")
	s := Sit(five)
	replies, err := ReadReplies("x", []byte("kick a b cw\nkick a c slack\nkick b c cw\nkick a d ccw\n"), five)
	if err != nil {
		t.Fatal(err)
	}
	s.Answer(replies)
	for _, c := range []struct {
		now   [4]motor.Lead
		moves int
	}{
		{[4]motor.Lead{"a", "b", "c", "d"}, 0}, {[4]motor.Lead{"b", "c", "d", "a"}, 0}, {[4]motor.Lead{"a", "c", "b", "d"}, 1},
		{[4]motor.Lead{"c", "b", "a", "d"}, 1}, {[4]motor.Lead{"d", "c", "b", "a"}, 1 + 0}, {[4]motor.Lead{"b", "a", "d", "c"}, 1 + 0},
	} {
		out := s.Settle(c.now)
		least := 9
		for _, rotation := range [][4]motor.Lead{{"a", "b", "c", "d"}, {"b", "c", "d", "a"}, {"c", "d", "a", "b"}, {"d", "a", "b", "c"}} {
			least = min(least, leastMoves(c.now, rotation))
		}
		if len(out.Swaps) != least {
			t.Errorf("from %v: %v, but %d would do", c.now, out.Swaps, least)
		}
		now := c.now
		for _, pair := range out.Swaps {
			i, k := slices.Index(now[:], pair[0]), slices.Index(now[:], pair[1])
			now[i], now[k] = now[k], now[i]
		}
		if now != out.Outputs || !strings.Contains("abcdabcd", joinedPlain(now)) {
			t.Errorf("from %v the swaps lead to %v, told %v", c.now, now, out.Outputs)
		}
		// Or in firmware: the leads stay, and output k is driven by the column that
		// the lead on it needs.
		for k, column := range out.Columns {
			if out.Outputs[column-1] != c.now[k] {
				t.Errorf("from %v: column %d drives %v", c.now, column, c.now[k])
			}
		}
	}
}

func joinedPlain(leads [4]motor.Lead) (s string) {
	for _, l := range leads {
		s += string(l)
	}
	return s
}

// leastMoves tries exchanges breadth first.
func leastMoves(from, to [4]motor.Lead) int {
	seen := map[[4]motor.Lead]int{from: 0}
	queue := [][4]motor.Lead{from}
	for len(queue) > 0 {
		now := queue[0]
		queue = queue[1:]
		if now == to {
			return seen[now]
		}
		for i := range 4 {
			for k := i + 1; k < 4; k++ {
				next := now
				next[i], next[k] = next[k], next[i]
				if _, known := seen[next]; !known {
					seen[next] = seen[now] + 1
					queue = append(queue, next)
				}
			}
		}
	}
	return -1
}

// A lamp tells which output a row of the firmware really drives.
func TestLampsSayWhichOutput(t *testing.T) {
	five, _ := OfFive([]motor.Lead{"a", "b", "c", "d"}, "z")
	s := Sit(five)
	replies, err := ReadReplies("x", []byte("kick a b cw\nkick a c slack\nkick b c cw\nlamp 1 1\nlamp 2 3\nlamp 3 2\nlamp 4 4\n"), five)
	if err != nil {
		t.Fatal(err)
	}
	s.Answer(replies)
	if out := s.Settle([4]motor.Lead{}); out.Outputs != [4]motor.Lead{"a", "c", "b", "d"} {
		t.Errorf("rows light outputs 1 3 2 4, so b belongs on 3: %v", out.Outputs)
	}
}

func TestBadReplies(t *testing.T) {
	five, _ := OfFive([]motor.Lead{"BN", "WH", "GN", "GY"}, "VT")
	for text, want := range map[string]string{
		"kcik BN WH cw":      `did you mean "kick"`,
		"push BN WH":         "there is no test",
		"kick BN cw":         "takes 2 leads",
		"kick BN BN cw":      "stands twice",
		"kick BN VT cw":      "VT",
		"kick BN WH buzz":    `"buzz" answers no kick`,
		"run BN WH GN cw":    "takes 4 leads",
		"stiff BN WH yess":   `did you mean "yes"`,
		"lamp 1":             "as lamp 1 3",
		"lamp 5 1":           "each from 1 to 4",
		"pulse BN GN upward": `"upward" answers no pulse`,
	} {
		_, err := ReadReplies("a.txt", []byte("# at the bench\n"+text), five)
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "a.txt:2") {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	good, err := ReadReplies("a.txt", []byte("KICK brown,WH,CW # so\r\nrun BN WH GN GY still\nlamp 1 3\n"), five)
	if err != nil || len(good) != 3 || good[0].String() != "kick BN WH cw" || good[2].String() != "lamp 1 3" {
		t.Errorf("%v, %v", good, err)
	}
}

func FuzzReplies(f *testing.F) {
	five, _ := OfFive([]motor.Lead{"BN", "WH", "GN", "GY"}, "VT")
	f.Add("kick BN WH cw\nrun BN WH GN GY buzz\nlamp 1 3\npulse BN GN up # x")
	f.Fuzz(func(t *testing.T, text string) {
		replies, err := ReadReplies("x", []byte(text), five)
		if err != nil || len(replies) > 20 {
			return
		}
		s := Sit(five)
		s.Answer(replies)
		sum := 0.0
		for _, m := range s.Mappings() {
			sum += m.Odds
		}
		if math.Abs(sum-1) > 1e-6 {
			t.Fatalf("%q: odds add up to %v", text, sum)
		}
	})
}

// The next test for 8 leads.
func BenchmarkBudgetNextTest8(b *testing.B) {
	bench := newShaftBench(rand.New(rand.NewPCG(1, 1)), 8)
	for b.Loop() {
		s := Sit(bench.topology())
		if _, ok := s.Next(); !ok {
			b.Fatal("nothing to ask")
		}
	}
}
