package view

import (
	"os"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// Outlet is the way to the terminal. Nothing that is written to it waits, however
// slowly the terminal takes it: a key, the space bar above all, has to count at
// once. So that pictures do not pile up, none is drawn while one is on its way.
type Outlet struct {
	Free func() // called once all has been sent that a picture waited for; nil for nobody

	file *os.File

	mu       sync.Mutex
	queue    [][]byte
	since    [][]byte      // control sequences that were sent after the last picture
	idle     chan struct{} // closed when all has been sent; nil when nothing is on its way
	behind   bool          // a picture waits
	settling bool          // pictures are not wanted any more

	size *tea.WindowSizeMsg // that is held back; nil for none
}

const (
	piece       = 1 << 10 // bytes sent at once; a terminal's driver parts a write into such pieces anyway
	longControl = 1 << 7  // bytes; what is longer than this is a picture, or a text for the clipboard

	widest, highest = 2000, 1000 // characters of a picture; what a terminal has beyond stays empty

	// cancel ends a control sequence that was cut off: CAN, of ECMA-48.
	cancel = "\x18"
)

// NewOutlet makes the way to a terminal.
func NewOutlet(terminal *os.File) *Outlet { return &Outlet{file: terminal} }

// Read, Close and Fd make it the file that the terminal library sizes and sets.
func (o *Outlet) Read(p []byte) (int, error) { return o.file.Read(p) }

// Close closes the terminal.
func (o *Outlet) Close() error { return o.file.Close() }

// Fd gives the terminal's descriptor.
func (o *Outlet) Fd() uintptr { return o.file.Fd() }

// Write sends bytes on their way.
func (o *Outlet) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.queue = append(o.queue, append([]byte(nil), p...))
	if o.idle == nil {
		o.idle = make(chan struct{})
		go o.send()
	}
	return len(p), nil
}

// Behind says whether something is still on its way; Free is called when it has
// been sent.
func (o *Outlet) Behind() bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.behind = o.behind || o.idle != nil
	return o.idle != nil
}

// Settle gives up pictures that are on their way and waits, so long at most, until
// the rest has been sent: what puts the terminal back. Pictures that the system
// has taken and the terminal has not, which may be twenty seconds' worth, are given
// up too.
func (o *Outlet) Settle(patience time.Duration) {
	o.mu.Lock()
	idle := o.idle
	o.settling = idle != nil
	o.mu.Unlock()
	if idle == nil {
		return
	}
	select {
	case <-idle:
		return
	case <-time.After(patience / 20): // a terminal that is not slow has it by now
	}
	o.mu.Lock()
	forget(o.file)                        // while nothing goes on from here: what comes after it must stay
	o.queue = append(o.since, o.queue...) // they went with the pictures
	o.since = nil
	o.mu.Unlock()
	select {
	case <-idle:
	case <-time.After(patience):
	}
}

// send sends what is there until nothing is left.
func (o *Outlet) send() {
	for {
		next, settling := o.next()
		if next == nil {
			return
		}
		if settling && len(next) > longControl {
			continue
		}
		o.notes(next)
		for rest := next; len(rest) > 0; {
			n := min(piece, len(rest))
			if _, err := o.file.Write(rest[:n]); err != nil {
				break // the terminal is gone, and the library finds that by itself
			}
			if rest = rest[n:]; len(rest) > 0 && len(next) > longControl && o.isSettling() {
				_, _ = o.file.WriteString(cancel)
				break
			}
		}
	}
}

// next takes the next write off the queue; nil ends the sending.
func (o *Outlet) next() (p []byte, settling bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if len(o.queue) > 0 {
		p, o.queue = o.queue[0], o.queue[1:]
		return p, o.settling
	}
	close(o.idle)
	if o.behind && o.Free != nil {
		go o.Free()
	}
	o.idle, o.behind, o.settling = nil, false, false
	return nil, false
}

// notes keeps a control sequence until the next picture.
func (o *Outlet) notes(next []byte) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if len(next) > longControl {
		o.since = nil
		return
	}
	o.since = append(o.since, next)
}

func (o *Outlet) isSettling() bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.settling
}

// Sent says that all has been sent that a picture waited for.
type Sent struct{}

// Sizes holds messages about the size back while something is on its way: each
// one repaints all. The last of them is told then, also where it is the size of
// before, for what lay outside meanwhile is lost. It is a filter of the terminal
// library's.
func (o *Outlet) Sizes(_ tea.Model, msg tea.Msg) tea.Msg {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		msg.Width, msg.Height = min(msg.Width, widest), min(msg.Height, highest)
		o.size = &msg
	case Sent:
		if o.size == nil {
			return msg
		}
	default:
		return msg
	}
	if o.Behind() {
		return nil
	}
	size := *o.size
	o.size = nil
	return size
}
