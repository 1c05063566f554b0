package recording

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"coilwalk/model/files"
)

func likeVCD(head []byte) bool {
	for _, word := range []string{"$date", "$version", "$comment", "$timescale", "$scope", "$var", "$enddefinitions"} {
		if bytes.HasPrefix(head, []byte(word)) {
			return true
		}
	}
	return false
}

// mostVariables bounds what a head may declare.
const mostVariables = 1 << 20

// startVCD reads the declarations of a value change dump, IEEE 1364 clause
// 18.2.3, up to $enddefinitions.
func (r *Reader) startVCD(w *window) error {
	h := vcdHead{window: w, body: &vcd{window: w, reader: r, ids: map[string]int32{}}}
	r.Format, r.body = "VCD", h.body
	for {
		word, at, err := h.word()
		if err == io.EOF {
			return w.complaint(w.at, "the file ends within its declarations", "$enddefinitions $end is wanted before the levels; was the recording cut off?")
		}
		if err != nil {
			return err
		}
		if word == "\ufeff" {
			continue
		}
		text, err := h.toEnd(strings.TrimPrefix(word, "\ufeff"), at)
		if err != nil {
			return err
		}
		switch strings.TrimPrefix(word, "\ufeff") {
		case "$enddefinitions":
			return h.finish(r, at)
		case "$timescale":
			if r.Tick, err = h.timescale(text, at); err != nil {
				return err
			}
		case "$scope":
			h.scopes = append(h.scopes, last(text))
		case "$upscope":
			if len(h.scopes) > 0 {
				h.scopes = h.scopes[:len(h.scopes)-1]
			}
		case "$var":
			if err := h.variable(text, at); err != nil {
				return err
			}
		}
	}
}

// vcdHead is the declarations on their way.
type vcdHead struct {
	*window
	body     *vcd
	scopes   []string
	declared []declared
}

// declared is a bit of a variable.
type declared struct {
	scope, name, bus string
	others           []string
}

// word gives the next word, and where it stands in the window: good until the
// next one is asked for.
func (h *vcdHead) word() (word string, at int, err error) {
	for {
		for h.at < h.end && h.buf[h.at] <= ' ' {
			h.at++
		}
		if h.at < h.end {
			break
		}
		if err := h.fill(); err != nil {
			return "", 0, err
		}
	}
	from := h.at
	for h.at < h.end && h.buf[h.at] > ' ' {
		h.at++
	}
	return string(h.buf[from:h.at]), from, nil
}

// toEnd gives the words of a declaration up to its $end.
func (h *vcdHead) toEnd(keyword string, at int) (words []string, err error) {
	if keyword == "" || keyword[0] != '$' {
		return nil, h.complaint(at, fmt.Sprintf("%q stands among the declarations", keyword), "a word that begins with $ is wanted before $enddefinitions")
	}
	h.note(at)
	for n := 0; ; n++ {
		word, _, err := h.word()
		if err == io.EOF {
			line, column := h.notedPlace()
			return nil, &files.Complaint{File: h.source.name, Line: line, Column: column, What: fmt.Sprintf("the file ends within this %s", keyword), Right: "an $end is wanted; was the recording cut off?"}
		}
		if err != nil {
			return nil, err
		}
		if word == "$end" {
			return words, nil
		}
		if n < 64 { // a comment may be long, and nothing hangs on it
			words = append(words, word)
		}
	}
}

var vcdUnits = map[string]int{"s": 0, "ms": -3, "us": -6, "ns": -9, "ps": -12, "fs": -15}

// timescale reads "1ns" or "10 us". Clause 18.2.3.5 knows 1, 10 and 100; any
// other whole number says what it means as well.
func (h *vcdHead) timescale(words []string, at int) (seconds float64, err error) {
	text := strings.Join(words, "")
	unit := strings.TrimLeft(text, "0123456789")
	power, known := vcdUnits[unit]
	number, numberErr := strconv.Atoi(strings.TrimSuffix(text, unit))
	if !known || numberErr != nil || number < 1 {
		return 0, h.complaint(at, fmt.Sprintf("the timescale %q is not understood", strings.Join(words, " ")), "a number and a unit are wanted, as 1 ns or 10us")
	}
	return float64(number) / math.Pow10(-power), nil
}

// variable reads "wire 4 # coils [3:0]" and makes a channel of each bit.
func (h *vcdHead) variable(words []string, at int) error {
	if len(words) < 4 {
		return h.complaint(at, "this $var is too short", `a type, a size, an identifier and a name are wanted, as $var wire 1 ! IN1 $end`)
	}
	size, err := strconv.Atoi(words[1])
	if err != nil || size < 0 || size > 1<<20 {
		return h.complaint(at, fmt.Sprintf("%q is no size of a variable", words[1]), "a number of bits is wanted")
	}
	id, kind := words[2], words[0]
	if n, twice := h.body.ids[id]; twice {
		if n != noVariable && size == 1 { // another name for the same line
			d := &h.declared[h.body.variables[n].first]
			d.others = append(d.others, strings.Join(words[3:], ""))
		}
		return nil
	}
	if kind == "real" || kind == "realtime" || kind == "string" || kind == "event" || kind == "parameter" || size == 0 || size > MostChannels {
		h.body.ids[id] = noVariable // known, and no line of ours
		return nil
	}
	if len(h.declared)+size > mostVariables {
		return h.complaint(at, "more than a million lines are declared", "a recording of pins has some")
	}
	name, bus := strings.Join(words[3:], ""), ""
	high := size - 1
	if open := strings.LastIndexByte(name, '['); open > 0 && size > 1 {
		if top, _, ok := strings.Cut(strings.TrimSuffix(name[open+1:], "]"), ":"); ok {
			if n, err := strconv.Atoi(top); err == nil {
				high = n
			}
		}
		name = name[:open]
	}
	if size > 1 {
		bus = name
	}
	scope := strings.Join(h.scopes, ".")
	h.body.ids[id] = int32(len(h.body.variables))
	h.body.variables = append(h.body.variables, variable{first: len(h.declared), size: size})
	for k := range size {
		d := declared{scope: scope, name: name, bus: bus}
		if size > 1 {
			d.name = fmt.Sprintf("%s[%d]", name, high-k)
		}
		h.declared = append(h.declared, d)
	}
	return nil
}

// finish names the channels: by their scope only where a name stands twice.
func (h *vcdHead) finish(r *Reader, at int) error {
	if len(h.declared) == 0 {
		return h.complaint(at, "no line is declared before the levels", "a $var for each recorded pin is wanted")
	}
	if r.Tick == 0 {
		r.Tick = 1e-9
		r.note("The file states no timescale: its unit was taken for 1 ns, so rates and times hang on that.")
	}
	seen := map[string]int{}
	for _, d := range h.declared {
		seen[d.name]++
	}
	given := map[string]int{}
	for _, d := range h.declared {
		c := Channel{Name: d.name, Bus: d.bus, Others: d.others}
		if seen[d.name] > 1 && d.scope != "" {
			c.Name = d.scope + "." + d.name
			if d.bus != "" {
				c.Bus = d.scope + "." + d.bus
			}
		}
		c.Name = alone(c.Name, given)
		r.Channels = append(r.Channels, c)
	}
	h.body.prepare(len(r.Channels))
	return nil
}

// alone gives a name that no other line has: the second of a name is name#2.
func alone(name string, seen map[string]int) string {
	for seen[name]++; seen[name] > 1; seen[name]++ {
		if other := fmt.Sprintf("%s#%d", name, seen[name]); seen[other] == 0 {
			name = other
			seen[name] = 1
			break
		}
	}
	return name
}

func last(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[len(words)-1]
}
