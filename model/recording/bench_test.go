package recording

import (
	"bytes"
	"io"
	"math/rand/v2"
	"strconv"
	"testing"
)

// An analyser's file: four outputs in half step among clocks and data, a line a
// change, a time above every few of them.
func analyserFile(lines int) []byte {
	text := []byte("$timescale 1us $end\n")
	for i, name := range []string{"IN1", "IN2", "IN3", "IN4", "CLK", "DATA", "SELECT", "RX"} {
		text = append(text, "$var wire 1 "...)
		text = append(text, '!'+byte(i), ' ')
		text = append(append(text, name...), " $end\n"...)
	}
	text = append(text, "$enddefinitions $end\n#0\n0!\n0\"\n0#\n0$\n0%\n0&\n0'\n0(\n"...)
	half := [8]byte{1, 3, 2, 6, 4, 12, 8, 9}
	r := rand.New(rand.NewPCG(1, 2))
	outputs, clock, data := byte(0), byte(0), byte(0)
	for n, at, row, next := 0, int64(1000), 0, int64(1500); n < lines; {
		at += 50 + r.Int64N(8)
		text = append(strconv.AppendInt(append(text, '#'), at, 10), '\n')
		clock ^= 1
		text = append(text, '0'+clock, '%', '\n')
		n += 2
		if r.IntN(4) == 0 {
			data ^= 1
			text = append(text, '0'+data, '&', '\n')
			n++
		}
		if at < next {
			continue
		}
		for k, moved := 0, half[row&7]^outputs; k < 4; k++ {
			if moved>>k&1 == 1 {
				text = append(text, '0'+half[row&7]>>k&1, '!'+byte(k), '\n')
				n++
			}
		}
		outputs, next, row = half[row&7], at+200+int64(row%300), row+1
	}
	return text
}

// Two million lines, 12 MB: at most 50 ms.
func BenchmarkBudgetVCD(b *testing.B) {
	text := analyserFile(2_000_000)
	into := make([]Sample, 1<<14)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		r, err := Open("-", bytes.NewReader(text), Options{})
		if err != nil {
			b.Fatal(err)
		}
		if err := r.Watch([]int{0, 1, 2, 3}); err != nil {
			b.Fatal(err)
		}
		for err == nil {
			_, err = r.Next(into)
		}
		if err != io.EOF {
			b.Fatal(err)
		}
	}
	b.ReportMetric(50e6, "allowed-ns")
}
