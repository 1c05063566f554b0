// Package report puts answers into words and into JSON. What it says comes
// from the model; it decides nothing itself.
package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Version is the version of the JSON objects: the value of "coilwalk" in each.
const Version = 1

// WriteJSON writes one object, indented, with a final newline.
func WriteJSON(w io.Writer, object any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(object); err != nil {
		return err
	}
	_, err := w.Write(escaped(b.Bytes()))
	return err
}

// escaped puts what could steer a terminal into JSON's own escapes, which mean the
// same: it can only stand in strings.
func escaped(text []byte) []byte {
	steers := func(r rune) bool { return r != '\n' && files.Steers(r) }
	if bytes.IndexFunc(text, steers) < 0 {
		return text
	}
	var out []byte
	for _, r := range string(text) {
		if !steers(r) {
			out = utf8.AppendRune(out, r)
			continue
		}
		for _, unit := range utf16.Encode([]rune{r}) {
			out = fmt.Appendf(out, "\\u%04x", unit)
		}
	}
	return out
}

// degrees rounds an angle, or another figure of its size, for JSON to 10⁻⁶, so that what bisection and
// another processor's arithmetic leave does not show.
func degrees(deg float64) float64 {
	r := math.Round(deg*1e6) / 1e6
	if r == 0 {
		return 0 // not −0
	}
	return r
}

// Fixed writes a number with a number of decimals, and no "−0". What lies on the
// edge is rounded away from zero, whatever its last bits are on this machine: the
// angles of orders often do.
func Fixed(v float64, decimals int) string {
	v *= 1 + 1e-12
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// Signed is Fixed with a plus before what is above zero.
func Signed(v float64, decimals int) string {
	s := Fixed(v, decimals)
	if s[0] != '-' && strings.Trim(s, "0.") != "" {
		return "+" + s
	}
	return s
}

// Angle writes degrees with up to so many decimals and no trailing zeros.
func Angle(deg float64, decimals int) string {
	return shortest(deg, decimals) + "°"
}

// Rate writes a rate of rows a second, to a tenth where it needs one.
func Rate(rowsPerSecond float64) string { return shortest(rowsPerSecond, 1) }

// shortest writes a number with at most so many decimals, and none that are 0.
func shortest(v float64, decimals int) string {
	s := Fixed(v, decimals)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// Count writes a whole number with a thin gap between thousands.
func Count(n int64) string {
	s := strconv.FormatInt(n, 10)
	sign := ""
	if s[0] == '-' {
		sign, s = "-", s[1:]
	}
	var parts []string
	for len(s) > 3 {
		parts = append([]string{s[len(s)-3:]}, parts...)
		s = s[:len(s)-3]
	}
	return sign + strings.Join(append([]string{s}, parts...), " ")
}

// Turning says a way of turning as a practitioner sees it, facing the end of
// the output shaft: forward is clockwise.
func Turning(forward bool) string {
	if forward {
		return "clockwise"
	}
	return "counter-clockwise"
}

// Balance says what keeps the rotor where it is.
func Balance(b rotor.Balance) string {
	switch b {
	case rotor.Held:
		return "held by the field"
	case rotor.Stuck:
		return "balanced on a hill; friction keeps it"
	case rotor.Either:
		return "an unstable balance: it falls to either side"
	case rotor.Detent:
		return "no field; the detent holds it"
	case rotor.Loose:
		return "no field; only friction holds it"
	case rotor.Adrift:
		return "the load is stronger than the hold and drives it on"
	}
	return "not known"
}

// Winding says a winding in a few words: "5 leads, common VT".
func Winding(m motor.Motor) string {
	words := strconv.Itoa(len(m.Leads())) + " leads"
	switch {
	case m.Common != "":
		return words + ", common " + string(m.Common)
	case m.Taps[0] != "":
		return words + ", taps " + string(m.Taps[0]) + " and " + string(m.Taps[1])
	case m.Inner[0] != "":
		return words + ", four halves"
	}
	return words + ", two coils"
}

// Ratio writes a train's ratio to three decimals: "42.445:1"; "" without one.
func Ratio(t motor.Train) string {
	if !t.Geared() {
		return ""
	}
	r := t.Ratio()
	if r.IsInt() {
		return r.Num().String() + ":1"
	}
	return r.FloatString(3) + ":1"
}

// Against says so when the shaft turns against the rotor; "" otherwise.
func Against(t motor.Train) string {
	against, known := t.Against()
	switch {
	case !t.Geared() || known && !against:
		return ""
	case !known:
		return "Only the ratio of the train is known: the rotor may turn with the shaft or against it."
	}
	return "An odd number of meshes: the rotor turns against the shaft."
}

// lit lists the coil ends that are on, with lead and output: "B+ (WH, output 2)".
func lit(m motor.Motor, wiring sequence.Permutation, coils sequence.Row) string {
	outputs := wiring.Inverse()
	var parts []string
	for _, e := range coils.On() {
		s := e.String() + " (" + string(m.Ends[e]) + ", output " + strconv.Itoa(outputs[e]+1) + ")"
		if coils[e] < 1 {
			s += " at " + strconv.Itoa(int(math.Round(coils[e]*100))) + " %"
		}
		parts = append(parts, s)
	}
	switch len(parts) {
	case 0:
		return "no coil"
	case 1:
		return parts[0]
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}
