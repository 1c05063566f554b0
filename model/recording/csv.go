package recording

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"coilwalk/model/files"
)

// picosecond is the tick of a CSV with times: 106 days of them fit 63 bits.
const picosecond = -12

// mostColumns bounds a line of a CSV.
const mostColumns = 256

func likeCSV(head []byte) bool {
	first, rest, ok := bytes.Cut(afterComments(head), []byte("\n"))
	second, _, _ := bytes.Cut(rest, []byte("\n"))
	by := separator(first)
	fields, below := split(nil, first, by), split(nil, second, by)
	if !ok || len(fields) < 3 || len(fields) != len(below) {
		return false
	}
	for _, f := range below {
		if _, number := decimal(f, picosecond); !number {
			return false
		}
	}
	return true
}

// startCSV reads the head of a CSV: what its columns are.
func (r *Reader) startCSV(w *window, o Options) error {
	c := &csv{window: w, reader: r, time: -1}
	r.Format, r.body = "CSV", c
	below := afterComments(w.rest())
	c.commented = commentedRate(w.rest()[:w.end-w.at-len(below)])
	w.at = w.end - len(below)
	line := w.line()
	if len(line) == 0 {
		return w.complaint(w.at, "no line of the file holds levels", "a line of names and lines of levels are wanted")
	}
	c.by = separator(line)
	c.fields = split(nil, line, c.by)
	if len(c.fields) < 2 || len(c.fields) > mostColumns {
		return w.complaint(w.at, fmt.Sprintf("this is no VCD, and as a CSV its first line has %d columns", len(c.fields)), "a column a channel is wanted, parted by comma, semicolon or tab, and one for time")
	}
	names := !allNumbers(c.fields)
	titles := make([]string, len(c.fields))
	for i, f := range c.fields {
		titles[i] = fmt.Sprintf("column %d", i+1)
		if name := string(f); names && name != "" {
			titles[i] = name
		}
	}
	if names {
		w.at += w.lineLength()
	}
	if err := c.findTime(r, titles, names, o); err != nil {
		return err
	}
	seen := map[string]int{}
	for i, t := range titles {
		t = alone(t, seen)
		if i != c.time && i != c.count {
			c.columns = append(c.columns, i)
			r.Channels = append(r.Channels, Channel{Name: t})
		}
	}
	if len(c.columns) == 0 {
		return w.complaint(w.end-len(below), "its columns tell the time and count the samples, and none is a channel", "a column a channel is wanted beside them")
	}
	c.width = len(titles)
	c.places = make([]int8, len(titles))
	for i := range c.places {
		c.places[i] = -1
	}
	return c.findThreshold(o)
}

// findTime says which column is the time, and in what unit; without one the
// rows are samples at a rate.
func (c *csv) findTime(r *Reader, titles []string, names bool, o Options) error {
	c.count = -1
	for i, t := range titles {
		name, unit := unitOf(t)
		switch name {
		case "time", "t", "timestamp", "seconds", "zeit", "s", "ms", "us", "µs", "ns":
			if c.time < 0 && names {
				c.time, c.power = i, unit
			}
		case "sample", "samples", "index", "sample number", "n", "#":
			if names {
				c.count = i
			}
		}
	}
	if c.time < 0 && !names && c.rises(0) {
		c.time = 0
		r.note("The file has no names: its first column rises all the time and was taken for the time in seconds.")
	}
	if c.time < 0 && o.SampleRate == 0 {
		if o.SampleRate = c.commented; o.SampleRate > 0 {
			r.note(fmt.Sprintf("The rate of the samples, %.6g Hz, is that of a comment above them.", o.SampleRate))
		}
	}
	switch {
	case c.time >= 0 && o.SampleRate > 0:
		return &files.Complaint{File: c.source.name, What: fmt.Sprintf("the column %q tells the time, and a sample rate is given as well", titles[c.time]), Right: "leave --sample-rate out"}
	case c.time >= 0:
		if !unitGiven(titles[c.time]) && names {
			r.note(fmt.Sprintf("The times of the column %q were taken for seconds; a unit in its name, as time [us], says otherwise.", titles[c.time]))
		}
		r.Tick = math.Pow10(picosecond)
		c.power = picosecond - c.power
	case o.SampleRate > 0:
		r.Tick = 1 / o.SampleRate
	default:
		line, _ := c.place(c.at)
		if names {
			line-- // that of the names
		}
		return &files.Complaint{File: c.source.name, Line: line, What: "no column is the time", Right: "name one time, or give the rate of the samples with --sample-rate, as 1000000"}
	}
	return nil
}

// commentedRate finds a rate of samples in the comments above them, as
// "Samplerate: 10 kHz"; 0 without one.
func commentedRate(comments []byte) float64 {
	m := rateInWords.FindSubmatch(comments)
	if m == nil {
		return 0
	}
	rate, err := strconv.ParseFloat(string(m[1]), 64)
	if err != nil {
		return 0
	}
	return rate * map[string]float64{"": 1, "k": 1e3, "m": 1e6, "g": 1e9}[strings.ToLower(string(m[2]))]
}

var rateInWords = regexp.MustCompile(`(?i)sample\s*-?rate\s*[:=]?\s*([0-9.]+)\s*([kmg]?)hz`)

// unitGiven says whether the name of a time column tells its unit.
func unitGiven(title string) bool {
	name, power := unitOf(title)
	return power != 0 || name == "s" || name == "seconds" || strings.ContainsAny(title, "[(")
}

// unitOf parts "Time [ms]" into its name and the power of ten of its unit.
func unitOf(title string) (name string, power int) {
	name = strings.ToLower(title)
	if p, ok := vcdUnits[strings.ReplaceAll(name, "µ", "u")]; ok { // the unit alone
		return name, p
	}
	if open := strings.IndexAny(name, "[(_"); open > 0 {
		switch unit := strings.Trim(name[open:], "[](_) "); unit {
		case "s", "sec", "seconds":
			return strings.TrimSpace(name[:open]), 0
		case "µs", "μs", "us":
			return strings.TrimSpace(name[:open]), -6
		case "ms", "ns", "ps":
			return strings.TrimSpace(name[:open]), vcdUnits[unit]
		}
	}
	return strings.TrimSpace(name), 0
}

// rises says whether a column of the lines in the window rises from line to
// line, by numbers that are no levels.
func (c *csv) rises(column int) bool {
	last, n := int64(math.MinInt64), 0
	for _, line := range bytes.Split(c.rest(), []byte("\n")) {
		fields := split(nil, line, c.by)
		if len(fields) <= column || len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		v, ok := decimal(fields[column], picosecond)
		if !ok || v <= last {
			return false
		}
		if last, n = v, n+1; n == 100 {
			break
		}
	}
	return n > 1
}

// findThreshold looks at the first lines for voltages, and settles what of them
// is high: what is above the middle between the highest and the lowest.
func (c *csv) findThreshold(o Options) error {
	low, high, volts := math.Inf(1), math.Inf(-1), false
	for _, line := range bytes.Split(c.rest(), []byte("\n")) {
		fields := split(nil, line, c.by)
		for _, i := range c.columns {
			if i >= len(fields) {
				continue
			}
			v, err := strconv.ParseFloat(strings.ReplaceAll(string(fields[i]), ",", "."), 64)
			if err != nil {
				continue
			}
			low, high, volts = min(low, v), max(high, v), volts || v != 0 && v != 1
		}
	}
	if !volts && o.Threshold == 0 {
		return nil
	}
	c.volts = true
	threshold, band := o.Threshold, o.Hysteresis
	if threshold == 0 {
		if high-low < leastSwing {
			return c.complaint(c.at, fmt.Sprintf("voltages between %.3g and %.3g V are no levels", low, high), "give the threshold with --threshold, as 1.5V")
		}
		threshold = (low + high) / 2
		c.reader.note(fmt.Sprintf("The columns hold voltages from %.3g to %.3g V: what is above %.3g V was taken for high. --threshold says otherwise.", low, high, threshold))
	}
	if band == 0 {
		band = threshold / 5
	}
	c.above, c.below = threshold+band/2, threshold-band/2
	return nil
}

// leastSwing of a voltage between low and high; logic has more.
const leastSwing = 0.5 // V

// afterComments goes past blank lines and lines that begin with a mark of
// comments.
func afterComments(text []byte) []byte {
	for {
		text = bytes.TrimLeft(text, "\ufeff \r\n")
		if len(text) == 0 || !bytes.ContainsRune([]byte(";#%"), rune(text[0])) && !bytes.HasPrefix(text, []byte("//")) {
			return text
		}
		_, after, ok := bytes.Cut(text, []byte("\n"))
		if !ok {
			return nil
		}
		text = after
	}
}

// separator says what parts the columns: a comma only where nothing else does,
// as it may stand before decimals.
func separator(line []byte) byte {
	for _, by := range []byte("\t;") {
		if bytes.IndexByte(line, by) >= 0 {
			return by
		}
	}
	return ','
}

// split parts a line into its fields, without blanks about them. What stands in
// quotes may hold what parts them (RFC 4180).
func split(into [][]byte, line []byte, by byte) [][]byte {
	into = into[:0]
	quotes := bytes.IndexByte(line, '"') >= 0
	for {
		k := bytes.IndexByte(line, by)
		if quotes {
			k = outside(line, by)
		}
		if k < 0 {
			return append(into, unquoted(line))
		}
		into, line = append(into, unquoted(line[:k])), line[k+1:]
	}
}

// outside gives the first place of a mark that is not within quotes, or −1.
func outside(line []byte, by byte) int {
	within := false
	for i, c := range line {
		switch {
		case c == '"':
			within = !within
		case c == by && !within:
			return i
		}
	}
	return -1
}

func unquoted(field []byte) []byte {
	field = bytes.TrimSpace(field)
	if n := len(field); n >= 2 && field[0] == '"' && field[n-1] == '"' {
		return bytes.TrimSpace(field[1 : n-1])
	}
	return field
}

func allNumbers(fields [][]byte) bool {
	for _, f := range fields {
		if _, ok := decimal(f, picosecond); !ok {
			return false
		}
	}
	return true
}

// line gives the line that begins at the place of the window, without its end.
func (w *window) line() []byte {
	line, _, _ := bytes.Cut(w.rest(), []byte("\n"))
	return line
}

// lineLength gives the bytes of that line with its end.
func (w *window) lineLength() int { return min(len(w.line())+1, len(w.rest())) }
