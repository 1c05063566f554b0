// Package wiring finds out what leads belong to: from ohmmeter readings, which
// coils a motor has and where each lead goes.
package wiring

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
)

// Reading is one reading of an ohmmeter between two leads.
type Reading struct {
	A, B motor.Lead
	Open bool    // beyond the meter's range
	Ohm  float64 // else
	Line int     // in the file, for messages
}

// Case is the motor's case, as a place to put a probe to.
const Case = motor.Lead(motor.Case)

// Bounds of a readings file, far above any motor's.
const (
	LongestFile  = 64 << 10 // bytes
	mostReadings = 400
	mostLeads    = 12
	mostOhm      = 1e8
)

// ReadReadings reads lines of "lead, lead, ohm": the leads by colour or name,
// the resistance with or without its unit ("52", "52.3 ohm", "1.2k"), or "open"
// (also OL and inf). # begins a comment; a first line of words is a heading.
func ReadReadings(file string, text []byte) ([]Reading, error) {
	var readings []Reading
	leads, headed := map[motor.Lead]bool{}, 0 // the line of the heading
	for i, line := range strings.Split(strings.TrimPrefix(string(text), "\ufeff"), "\n") {
		line, _, _ = strings.Cut(line, "#")
		if strings.TrimSpace(line) == "" {
			continue
		}
		complaint := func(what, right string) error {
			return &files.Complaint{File: file, Line: i + 1, What: what, Right: right}
		}
		parts := partsOf(line)
		if len(parts) != 3 {
			return nil, complaint(fmt.Sprintf("%d values stand here", len(parts)), "lead, lead, ohm is wanted, as BN, VT, 52")
		}
		if len(readings) == 0 && heading(parts) {
			headed = i + 1
			continue
		}
		r := Reading{Line: i + 1}
		for k, to := range []*motor.Lead{&r.A, &r.B} {
			lead, err := leadOf(parts[k])
			if err != nil {
				return nil, complaint(err.Error(), "")
			}
			*to = lead
		}
		if r.A == r.B {
			return nil, complaint(fmt.Sprintf("both probes are on %s", r.A), "two different leads are wanted")
		}
		var err error
		if r.Ohm, r.Open, err = ohmOf(parts[2]); err != nil {
			return nil, complaint(err.Error(), "")
		}
		for _, l := range []motor.Lead{r.A, r.B} {
			if l != Case {
				leads[l] = true
			}
		}
		if readings = append(readings, r); len(readings) > mostReadings || len(leads) > mostLeads {
			return nil, complaint(fmt.Sprintf("%d readings of %d leads", len(readings), len(leads)), fmt.Sprintf("at most %d of %d are taken", mostReadings, mostLeads))
		}
	}
	switch {
	case len(readings) == 0 && headed > 0:
		return nil, &files.Complaint{File: file, Line: headed, What: "no reading stands here; this line has no resistance and was taken for a heading", Right: "a line a reading is wanted, as BN, VT, 52"}
	case len(readings) == 0:
		return nil, &files.Complaint{File: file, What: "no reading stands here", Right: "a line a reading is wanted, as BN, VT, 52"}
	}
	return readings, nil
}

// LikeReadings says whether a text looks like a file of readings at all: every
// line three parts, the last a resistance or open. A step table never does.
func LikeReadings(text []byte) bool {
	lines, readings := 0, 0
	for _, line := range strings.Split(strings.TrimPrefix(string(text), "\ufeff"), "\n") {
		line, _, _ = strings.Cut(line, "#")
		if strings.TrimSpace(line) == "" {
			continue
		}
		lines++
		parts := partsOf(line)
		if len(parts) != 3 || strings.ContainsAny(line, "{}()[]=") || strings.Count(line, ",") > 2 {
			return false
		}
		_, _, err := ohmOf(parts[2])
		_, errA := leadOf(parts[0])
		_, errB := leadOf(parts[1])
		if err == nil && errA == nil && errB == nil {
			readings++
		}
	}
	return readings > 0 && 2*readings >= lines
}

// partsOf parts a line at commas, semicolons or tabs; without any, at blanks, the
// third part being all that is left.
func partsOf(line string) []string {
	separator := ""
	for _, s := range []string{";", "\t", ","} {
		if strings.Contains(line, s) {
			separator = s
			break
		}
	}
	if separator == "" {
		words := strings.Fields(line)
		if len(words) > 3 {
			words = append(words[:2], strings.Join(words[2:], " "))
		}
		return words
	}
	parts := strings.SplitN(line, separator, 3)
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	return parts
}

// heading says whether a first line names columns. One that begins with a colour is a
// reading, whatever stands for its ohms.
func heading(parts []string) bool {
	_, _, err := ohmOf(parts[2])
	_, colour := motor.ColourNamed(parts[0])
	return err != nil && !colour && !strings.ContainsAny(parts[2], "0123456789")
}

func leadOf(text string) (motor.Lead, error) {
	if strings.EqualFold(text, motor.Case) {
		return Case, nil
	}
	return motor.ParseLead(text)
}

func ohmOf(text string) (ohm float64, open bool, err error) {
	switch strings.ToLower(text) {
	case "open", "ol", "o.l", "o.l.", "0l", "0.l", "inf", "infinite", "∞", "1.":
		return 0, true, nil
	}
	var q quantity.Resistance
	if err := q.Set(text); err != nil {
		// A meter shows ohm; who reads it off writes the number.
		if q.Set(text+" ohm") != nil {
			return 0, false, err
		}
	}
	if q.Base() < 0 || q.Base() > mostOhm {
		return 0, false, fmt.Errorf("%s is no resistance of a winding; 0 up to %.0f kohm, or open, is wanted", files.Shown(text), mostOhm/1e3)
	}
	return q.Base(), false, nil
}

// WriteReadings writes readings as a file that ReadReadings reads back.
func WriteReadings(readings []Reading) []byte {
	text := []byte("# ohmmeter readings between leads; motor unplugged, shaft at rest\nlead,lead,ohm\n")
	for _, r := range readings {
		ohm := "open"
		if !r.Open {
			ohm = strconv.FormatFloat(r.Ohm, 'f', -1, 64)
		}
		text = fmt.Appendf(text, "%s,%s,%s\n", r.A, r.B, ohm)
	}
	return text
}

// ParseReading reads what a meter shows: "52", "1.2k", "52.3 ohm" or "open".
func ParseReading(text string) (ohm float64, open bool, err error) {
	return ohmOf(strings.TrimSpace(text))
}

// ParseLeads reads names of leads, parted by blanks or commas; the case is one.
func ParseLeads(text string) (leads []motor.Lead, err error) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' }) {
		lead, err := leadOf(word)
		if err != nil {
			return nil, err
		}
		if slices.Contains(leads, lead) {
			return nil, fmt.Errorf("%s stands twice; tell like colours apart by names, as BK1 and BK2", lead)
		}
		leads = append(leads, lead)
	}
	if len(leads) > mostLeads {
		return nil, fmt.Errorf("%d leads are named; at most %d are taken", len(leads), mostLeads)
	}
	return leads, nil
}
