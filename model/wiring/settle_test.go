package wiring

import (
	"slices"
	"strings"
	"testing"

	"coilwalk/model/motor"
)

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
