package view

import (
	"io"
	"os"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// stuck makes an outlet whose other end nobody reads until the returned function
// does, to its end. It has been sent more than the system's buffer takes.
func stuck(t *testing.T) (o *Outlet, end func() string) {
	t.Helper()
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	o = NewOutlet(w)
	picture := "\x1b[H" + strings.Repeat("picture ", 1<<17)
	start := time.Now()
	if n, err := o.Write([]byte(picture)); n != len(picture) || err != nil {
		t.Fatal(n, err)
	}
	if took := time.Since(start); took > 5*time.Second {
		t.Errorf("a write took %v", took)
	}
	if _, err := io.ReadFull(r, make([]byte, 1)); err != nil { // it has begun
		t.Fatal(err)
	}
	time.Sleep(100 * time.Millisecond) // it is in the middle of it
	return o, func() string {
		all := make(chan []byte)
		go func() {
			text, _ := io.ReadAll(r)
			all <- text
		}()
		o.Settle(10 * time.Second)
		w.Close()
		return string(<-all)
	}
}

// What is under way is broken off where a terminal can go on from, another picture
// is not sent at all, and what puts the terminal back comes whole and last.
func TestOutletSettles(t *testing.T) {
	o, end := stuck(t)
	if !o.Behind() {
		t.Fatal("it is not behind")
	}
	_, _ = o.Write([]byte("\x1b[Hsecond " + strings.Repeat("picture ", 100)))
	for _, s := range []string{"\x1b[?25h", "\x1b[?1049l"} {
		_, _ = io.WriteString(o, s)
	}
	start := time.Now()
	o.Settle(50 * time.Millisecond)
	if took := time.Since(start); took < 50*time.Millisecond || took > 5*time.Second {
		t.Errorf("it waited %v of 50 ms for a terminal that takes nothing", took)
	}
	sent := end()
	if !strings.HasSuffix(sent, "\x18\x1b[?25h\x1b[?1049l") || strings.Contains(sent, "second") || len(sent) > 1<<17 {
		t.Errorf("%d bytes were sent, at the end %q", len(sent), sent[max(0, len(sent)-60):])
	}
}

// All that is written comes, in order, to a terminal that takes it.
func TestOutletSendsAll(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	freed := make(chan struct{}, 1000)
	o := NewOutlet(w)
	o.Free = func() { freed <- struct{}{} }
	wrote := make(chan string, 1)
	go func() {
		var want strings.Builder
		for k := range 500 {
			text := strings.Repeat(string(rune('a'+k%26)), 1+k*17%5000)
			_, _ = io.WriteString(o, text)
			want.WriteString(text)
			o.Behind()
		}
		for o.Behind() {
			<-freed
		}
		w.Close()
		wrote <- want.String()
	}()
	got, err := io.ReadAll(r)
	if want := <-wrote; err != nil || string(got) != want {
		t.Errorf("%v: %d bytes came of %d, or in another order", err, len(got), len(want))
	}
}

// Of sizes that come while it is behind the last one is told, once, when it is free;
// also the one of before, as the terminal has dropped what lay outside meanwhile.
func TestOutletHoldsSizes(t *testing.T) {
	o, end := stuck(t)
	size := func(w int) tea.Msg { return tea.WindowSizeMsg{Width: w, Height: 30} }
	for _, w := range []int{100, 60, 100} {
		if msg := o.Sizes(nil, size(w)); msg != nil {
			t.Errorf("%v was told while a picture was on its way", msg)
		}
	}
	if msg := o.Sizes(nil, tea.KeyMsg{}); msg == nil {
		t.Error("a key was held back")
	}
	if msg := o.Sizes(nil, Sent{}); msg != nil {
		t.Errorf("%v was told while it was still behind", msg)
	}
	end()
	if msg := o.Sizes(nil, Sent{}); msg != size(100) {
		t.Errorf("%v was told, want the last size", msg)
	}
	if msg := o.Sizes(nil, Sent{}); msg != (Sent{}) {
		t.Errorf("%v was told, want no size again", msg)
	}
	for range 2 {
		if msg := o.Sizes(nil, size(100)); msg != size(100) {
			t.Errorf("%v was told of a size while it was free", msg)
		}
	}
}

// A terminal that says it is endless gets a picture that can be held.
func TestSizesAreBounded(t *testing.T) {
	o := NewOutlet(nil)
	if msg := o.Sizes(nil, tea.WindowSizeMsg{Width: 65535, Height: 65535}); msg != (tea.WindowSizeMsg{Width: widest, Height: highest}) {
		t.Errorf("%v was told", msg)
	}
}
