package recording

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// channelsOf gives the channels of a head.
func channelsOf(t *testing.T, head string) []Channel {
	t.Helper()
	r, err := Open("-", strings.NewReader(head+"$enddefinitions $end\n#0\n"), Options{})
	if err != nil {
		t.Fatalf("%.200q: %v", head, err)
	}
	return r.Channels
}

// Another name of a line is kept beside it; of a variable of several bits it is
// not, and what is no line of ours stays none.
func TestOtherNamesOfLines(t *testing.T) {
	got := channelsOf(t, "$var wire 1 ! A $end\n$var wire 2 v V [1:0] $end\n$var real 64 r R $end\n"+
		"$var reg 1 ! B $end\n$var reg 2 v W [1:0] $end\n$var real 64 r S $end\n$var wire 1 r T $end\n$var wire 1 ! C [3] $end\n")
	want := []Channel{{Name: "A", Others: []string{"B", "C[3]"}}, {Name: "V[1]", Bus: "V"}, {Name: "V[0]", Bus: "V"}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// A variable whose name is nothing but a range keeps it as its name.
func TestNameThatIsARange(t *testing.T) {
	got := channelsOf(t, "$var wire 2 ! [1:0] $end\n")
	want := []Channel{{Name: "[1:0][1]", Bus: "[1:0]"}, {Name: "[1:0][0]", Bus: "[1:0]"}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// Of a declaration 64 words are kept, and what comes behind them is passed over,
// however much; a variable of a million bits is one that nobody can watch.
func TestBoundsOfDeclarations(t *testing.T) {
	for _, words := range []int{60, 61, 62, 1000} { // behind type, size and identifier
		name := channelsOf(t, "$var wire 1 ! "+strings.Repeat("n ", words)+"$end\n")[0].Name
		if len(name) != min(words, 61) {
			t.Errorf("of a name of %d words %d are kept", words, len(name))
		}
	}
	if got := channelsOf(t, fmt.Sprintf("$var wire %d ! M $end\n$var wire 1 a A $end\n", 1<<20)); len(got) != 1 || got[0].Name != "A" {
		t.Errorf("%+v", got)
	}
}

// Identifiers of one, two and three letters that begin alike are kept apart, also
// where the first change comes before any time, or behind blank lines.
func TestIdentifiersThatBeginAlike(t *testing.T) {
	r, err := Open("-", strings.NewReader("$var wire 1 a A $end\n$var wire 1 ab B $end\n$var wire 1 abc C $end\n$var wire 1 abcd D $end\n$enddefinitions $end\n"+
		"0ab\n0a\n0abc\n0abcd\n#1\n1abc\n#2\n1ab\n#3\n\n\n\n0abc\n1abcd\n#4\n1a\n\n\n\n0ab \n"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Watch([]int{0, 1, 2, 3}); err != nil {
		t.Fatal(err)
	}
	var got [9]Sample
	n, err := r.Next(got[:])
	if want := []Sample{{1, 4, 0}, {2, 6, 0}, {3, 10, 0}, {4, 9, 0}}; !slices.Equal(got[:n], want) {
		t.Errorf("%v, %v; want %v", got[:n], err, want)
	}
}

// One digit for a variable of several bits is its lowest; the others are 0, or as
// it where it is no digit.
func TestOneDigitForSeveralBits(t *testing.T) {
	r, err := Open("-", strings.NewReader("$var wire 3 v V $end\n$enddefinitions $end\n#1\n1v\n#2\n0v\n#3\nxv\n#4\n1v\n"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Watch([]int{0, 1, 2}); err != nil {
		t.Fatal(err)
	}
	var got [9]Sample
	n, err := r.Next(got[:])
	if want := []Sample{{1, 4, 0}, {2, 0, 0}, {3, 0, 7}, {4, 4, 0}}; !slices.Equal(got[:n], want) {
		t.Errorf("%v, %v; want %v", got[:n], err, want)
	}
}
