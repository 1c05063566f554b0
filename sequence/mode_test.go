package sequence

import (
	"slices"
	"strings"
	"testing"
)

// Each mode that is listed is found by its word, and named where words are listed.
func TestModesAreFoundByTheirWords(t *testing.T) {
	names := ModeNames()
	for _, name := range names {
		m, err := ParseMode(name)
		if err != nil || m.Name != name {
			t.Errorf("%s: %v, %v", name, m.Name, err)
		}
		_, err = ModeNamed("sine", 0, 0)
		if !strings.Contains(err.Error(), name) || !strings.Contains(AsksMode(), name) {
			t.Errorf("%s is not among the words: %v; %s", name, err, AsksMode())
		}
	}
	if len(names) != len(Modes)+1 {
		t.Errorf("%v", names)
	}
}

func TestParseMode(t *testing.T) {
	for text, perStep := range map[string]int{"half": 2, " wave ": 1, "micro": UsualDivide, "micro 16": 16, "micro  256": 256} {
		if m, err := ParseMode(text); err != nil || m.PerStep != perStep {
			t.Errorf("%q: %d rows to a step, %v", text, m.PerStep, err)
		}
	}
	for text, want := range map[string]string{
		"": "is wanted", "half 2": "is wanted", "micro 4 4": "is wanted", "micro many": "as micro 8", "micro 2.5": "as micro 8",
		"micro 1": "from 2 to 256", "micro -8": "from 2 to 256", "sine": "there are ", "Half": "no step mode",
	} {
		if m, err := ParseMode(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v", text, m.Name, err)
		}
	}
}

// Shares says what the rows are: a mode without it can be held by bits.
func TestSharesIsWhatTheRowsAre(t *testing.T) {
	for _, m := range append(Modes[:], mustMicro(t, 8, 0)) {
		whole := true
		for k := range m.Rows() {
			whole = whole && m.Order().Row(int64(k)).Whole()
		}
		if whole == m.Shares || whole != slices.Contains(WholeNames(), m.Name) {
			t.Errorf("%s: shares %v, whole %v, among %v", m.Name, m.Shares, whole, WholeNames())
		}
	}
}
