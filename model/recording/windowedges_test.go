package recording

import (
	"io"
	"slices"
	"strings"
	"testing"
	"time"
)

// What comes next is read while the window is parsed.
func TestNextIsReadBeside(t *testing.T) {
	in, out := io.Pipe()
	first := strings.Repeat("#1\n", firstWindow/3+1)[:firstWindow-slack]
	go func() { io.WriteString(out, first) }()
	w := newWindow(&source{name: "x", Reader: in})
	if err := w.fill(); err != nil {
		t.Fatal(err)
	}
	w.readAhead()
	taken := make(chan bool)
	go func() {
		io.WriteString(out, "\n#2\n")
		out.Close()
		close(taken)
	}()
	select {
	case <-taken:
	case <-time.After(20 * time.Second):
		t.Fatal("nothing more was read before it was asked for")
	}
	w.at = w.end
	if err := w.fill(); err != nil || !strings.HasSuffix(string(w.rest()), "\n#2\n") {
		t.Errorf("%.20q, %v", w.rest(), err)
	}
}

// A declaration that never ends is told by its place, however many windows of lines
// came after it.
func TestPlaceOfWhatWasLeftBehind(t *testing.T) {
	for n := range 5 {
		_, err := Open("-", strings.NewReader("$date x $end\n  $comment\n"+strings.Repeat("some word\n", n*10_000)), Options{})
		if want := "standard input:2:3: the file ends within this $comment"; err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%d windows: %v, want %s", n, err, want)
		}
	}
}

// A recording is let go whole, the last that was opened first, and once.
func TestCloseLetsAllGo(t *testing.T) {
	var gone []string
	note := func(what string) func() { return func() { gone = append(gone, what) } }
	r := &Reader{source: &source{close: []func(){note("file"), note("unpacking")}}}
	r.Close()
	r.Close()
	if want := []string{"unpacking", "file"}; !slices.Equal(gone, want) {
		t.Errorf("%v, want %v", gone, want)
	}
}
