package course_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"
)

// ticks are the timescales drawn, in ns.
var ticks = []struct {
	ns   float64
	word string
}{{1, "1 ns"}, {1, "1ns"}, {10, "10 ns"}, {100, "100ns"}, {1000, "1 us"}, {1000, "1us"}}

// vcd writes a trace as a value change dump.
func (t *trace) vcd(r *rand.Rand, tick int) []byte {
	var b bytes.Buffer
	awkward := r.IntN(2) == 0
	ids := make([]string, len(t.names))
	for k, n := range r.Perm(len(ids)) {
		ids[k] = string(rune('!' + n))
		if awkward {
			ids[k] = []string{"#", "$", "0", "1", "x", "b0", "#1", "$x", "r", "z1", "!!", "%"}[n]
		}
	}
	fmt.Fprintf(&b, "$version a generator in a test $end\n$timescale %s $end\n$scope module bench $end\n", ticks[tick].word)
	for k, name := range t.names {
		fmt.Fprintf(&b, "$var wire 1 %s %s $end\n", ids[k], name)
	}
	fmt.Fprintf(&b, "$upscope $end\n$enddefinitions $end\n#0\n$dumpvars\n")
	for k := range t.names {
		level := digit(t.start[k])
		if t.unknown[k] {
			level = "x"
		}
		fmt.Fprintf(&b, "%s%s\n", level, ids[k])
	}
	fmt.Fprintf(&b, "$end\n")
	now := int64(0)
	for _, e := range t.edges {
		if at := int64(e.at / ticks[tick].ns); at != now {
			now = at
			fmt.Fprintf(&b, "#%d\n", now)
		}
		b.WriteString(digit(e.high))
		b.WriteString(ids[e.channel])
		b.WriteByte('\n')
	}
	fmt.Fprintf(&b, "#%d\n", int64(t.until/ticks[tick].ns))
	return b.Bytes()
}

func digit(high bool) string { return strconv.Itoa(int(bit(high))) }

// csv writes a trace with a line for each moment at which something changes.
func (t *trace) csv(r *rand.Rand, tick int) []byte {
	var b bytes.Buffer
	comma, point := ",", "."
	switch r.IntN(3) {
	case 0:
		comma, point = ";", ","
	case 1:
		comma = "\t"
	}
	b.WriteString("seconds" + comma + strings.Join(t.names, comma) + "\n")
	level := append([]bool{}, t.start...)
	line := func(at int64) {
		b.WriteString(strings.Replace(strconv.FormatFloat(float64(at)*ticks[tick].ns/1e9, 'f', 9, 64), ".", point, 1))
		for _, high := range level {
			b.WriteString(comma + digit(high))
		}
		b.WriteByte('\n')
	}
	now := int64(0)
	for _, e := range t.edges {
		if at := int64(e.at / ticks[tick].ns); at != now {
			line(now)
			now = at
		}
		level[e.channel] = e.high
	}
	line(now)
	line(int64(t.until / ticks[tick].ns))
	return b.Bytes()
}
