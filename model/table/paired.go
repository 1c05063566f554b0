package table

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// remark is a comment of a source text.
type remark struct {
	line int
	text string
}

// plainRemarks gives the comments of plain text.
func plainRemarks(text string) (all []remark) {
	for i, line := range strings.Split(text, "\n") {
		at := strings.Index(line, "#")
		if slashes := strings.Index(line, "//"); slashes >= 0 && (at < 0 || slashes < at) {
			at = slashes
		}
		if at >= 0 {
			all = append(all, remark{i + 1, line[at:]})
		}
	}
	return all
}

// outputPair is a statement that an output has a bit of a port: "pin 0 = IN1".
type outputPair struct {
	output int // from 1; 0 for a coil end that tells no output
	bit    int
	line   int
	end    bool // told by the coil end A+
	pin    bool // a pin, and the line speaks of no port: it may be one of the board
}

// mention is an output, or a bit, in a clause of a comment; a range has another end.
type mention struct {
	output      bool
	from, to    int
	pin, end    bool
	port        string
	start, stop int
}

var (
	outputWords = regexp.MustCompile(`(?i)\b(?:(?:in|out)_?|(?:output|input|coil|winding) ?#?)([1-4])\b`)
	endWords    = regexp.MustCompile(`\b[AB][+-]`)
	bitWord     = regexp.MustCompile(`(?i)\b(?:port ?([a-l])(?:[.\[_]| ?\(?(?:bit|pin) ?#?)?|p([a-l])_?|(bit|pin)s? ?#?|((?-i:D)))(\d{1,2})\b`)
	rangeEnd    = regexp.MustCompile(`^ ?(?:\.{2,3}|…|-|–|to|through) ?(\d{1,2})\b`)
	rangeMark   = regexp.MustCompile(`^ ?(?:\.{2,3}|…|-|–|to|through) ?$`)
	joint       = regexp.MustCompile(`(?i)^[ ()\[\]]*(?:=+>?|:|-+>?|–|→|is(?: on| at)?|on|at|to|for|drives|feeds|goes (?:on|to))?[ ()\[\]]*$`)
	apart       = regexp.MustCompile(`^[ .…]*$`)
	clauseMark  = regexp.MustCompile(`[,;]|\band\b`)
	ofOther     = regexp.MustCompile(`(?i)^ (?:of|on) (?:the )?(\w+)`)
	lastWord    = regexp.MustCompile(`[A-Za-z]+ ?$`)
	ofPort      = regexp.MustCompile(`(?i)\bport|nibble|\bbits?\b`)
)

// pairsIn gives what comments say plainly of outputs and bits; nil where a line that
// names both is not understood, or says something else than another: then nothing
// is said.
func pairsIn(remarks []remark) (pairs []outputPair) {
	port := ""
	for _, r := range remarks {
		for i, line := range strings.Split(r.text, "\n") {
			found, ports, ok := pairsInLine(strings.Join(strings.Fields(line), " "))
			if !ok {
				return nil
			}
			for _, p := range ports {
				if port != "" && p != port {
					return nil
				}
				port = p
			}
			for _, p := range found {
				p.line = r.line + i
				again := false // kept once, however often it is said: few are different
				for _, q := range pairs {
					again = again || p.output == q.output && p.bit == q.bit
					if p.output > 0 && q.output > 0 && (p.output == q.output) != (p.bit == q.bit) {
						return nil
					}
				}
				if !again {
					pairs = append(pairs, p)
				}
			}
		}
	}
	return pairs
}

// pairsInLine reads one line; ok is false where it names outputs and bits in a way
// that is not plain.
func pairsInLine(line string) (pairs []outputPair, ports []string, ok bool) {
	if !bitWord.MatchString(line) {
		return nil, nil, true
	}
	if outputWords.MatchString(line) {
		line = endWords.ReplaceAllString(line, " ") // beside its number an end tells no more
		line = strings.Join(strings.Fields(line), " ")
	}
	bare := false // a clause that is a mention and nothing else: one of a list
	for _, clause := range clauseMark.Split(line, -1) {
		clause = strings.Trim(clause, " /*#")
		all := mentions(clause)
		outputs := 0
		for _, m := range all {
			if m.output {
				outputs++
			}
		}
		if outputs == 0 || outputs == len(all) {
			bare = bare || len(all) > 0 && all[0].start == 0 && all[len(all)-1].stop == len(clause) || clause != "" && strings.Trim(clause, "0123456789") == ""
			continue
		}
		if len(all)%2 != 0 {
			return nil, nil, false
		}
		for i := 0; i < len(all); i += 2 {
			a, b := all[i], all[i+1]
			if !joint.MatchString(clause[a.stop:b.start]) || a.output == b.output || a.output != all[0].output ||
				i > 0 && !apart.MatchString(clause[all[i-1].stop:a.start]) {
				return nil, nil, false
			}
			if b.output {
				a, b = b, a
			}
			if !ofBoard(clause, b, line) {
				return nil, nil, false
			}
			found := pairsOf(a, b, !ofPort.MatchString(line))
			if found == nil {
				return nil, nil, false
			}
			pairs = append(pairs, found...)
			if b.port != "" {
				ports = append(ports, b.port)
			}
		}
	}
	if bare && (len(pairs) > 0 || outputWords.MatchString(line)) {
		return nil, nil, false
	}
	return pairs, ports, true
}

// ofBoard says whether a bit may be one of a port: a pin with a word of its own, as
// "header pin 3", or of something, is not.
func ofBoard(clause string, m mention, line string) bool {
	if next := ofOther.FindStringSubmatch(clause[m.stop:]); next != nil && !strings.HasPrefix(strings.ToLower(next[1]), "port") {
		return false
	}
	before := lastWord.FindString(clause[:m.start])
	return !m.pin || before == "" || joint.MatchString(before) || ofPort.MatchString(line)
}

// pairsOf pairs an output with a bit, or four with four.
func pairsOf(output, bit mention, alone bool) []outputPair {
	n, m := output.to-output.from, bit.to-bit.from
	if n == 0 && m == 0 {
		return []outputPair{{output: output.from, bit: bit.from, end: output.end, pin: bit.pin && alone}}
	}
	if n*n != 9 || m*m != 9 { // from 1 to 4, or back
		return nil
	}
	var pairs []outputPair
	for k := range 4 {
		pairs = append(pairs, outputPair{output: output.from + k*n/3, bit: bit.from + k*m/3, pin: bit.pin && alone})
	}
	return pairs
}

// mentions lists the outputs and bits of a clause, in their order.
func mentions(clause string) (all []mention) {
	for _, at := range outputWords.FindAllStringSubmatchIndex(clause, -1) {
		n := int(clause[at[2]] - '0')
		all = append(all, mention{output: true, from: n, to: n, start: at[0], stop: at[1]})
	}
	for _, at := range endWords.FindAllStringIndex(clause, -1) {
		n := 0
		if clause[at[0]:at[1]] == "A+" {
			n = 1
		}
		all = append(all, mention{output: true, end: true, from: n, to: n, start: at[0], stop: at[1]})
	}
	for _, at := range bitWord.FindAllStringSubmatchIndex(clause, -1) {
		part := func(group int) string {
			if at[2*group] < 0 {
				return ""
			}
			return strings.ToLower(clause[at[2*group]:at[2*group+1]])
		}
		n, _ := strconv.Atoi(part(5)) // two digits at most
		all = append(all, mention{from: n, to: n, port: part(1) + part(2), pin: part(3) == "pin" || part(4) != "", start: at[0], stop: at[1]})
	}
	slices.SortFunc(all, func(a, b mention) int { return a.start - b.start })
	for i := 0; i < len(all); i++ {
		m := &all[i]
		if end := rangeEnd.FindStringSubmatch(clause[m.stop:]); end != nil {
			m.to, _ = strconv.Atoi(end[1])
			m.stop += len(end[0])
		} else if i+1 < len(all) && all[i+1].output == m.output && rangeMark.MatchString(clause[m.stop:all[i+1].start]) {
			m.to, m.stop = all[i+1].from, all[i+1].stop
			all = slices.Delete(all, i+1, i+2)
		}
	}
	return all
}

// name is what a comment called column 1.
func (p outputPair) name() string {
	if p.end {
		return "A+"
	}
	return "output 1"
}

// pairedBits gives the bits of the columns as comments say that outputs have them,
// and what says so of output 1. where lists the bits highest first.
func pairedBits(where []int, pairs []outputPair) (columns []int, from outputPair) {
	lowest := turned(where, LSBFirst)
	high, low := true, true
	var exact [4]int
	told := 0 // the outputs that are named, as a set
	for _, p := range pairs {
		if !slices.Contains(where, p.bit) || p.output > len(where) {
			return nil, from // a pin of the board, or of something else
		}
		if p.output == 0 {
			continue
		}
		k := p.output - 1
		high, low = high && where[k] == p.bit, low && lowest[k] == p.bit
		if exact[k] = p.bit; p.output == 1 && from.line == 0 {
			from = p
			if p.pin && len(pairs) == 1 && p.bit == where[0] {
				return nil, from // a high number is as likely a pin of the board
			}
		}
		if !p.end {
			told |= 1 << k
		}
	}
	switch {
	case from.line == 0:
		return nil, from
	case high:
		return where, from
	case low:
		return lowest, from
	case told == 1<<len(where)-1:
		return exact[:len(where)], from
	}
	return nil, from
}
