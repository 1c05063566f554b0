package table

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"coilwalk/sequence"
)

func judged(t *testing.T, rows string, q Question) Verdict {
	t.Helper()
	s := read(t, "-", strings.ReplaceAll(rows, " ", "\n"))
	return Judge(&s.Tables[0], q)
}

func bare() Question { return Question{AnyDrive: true} }

func wired(ends string) Question {
	var p sequence.Permutation
	for k, w := range strings.Fields(ends) {
		p[k], _ = sequence.ParseEnd(w)
	}
	return Question{Wiring: &p}
}

// The table of the issue that is "a perfect full step when columns 1–2 and 3–4
// are coils, and has two dead rows when they are 1–3 and 2–4"; the rows are a
// four-wire table as widely printed (a published forum table, "Full vs half
// steps": 1010 0110 0101 1001).
func TestOnePairingIsSound(t *testing.T) {
	v := judged(t, "1010 0110 0101 1001", bare())
	want := []Pairing{{[2][2]int{{1, 3}, {2, 4}}, false, none}, {[2][2]int{{1, 2}, {3, 4}}, true, "full"}, {[2][2]int{{1, 4}, {2, 3}}, false, none}}
	if !v.Sound || !reflect.DeepEqual(v.Pairings, want) || v.Mode != "full" {
		t.Errorf("%+v", v)
	}
	v = judged(t, "1010 0110 0101 1001", wired("A+ B+ A- B-"))
	dead := 0
	for _, f := range v.Faults {
		if f.Kind == "both-ends-on" {
			dead++
		}
	}
	if v.Sound || dead != 2 || v.Faults[0].Kind != "outputs-permuted" {
		t.Errorf("%+v", v.Faults)
	}
}

// Published tables, each with the pairing of its columns that its source gives.
func TestPublishedTables(t *testing.T) {
	for _, c := range []struct {
		source, rows string
		coils        [2][2]int
		mode         string
	}{
		{"maker's data sheet of a phase-sequence controller, Motor driving phase sequences: half step, columns A B C D", "0101 0001 1001 1000 1010 0010 0110 0100", [2][2]int{{1, 2}, {3, 4}}, "half"},
		{"the same, two phases on", "0101 1001 1010 0110", [2][2]int{{1, 2}, {3, 4}}, "full"},
		{"the same, one phase on", "0001 1000 0010 0100", [2][2]int{{1, 2}, {3, 4}}, "wave"},
		{"maker's data sheet of a bipolar motor, two phases on, columns A B A\\ B\\", "1100 0110 0011 1001", [2][2]int{{1, 3}, {2, 4}}, "full"},
		{"maker's data sheet of a geared can-stack motor, Switching sequence", "1000 1100 0100 0110 0010 0011 0001 1001", [2][2]int{{1, 3}, {2, 4}}, "half"},
	} {
		v := judged(t, c.rows, bare())
		for _, p := range v.Pairings {
			if p.Sound != (p.Coils == c.coils) || p.Sound && p.Mode != c.mode {
				t.Errorf("%s: pairing %v: %v %s", c.source, p.Coils, p.Sound, p.Mode)
			}
		}
	}
}

// Every order of columns of every mode: sound in the eight turning orders; in
// the sixteen others permuted, with exactly two single swaps that cure it, one
// each way, and carrying a cure out makes it sound that way.
func TestEveryColumnOrder(t *testing.T) {
	for _, m := range sequence.WholeModes() {
		permuted := 0
		for _, p := range sequence.Permutations() {
			var rows []string
			for k := range m.Rows() {
				rows = append(rows, m.Order().Row(int64(k)).Bits())
			}
			q := Question{Wiring: &p}
			v := judged(t, strings.Join(rows, " "), q)
			if p.Turns() != sequence.Standing {
				if !v.Sound || v.Mode != m.Name || v.Direction != p.Turns() || len(v.Cures) != 0 {
					t.Fatalf("%s through %v: %+v", m.Name, p, v)
				}
				continue
			}
			permuted++
			if v.Sound || v.Faults[0].Kind != "outputs-permuted" || len(v.Cures) != 2 || v.Cures[0].Direction != sequence.Forward || v.Cures[1].Direction != sequence.Reverse {
				t.Fatalf("%s through %v: %+v", m.Name, p, v)
			}
			for _, c := range v.Cures {
				// The order says which columns should drive A+ B+ A- B-: print the
				// table with its columns moved so, and leave the wiring as it is.
				cured := make([]string, len(rows))
				for i, r := range rows {
					out := make([]byte, 4)
					for end, column := range c.Order {
						out[p.Inverse()[end]] = r[column-1]
					}
					cured[i] = string(out)
				}
				if again := judged(t, strings.Join(cured, " "), q); !again.Sound || again.Direction != c.Direction || again.Mode != m.Name {
					t.Fatalf("%s through %v: the cure %v gives %+v", m.Name, p, c, again)
				}
			}
		}
		if permuted != 16 {
			t.Errorf("%s: %d orders are permuted", m.Name, permuted)
		}
	}
}

// One slip at each row of each mode, forward and back, from each start: it is
// found, at its row, and by its kind.
func TestOneSlipIsNamedWhereItIs(t *testing.T) {
	slips := map[string]func(rows []string, i int) []string{
		"skipped-row":    func(r []string, i int) []string { return append(append([]string{}, r[:i]...), r[i+1:]...) },
		"repeated-row":   func(r []string, i int) []string { return append(append([]string{}, r[:i+1]...), r[i:]...) },
		"rows-exchanged": func(r []string, i int) []string { s := append([]string{}, r...); s[i], s[i+1] = s[i+1], s[i]; return s },
		"no-field":       func(r []string, i int) []string { s := append([]string{}, r...); s[i] = "0000"; return s },
		"both-ends-on":   func(r []string, i int) []string { s := append([]string{}, r...); s[i] = "1010"; return s },
	}
	for kind, slip := range slips {
		for start := range 8 {
			for _, way := range []int64{1, -1} {
				var rows []string
				for k := range int64(8) {
					rows = append(rows, sequence.Half.Order().Row(int64(start)+way*k).Bits())
				}
				for i := range 7 {
					if i == 0 && kind != "no-field" && kind != "both-ends-on" {
						continue // a row missing at the very start is as well missing at the end
					}
					broken := slip(rows, i)
					v := judged(t, strings.Join(broken, " "), wired("A+ B+ A- B-"))
					want := i + 1
					if kind == "skipped-row" {
						want = i // it shows after the row before
					}
					if v.Sound || len(v.Faults) != 1 || v.Faults[0].Kind != kind || v.Mode != "half" || v.Direction != sequence.Direction(way) {
						t.Fatalf("%s at %d of %v: %s %s %+v", kind, i+1, broken, v.Mode, v.Direction, v.Faults)
					}
					if got := v.Faults[0].Row; got != want && !(kind == "repeated-row" && got == want+1) {
						t.Fatalf("%s at %d of %v is told at row %d", kind, want, broken, got)
					}
				}
			}
		}
	}
}

func TestFaultsOfTheWholeTable(t *testing.T) {
	for _, c := range []struct {
		rows string
		q    Question
		kind string
		row  int
		mode string
	}{
		{"1000 1100 0100 0110 0010", wired("A+ B+ A- B-"), "open-wrap", 5, "half"},
		{"1000 0100 0010", wired("A+ B+ A- B-"), "open-wrap", 3, "wave"},
		{"1000 1100 0100 0110 0100 1100", wired("A+ B+ A- B-"), "reversal", 4, none},
		{"1000 1000 0000 0010 0010 0010 0000 1000", wired("A+ B+ A- B-"), "", 0, ""},
		{"1000 1100 0100 0100 0000 0001 0001 1001", wired("A+ B+ A- B-"), "stuck-low", 0, "half"},
		{"1000 0100 0000 0001", wired("A+ B+ A- B-"), "stuck-low", 0, "wave"},
		{"1010 1110 0110 0110 0010 0011 0011 1011", wired("A+ B+ A- B-"), "stuck-high", 0, "half"},
		{"1000", wired("A+ B+ A- B-"), "no-field", 1, none},
		{"1111 1111 1111 1111", wired("A+ B+ A- B-"), "no-order", 2, none},
	} {
		v := judged(t, c.rows, c.q)
		if v.Sound {
			t.Errorf("%s is told sound", c.rows)
			continue
		}
		if c.kind != "" && (v.Faults[0].Kind != c.kind || v.Faults[0].Row != c.row || v.Mode != c.mode) {
			t.Errorf("%s: %s %+v, want %s at %d in %s", c.rows, v.Mode, v.Faults, c.kind, c.row, c.mode)
		}
	}
}

func TestDirectionThatIsMeant(t *testing.T) {
	q := wired("A+ B+ A- B-")
	q.Direction = sequence.Reverse
	v := judged(t, "1000 0100 0010 0001", q)
	if v.Sound || v.Faults[0].Kind != "direction-reversed" || len(v.Cures) != 2 || *v.Cures[0].Swap != [2]int{1, 3} || *v.Cures[1].Swap != [2]int{2, 4} {
		t.Errorf("%+v", v)
	}
	q.Direction = sequence.Forward
	if v := judged(t, "1000 0100 0010 0001", q); !v.Sound {
		t.Errorf("%+v", v)
	}
}

// A bridge may have both ends of one coil alike: that coil is off. In a sink
// array the same row is a fault.
func TestBothEndsAlikeInABridge(t *testing.T) {
	q := wired("A+ B+ A- B-")
	if v := judged(t, "1000 1100 1110 0110 0010 0011 1011 1001", q); v.Sound {
		t.Error("a unipolar winding with both halves of a phase on is told sound")
	}
	q.Drive = sequence.Bipolar
	if v := judged(t, "1000 1100 1110 0110 0010 0011 1011 1001", q); !v.Sound || v.Mode != "half" {
		t.Errorf("%+v", v.Faults)
	}
}

func TestTwoLinesAndEnableLines(t *testing.T) {
	v := judged(t, "11 01 00 10", bare())
	if !v.Sound || v.Pins != TwoLine || v.Mode != "full" || v.Direction != sequence.Forward || v.Rows[0].Outputs != "11" {
		t.Errorf("two lines: %+v", v)
	}
	if v := judged(t, "11 00 01 10", bare()); v.Sound || v.Pins != TwoLine {
		t.Errorf("two lines out of order: %+v", v)
	}
	// Polarity, enable, polarity, enable, in half step: signs + + 0 - - - 0 + and
	// 0 + + + 0 - - - (a maker's application note on linear speed control of
	// steppers, Table 2-1).
	q := bare()
	q.Pins = PhaseEnable
	v = judged(t, "1110 1111 0111 1011 0110 0101 0001 1101", q)
	if v.Sound {
		t.Errorf("a wrong table is told sound: %+v", v)
	}
	v = judged(t, "1110 1111 1011 0111 0110 0101 0001 1101", q)
	if !v.Sound || v.Mode != "half" || v.Direction != sequence.Forward {
		t.Errorf("polarity and enable: %s %+v", v.Mode, v.Faults)
	}
	// A constant pair is how enable lines look in full step: said before any fault.
	v = judged(t, "1111 0111 0101 1101", bare())
	if !v.Sound || v.Pins != PhaseEnable || v.Mode != "full" {
		t.Errorf("a constant pair: %+v", v)
	}
}

func TestLiteralsThatOnlyLookLikeBits(t *testing.T) {
	s := read(t, "a.c", "int t[] = {1000, 1100, 0100, 0110, 0010, 0011, 0001, 1001};")
	v := Judge(&s.Tables[0], bare())
	if v.Sound || len(v.Faults) != 1 || v.Faults[0].Kind != "literal-base" || !strings.Contains(v.Faults[0].Text, "0b1000 or 0x8") {
		t.Errorf("%+v", v.Faults)
	}
	// Unsound as bits as well: then the base is not what is to blame.
	s = read(t, "a.c", "int t[] = {1000, 0010, 0100, 0110, 0010, 0011, 0001, 1001};")
	if v := Judge(&s.Tables[0], bare()); v.Sound || v.Faults[0].Kind == "literal-base" {
		t.Errorf("%+v", v.Faults)
	}
}

// All off after each row: the rows between are judged.
func TestOffAfterEachRow(t *testing.T) {
	v := judged(t, "1000 0000 0100 0000 0010 0000 0001 0000", bare())
	if !v.Sound || v.Mode != "wave" || len(v.Rows) != 4 || !strings.Contains(fmt.Sprint(v.Notes), "nothing holds the rotor") {
		t.Errorf("%+v", v)
	}
	if v.Rows[1].Line != 3 {
		t.Errorf("row 2 stands in line %d", v.Rows[1].Line)
	}
}

func TestWrongOrderAndAWrongRowAtOnce(t *testing.T) {
	// Half step with columns 2 and 3 exchanged, and row 4 all off.
	v := judged(t, "1000 1010 0010 0000 0100 0101 0001 1001", wired("A+ B+ A- B-"))
	kinds := ""
	for _, f := range v.Faults {
		kinds += f.Kind + " "
	}
	if !strings.Contains(kinds, "outputs-permuted") || !strings.Contains(kinds, "no-field") || len(v.Cures) < 2 {
		t.Errorf("%s %+v", kinds, v.Cures)
	}
}

// Without a wiring, a table is judged in the pairing in which it is nearly right.
func TestNearlyRightInAnotherPairing(t *testing.T) {
	v := judged(t, "1000 1010 0010 0110 0000 0101 0001 1001", bare())
	if v.Sound || len(v.Faults) != 1 || v.Faults[0].Row != 5 || !strings.Contains(fmt.Sprint(v.Notes), "Columns 1 and 2 must be the two ends of one coil") ||
		len(v.Cures) != 1 || !strings.HasPrefix(v.Cures[0].Text, "make row 5 0100") {
		t.Errorf("%+v, %+v, %v", v.Faults, v.Cures, v.Notes)
	}
}
