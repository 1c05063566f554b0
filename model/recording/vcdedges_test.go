package recording

import (
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"strings"
	"testing"

	"coilwalk/model/files"
)

const edgesHead = "$timescale 1us $end\n$var wire 1 ! A $end\n$var wire 1 \" B $end\n$var wire 2 ab C [1:0] $end\n$enddefinitions $end\n"

// A piece of plain lines is read by the fast way, and what is odd in it is left to
// the other. Unknown are the lines that the piece has not told yet.
func TestPiecesThatAreReadFast(t *testing.T) {
	var one [256]uint8
	var two [1 << 16]uint8
	for i := range one {
		one[i] = notOne
	}
	for i := range two {
		two[i] = notOne
	}
	one['!'], one['"'], one['*'], two[uint16('a')<<8|'b'] = 0, 1, unwatched, 31
	const rest = 1<<32 - 1
	for _, c := range []struct {
		text  string
		want  []Sample
		until int64
	}{
		{"#0\n0!\n#7\n", []Sample{{0, 0, rest &^ 1}}, 7},
		{"#3\n1!\n1\"\n#5\n0!\n1ab\n#12345678\n", []Sample{{3, 3, rest &^ 3}, {5, 1<<31 | 2, rest &^ (3 | 1<<31)}}, 12345678},
		{"#3\n1!\n#5\n1!\n1*\n#8\n0!\n", []Sample{{3, 1, rest &^ 1}, {8, 0, rest &^ 1}}, 8}, // at 5 nothing that is watched changes
		{"#999999999999999999\n1!\n", []Sample{{999999999999999999, 1, rest &^ 1}}, 999999999999999999},
		{"#0\n#5\n1!\n", []Sample{{0, 0, rest}, {5, 1, rest &^ 1}}, 5}, // the first time, though nothing is told at it
		{"#4\n#4\n1!\n", []Sample{{4, 0, rest}, {4, 1, rest &^ 1}}, 4},
	} {
		p := piece{text: []byte(c.text + strings.Repeat("\x00", slack)), size: len(c.text)}
		if p.read(&one, &two); !p.plain || p.until != c.until || !reflect.DeepEqual(p.samples, c.want) {
			t.Errorf("%q: %v until %d, plain %v; want %v until %d", c.text, p.samples, p.until, p.plain, c.want, c.until)
		}
	}
	for _, text := range []string{"", "1!\n", "#\n", "#1 \n", "#1\r\n", "#1\nx!\n", "#1\n2!\n", "#1\n/!\n", "#1\n1?\n", "#1\n1xy\n", "#1\n1abc\n", "#5\n#4\n", "#1\n1\n", "#1234567890123456789\n", "#1\nb10 ab\n", "#12a\n"} {
		p := piece{text: []byte(text + strings.Repeat("\x00", slack)), size: len(text), plain: true}
		if p.read(&one, &two); p.plain {
			t.Errorf("%q was read fast, as %v", text, p.samples)
		}
	}
}

// Eight bytes at once: their digits, up to the first that is none.
func TestEightDigits(t *testing.T) {
	for text, want := range map[string][2]uint64{"12345678": {12345678, 8}, "1234567\n": {1234567, 7}, "0\n999999": {0, 1}, "\n1234567": {0, 0}, "90/00000": {90, 2}, "90:00000": {90, 2}, "99999999": {99999999, 8}, "10\xb000000": {10, 2}} {
		var bytes uint64
		for k := range 8 {
			bytes |= uint64(text[k]) << (8 * k)
		}
		if value, n := eight(bytes); value != want[0] || uint64(n) != want[1] {
			t.Errorf("%q: %d of %d digits, want %v", text, value, n, want)
		}
	}
}

// What a dump is refused for, and where.
func TestDumpsThatAreRefused(t *testing.T) {
	long, blank := strings.Repeat("word ", 60_000), strings.Repeat("\n", 200_000)
	for _, c := range []struct{ text, want string }{
		{edgesHead + "#\n0!\n", `6:1: "#" is no time`}, {edgesHead + "#x\n", `6:1: "#x" is no time`}, {edgesHead + "#5\n1!\n#4\n1!\n", "8:1: time goes back, from #5 to #4"},
		{edgesHead + "#1234567890123456789\n", "6:1: the time #1234567890123456789 is too great"},
		{edgesHead + "#0\n1?\n", `7:1: no line is declared with the identifier "?"`}, {edgesHead + "#0\nhello\n", `7:1: "hello" is neither`}, {edgesHead + "#0\n1 !\n", `7:1: "1" has no identifier behind it`},
		{edgesHead + "#0\nb12 ab\n", `7:1: "b12" is no value of a variable`}, {edgesHead + "#0\nb2 ab\n", `7:1: "b2" is no value of a variable`}, {edgesHead + "#0\nr1.5 ?\n", `7:6: no line is declared with the identifier "?"`}, {edgesHead + "#0\nbu ?\n", `7:4: no line is declared with the identifier "?"`},
		{edgesHead + "#0\nb ab\n", `7:1: "b" is no value`}, {edgesHead + "#0\n$else\n", `7:1: "$else" is neither a time nor a level`},
		{edgesHead + "1!\n", "no time stands in the whole file"}, {edgesHead + "#0\n1!\x00\x00\n", "zero bytes stand here"},
		{"$comment " + long, "1:1: the file ends within this $comment"}, {"\n  $comment " + long, "2:3: the file ends within this $comment"}, {"$date today", "1:1: the file ends within this $date"}, {"$date x $end\n$var wire 1 ! A", "2:1: the file ends within this $var"},
		{blank + "\ufeff" + edgesHead + "#x\n", `200006:1: "#x" is no time`}, {blank + "time,A\n0,2\n", "200002:1: voltages"}, {blank, "the file is empty"}, {"\n\n" + strings.Repeat("A,", 300_000), "3:1: this is no VCD, and as a CSV its first line has 300001 columns"},
		{"$date x $end\n", "the file ends within its declarations"}, {"$date x $end\nwire\n", `2:1: "wire" stands among the declarations`}, {"$enddefinitions $end\n", "1:1: no line is declared before the levels"},
		{"$timescale 1 ly $end\n", `1:1: the timescale "1 ly" is not understood`}, {"$timescale 0ns $end\n", `the timescale "0ns" is not understood`}, {"$timescale ns $end\n", "is not understood"},
		{"$var wire 1 ! $end\n", "1:1: this $var is too short"}, {"$var wire x ! A $end\n", `"x" is no size of a variable`}, {"$var wire -1 ! A $end\n", `"-1" is no size`}, {"$var wire 1048577 ! A $end\n", `"1048577" is no size`},
	} {
		r, err := Open("-", strings.NewReader(c.text), Options{})
		if err == nil {
			if err = r.Watch([]int{0}); err == nil {
				var into [9]Sample
				for err == nil {
					_, err = r.Next(into[:])
				}
			}
		}
		var complaint *files.Complaint
		if !errors.As(err, &complaint) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%.80q: %v, want %s", c.text, err, c.want)
		}
	}
}

// A long dump of which only some pieces are plain comes in the order of its times,
// whichever way each is read.
func TestPiecesComeInOrder(t *testing.T) {
	var text strings.Builder
	text.WriteString(edgesHead)
	const rows = 100_000 // of nine bytes or so: seven pieces
	level := func(k int) byte {
		if k%30_000 == 29_999 { // in a piece here and there
			return 'x'
		}
		return "01"[k%2]
	}
	for k := range rows {
		fmt.Fprintf(&text, "#%d\n%c!\n", k, level(k))
	}
	r, err := Open("-", strings.NewReader(text.String()), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Watch([]int{0}); err != nil {
		t.Fatal(err)
	}
	got := make([]Sample, rows+1)
	n, err := r.Next(got)
	if n != rows || err != io.EOF {
		t.Fatalf("%d samples, %v", n, err)
	}
	for k, s := range got[:n] {
		want := Sample{At: int64(k), High: uint32(k % 2)}
		if level(k) == 'x' {
			want = Sample{At: int64(k), Unknown: 1}
		}
		if s != want {
			t.Fatalf("sample %d is %+v, want %+v", k, s, want)
		}
	}
}

// As many lines as a head may declare are taken, and one more is not.
func TestMostLinesOfAHead(t *testing.T) {
	var head strings.Builder
	for k := range mostVariables / 32 {
		fmt.Fprintf(&head, "$var reg 32 v%d V%d $end\n", k, k)
	}
	if _, err := Open("-", strings.NewReader(head.String()+"$var wire 1 ! A $end\n$enddefinitions $end\n"), Options{}); err == nil || !strings.Contains(err.Error(), ":32769:1: more than a million lines") {
		t.Error(err)
	}
}

func TestUnitsOfTime(t *testing.T) {
	for scale, want := range map[string]float64{"1 s": 1, "10ms": 1e-2, "100us": 1e-4, "1 ns": 1e-9, "10 ps": 1e-11, "100fs": 1e-13, "250 us": 2.5e-4} {
		r, err := Open("-", strings.NewReader("$timescale "+scale+" $end\n$var wire 1 ! A $end\n$enddefinitions $end\n#0\n"), Options{})
		if err != nil || math.Abs(r.Tick/want-1) > 1e-12 {
			t.Errorf("%s: %v, %v", scale, r.Tick, err)
		}
	}
}

// Of what comes on standard input nobody knows the length, but how much was read.
func TestProgressOfStandardInput(t *testing.T) {
	r, err := Open("-", strings.NewReader(edgesHead+"#0\n1!\n"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if read, total := r.Progress(); read != int64(len(edgesHead)+6) || total != 0 {
		t.Errorf("%d of %d bytes", read, total)
	}
}

// Names, sizes and scopes of a head, taken as they are meant.
func TestHeadsOfDumps(t *testing.T) {
	for _, c := range []struct{ head, names, buses string }{
		{"$upscope $end\n$upscope $end\n$var wire 1 ! A $end\n", "A", ""},
		{"$scope module m $end\n$var wire 1 ! A $end\n$upscope $end\n$scope module n $end\n$scope begin k $end\n$var wire 1 \" A $end\n$upscope $end\n$upscope $end\n$var wire 1 # B $end\n", "m.A n.k.A B", "  "},
		{"$var wire 2 ! A [5:4] $end\n$var reg 3 \" C $end\n", "A[5] A[4] C[2] C[1] C[0]", "A A C C C"},
		{"$var real 64 ! R $end\n$var event 1 \" E $end\n$var parameter 8 # P $end\n$var wire 0 % Z $end\n$var wire 33 & W $end\n$var wire 32 ' V $end\n", "V[31] V[30] V[29]", "V V V"},
		{"$var wire 1 ! A [3] $end\n$var wire 1 \" A [2] $end\n", "A[3] A[2]", " "},
		{"$var wire 1 ! A $end\n$var wire 1 \" A $end\n$var wire 1 # A#2 $end\n", "A A#2 A#2#2", "  "},
		{"$var wire 1 # A#2 $end\n$var wire 1 ! A $end\n$var wire 1 \" A $end\n", "A#2 A A#3", "  "},
		{"$var wire 1 ! [0] $end\n", "[0]", ""},
	} {
		r, err := Open("-", strings.NewReader("$timescale 10us $end\n"+c.head+"$enddefinitions $end\n#0\n"), Options{})
		if err != nil {
			t.Errorf("%q: %v", c.head, err)
			continue
		}
		var names, buses []string
		for _, ch := range r.Channels[:min(len(r.Channels), len(strings.Fields(c.names)))] {
			names, buses = append(names, ch.Name), append(buses, ch.Bus)
		}
		if got, bus := strings.Join(names, " "), strings.Join(buses, " "); got != c.names || bus != c.buses || fmt.Sprintf("%.3g", r.Tick) != "1e-05" {
			t.Errorf("%q: %s of %q, %v s a tick; want %s of %q", c.head, got, bus, r.Tick, c.names, c.buses)
		}
	}
	r, err := Open("-", strings.NewReader(edgesHead), Options{})
	if err != nil {
		t.Fatal(err)
	}
	for k, good := range map[int]bool{32: true, 33: false} {
		if err := r.Watch(make([]int, k)); (err == nil) != good {
			t.Errorf("%d channels to watch: %v", k, err)
		}
	}
}
