package recording_test

import (
	"bytes"
	"cmp"
	"io"
	"runtime"
	"strings"
	"testing"
	"time"

	"coilwalk/model/recording"
)

// endless gives a head, then the same bytes again and again up to a size.
type endless struct {
	head, again string
	size, sent  int
}

func (e *endless) Read(p []byte) (n int, err error) {
	for n < len(p) {
		if e.sent >= e.size {
			return n, io.EOF
		}
		from := e.again
		if e.sent < len(e.head) {
			from = e.head[e.sent:]
		} else {
			from = from[(e.sent-len(e.head))%len(from):]
		}
		k := copy(p[n:], from)
		n, e.sent = n+k, e.sent+k
	}
	return n, nil
}

// Whatever stands in a file, reading it takes a bounded memory: 100 MB without a
// line's end, of one word, or of one comment, are read or refused in 64 MB.
func TestMemoryIsBounded(t *testing.T) {
	const dump = "$timescale 1us $end\n$var wire 1 ! A $end\n$enddefinitions $end\n#0\n0!\n"
	blanks := strings.Repeat(" ", 1<<16)
	for name, e := range map[string]*endless{
		"one word":                {head: dump + "b", again: strings.Repeat("1", 1<<16)},
		"one time":                {head: dump + "#", again: strings.Repeat("1", 1<<16)},
		"blanks":                  {head: dump, again: blanks},
		"one comment":             {head: dump + "$comment ", again: strings.Repeat("word ", 1<<13)},
		"one comment in the head": {head: "$comment ", again: strings.Repeat("word ", 1<<13)},
		"one word in the head":    {head: "$var ", again: strings.Repeat("w", 1<<16)},
		"variables":               {head: "$timescale 1us $end\n", again: "$var wire 1 ! A $end\n", size: 5 << 20},
		"one line of a CSV":       {head: "seconds,A\n0,0\n", again: strings.Repeat("1", 1<<16)},
		"one first line of a CSV": {head: "seconds", again: strings.Repeat(",A", 1<<15)},
		"cells":                   {head: "seconds,A\n0,0\n", again: strings.Repeat(",0", 1<<15)},
		"blank lines of a CSV":    {head: "seconds,A\n0,0\n", again: strings.Repeat("\n", 1<<16), size: 5 << 20},
		"no line's end":           {again: strings.Repeat("x", 1<<16)},
	} {
		t.Run(name, func(t *testing.T) {
			e.size = cmp.Or(e.size, 100<<20)
			most := watchHeap(func() { _, complaint := readAll(t, e, recording.Options{}); t.Log(complaint) })
			if most > 64<<20 {
				t.Errorf("%d MB of heap", most>>20)
			}
		})
	}
}

// watchHeap gives the most of the heap that was in use while a function ran,
// as seen every now and then.
func watchHeap(run func()) (most uint64) {
	runtime.GC()
	done, told := make(chan bool), make(chan bool)
	go func() {
		defer close(told)
		for {
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			most = max(most, m.HeapInuse)
			select {
			case <-done:
				return
			case <-time.After(2 * time.Millisecond):
			}
		}
	}()
	run()
	close(done)
	<-told
	return most
}

// A file that gives its bytes one by one is read as one that gives them all.
func TestReadInDrips(t *testing.T) {
	for name, text := range corpus(t, ".vcd", ".csv", ".gz", ".zst") {
		if len(text) > 3000 {
			continue
		}
		want, refused := soon(t, text, recording.Options{})
		got, complaint := readAll(t, &drip{*bytes.NewReader(text)}, recording.Options{})
		if written(got) != written(want) || (complaint == nil) != (refused == nil) || complaint != nil && place(complaint) != place(refused) {
			t.Errorf("%s in drips: %v\n%swant %v\n%s", name, complaint, written(got), refused, written(want))
		}
	}
}

type drip struct{ bytes.Reader }

func (d *drip) Read(p []byte) (int, error) { return d.Reader.Read(p[:min(1, len(p))]) }
