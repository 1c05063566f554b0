package recording

import (
	"bytes"
	"fmt"
	"io"
	"unicode/utf8"

	"coilwalk/model/files"
)

// Sample is a moment at which a watched channel changed, and the levels of all
// watched channels from then on: bit k is that of the k-th.
type Sample struct {
	At      int64  // ticks of the recording
	High    uint32 // 1 where the level is high
	Unknown uint32 // 1 where it is neither high nor low: x, z, or not yet told
}

// as gives a sample as it is for other channels: was is the bit that each of them
// had, −1 for a channel whose level is not known.
func (s Sample) as(was []int8) Sample {
	to := Sample{At: s.At}
	for k, bit := range was {
		if bit < 0 {
			to.Unknown |= 1 << k
			continue
		}
		to.High |= s.High >> bit & 1 << k
		to.Unknown |= s.Unknown >> bit & 1 << k
	}
	return to
}

// MostChannels is how many channels can be watched at once.
const MostChannels = 32

// Channel is one recorded line: a whole variable of one bit, or a bit of a
// wider one.
type Channel struct {
	Name string // as a person would ask for it, unique in its recording
	Bus  string // the variable it is a bit of; "" for a variable of one bit

	Others []string // more names of the same line
}

// Options say how a recording is to be read, where the file does not say so.
type Options struct {
	SampleRate float64 // CSV without times: rows a second; 0 when not given
	Threshold  float64 // CSV with voltages: what is above is high, in V; 0 to have it found
	Hysteresis float64 // V: the band about the threshold within which a level stays; 0 for a fifth of the threshold
}

// Reader reads one recording, once, from its start.
type Reader struct {
	Format   string    // "VCD" or "CSV"
	Channels []Channel // in the order of the file
	Tick     float64   // seconds

	source *source
	body   body
	notes  []string
}

// body is the part of a recording that holds the levels.
type body interface {
	// watch says which channels samples tell of from now on, at most 32.
	watch(channels []int)
	// next fills samples, in the order of time, and gives how many; io.EOF
	// comes with the last or after it.
	next(into []Sample) (int, error)
	// until is the last time that was read.
	until() int64
}

// Open opens a recording, told by what stands in it, and reads its head.
// "-" is stdin. Its errors are *files.Complaint.
func Open(name string, stdin io.Reader, o Options) (*Reader, error) {
	s, err := openSource(name, stdin)
	if err != nil {
		return nil, err
	}
	r := &Reader{source: s}
	if err := r.start(o); err != nil {
		r.Close()
		return nil, err
	}
	return r, nil
}

func (r *Reader) start(o Options) error {
	w := newWindow(r.source)
	err, head := w.fill(), []byte(nil)
	for err == nil {
		if head = bytes.TrimLeft(w.rest(), "\ufeff \t\r\n"); len(head) > 0 {
			break
		}
		w.at = w.end // blank lines, as many as there are
		err = w.fill()
	}
	if err != nil && err != io.EOF {
		return err
	}
	switch {
	case len(head) == 0 && r.source.cutOff:
		return &files.Complaint{File: r.source.name, What: "the packed file was cut off before anything could be unpacked", Right: "record or copy it anew"}
	case len(head) == 0:
		return &files.Complaint{File: r.source.name, What: "the file is empty", Right: "a recording of pins is wanted, VCD or CSV"}
	case bytes.HasPrefix(head, []byte("\xff\xfe")), bytes.HasPrefix(head, []byte("\xfe\xff")):
		return &files.Complaint{File: r.source.name, What: "this is UTF-16 text", Right: "save the file as UTF-8"}
	case head[0] == '$':
		return r.startVCD(w)
	}
	if at := notText(head); at >= 0 {
		return w.complaint(w.end-len(head)+at, "this is no text", "a recording of pins is wanted, VCD or CSV; export it as one of these")
	}
	return r.startCSV(w, o)
}

// notText gives the place of the first byte that no text has; −1 without one.
func notText(head []byte) int {
	const looked = 4096 // bytes; a letter may be cut at the end of them
	head = head[:min(len(head), looked)]
	for i := 0; i < len(head); {
		letter, size := utf8.DecodeRune(head[i:])
		if letter == 0 || letter == utf8.RuneError && size == 1 && i < len(head)-utf8.UTFMax {
			return i
		}
		i += size
	}
	return -1
}

// Like says whether a text may be a recording: a VCD by its first mark, a CSV
// by a first line of several names and lines of numbers below it.
func Like(head []byte) bool {
	head = bytes.TrimLeft(head, "\ufeff \t\r\n")
	return bytes.HasPrefix(head, gzipMark) || bytes.HasPrefix(head, zstdMark) || likeVCD(head) || likeCSV(head)
}

// Watch says which channels, by their place in Channels, samples tell of from
// now on. What was read before is not told again.
func (r *Reader) Watch(channels []int) error {
	if len(channels) > MostChannels {
		return &files.Complaint{File: r.source.name, What: fmt.Sprintf("%d channels can not be watched at once", len(channels)), Right: fmt.Sprintf("at most %d", MostChannels)}
	}
	r.body.watch(channels)
	return nil
}

// Next fills samples and gives how many; io.EOF after the last.
func (r *Reader) Next(into []Sample) (int, error) { return r.body.next(into) }

// Until gives the last time that was read, in ticks: after the last sample, the
// end of the recording.
func (r *Reader) Until() int64 { return r.body.until() }

// Notes tell in whole sentences what was taken for granted, once all is read.
func (r *Reader) Notes() []string {
	if r.source.cutOff {
		r.note("The packed file was cut off: what could be unpacked of it was read.")
	}
	return r.notes
}

// Name gives the file's name for messages.
func (r *Reader) Name() string { return r.source.name }

// Progress gives how many bytes of the file have been read, and how many it had
// when it was opened; 0 where nobody can know. It may be asked from beside the
// reading. A file that grows meanwhile counts as read to its end.
func (r *Reader) Progress() (read, total int64) {
	read, total = r.source.read.Load(), r.source.total
	if total > 0 {
		read = min(read, total)
	}
	return read, total
}

// Close lets the file go.
func (r *Reader) Close() {
	for i := len(r.source.close) - 1; i >= 0; i-- {
		r.source.close[i]()
	}
	r.source.close = nil
}

func (r *Reader) note(words string) {
	for _, n := range r.notes {
		if n == words {
			return
		}
	}
	r.notes = append(r.notes, words)
}
