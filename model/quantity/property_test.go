package quantity

import (
	"math"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"coilwalk/testdata/bounds"
)

// drawn gives any value that can be read in a unit.
func drawn(t *rapid.T, u *unit, k *kind) float64 {
	least := -largest
	if k.floor != "" {
		least = u.least
	}
	// Evenly over the range would hardly ever give what a bench has.
	return rapid.OneOf(
		rapid.Float64Range(least, largest),
		rapid.Float64Range(max(least, -1000), 1000),
		rapid.Float64Range(0, 1e-5),
		rapid.Map(rapid.IntRange(0, 100_000), func(n int) float64 { return float64(n) / 100 }),
	).Draw(t, "value")
}

// everyUnit runs a property for each unit of each dimension.
func everyUnit(t *testing.T, property func(t *rapid.T, p probe, u *unit)) {
	for _, p := range every {
		for i := range p.units {
			u := &p.units[i]
			t.Run(p.name+" "+strings.ReplaceAll(u.name, "/", "per "), func(t *testing.T) {
				rapid.Check(t, func(t *rapid.T) { property(t, p, u) })
			})
		}
	}
}

func TestTextIsLossless(t *testing.T) {
	everyUnit(t, func(t *rapid.T, p probe, u *unit) {
		v := drawn(t, u, p.kind)
		q := p.make(v, u)
		text, err := q.MarshalText()
		if err != nil {
			t.Fatalf("%v is not written: %v", q, err)
		}
		back, err := p.unmarshal(text)
		if err != nil || back != q || back.String() != q.String() || back.Base() != q.Base() {
			t.Fatalf("%s comes back as %v, %v", text, back, err)
		}
		if number, unit, _ := strings.Cut(string(text), " "); unit != u.name || strings.ContainsAny(number, "+,_ ") {
			t.Fatalf("%v %s is written %q", v, u.name, text)
		}
	})
}

// The same quantity in two units of its dimension has one Base. The way over
// the second unit is the table's own, so this holds fromBase against toBase;
// the factors themselves are held by the table of conversions.
func TestUnitsAgree(t *testing.T) {
	everyUnit(t, func(t *rapid.T, p probe, u *unit) {
		q := p.make(drawn(t, u, p.kind), u)
		other := &p.units[rapid.IntRange(0, len(p.units)-1).Draw(t, "other unit")]
		converted := p.make(other.fromBase(q.Base()), other)
		allowed := 1e-15*math.Abs(q.Base()) + 1e-310 // four roundings; floats are coarse below 1e-308
		if u.shift != 0 || other.shift != 0 {
			allowed += 1e-12 // near 0 °C a difference of numbers near 273
		}
		if d := math.Abs(converted.Base() - q.Base()); d > allowed {
			t.Fatalf("%v and %v are %v apart in the base unit", q, converted, d)
		}
	})
}

// Scaling the value scales the Base alike where a unit has no offset, and moves
// it alike where it has one.
func TestBaseIsLinear(t *testing.T) {
	everyUnit(t, func(t *rapid.T, p probe, u *unit) {
		v := rapid.Float64Range(0, 1000).Draw(t, "value")
		zero, one := p.make(0, u).Base(), p.make(1, u).Base()
		want := zero + v*(one-zero)
		if got := p.make(v, u).Base(); math.Abs(got-want) > 1e-12*(math.Abs(want)+math.Abs(zero)*1000) {
			t.Fatalf("%v %s is %v, want %v", v, u.name, got, want)
		}
	})
}

func TestRoundedReadsBack(t *testing.T) {
	everyUnit(t, func(t *rapid.T, p probe, u *unit) {
		q := p.make(drawn(t, u, p.kind), u)
		digits := rapid.IntRange(1, 12).Draw(t, "digits")
		text := q.Rounded(digits)
		back, err := p.parse(text)
		if err != nil {
			// The rounded text may pass a limit that the value itself keeps.
			if b := q.Base(); math.Abs(b) < 1e12 && (p.floor == "" || b > -200) {
				t.Fatalf("%v is rounded to %q: %v", q, text, err)
			}
			return
		}
		allowed := math.Abs(q.Base()) * (0.5*math.Pow10(1-digits) + 1e-14)
		if d := math.Abs(back.Base() - q.Base()); d > allowed {
			t.Fatalf("%v in %d digits is %q, off by %v", q, digits, text, d)
		}
		number, _, _ := strings.Cut(text, " ")
		mantissa, _, _ := strings.Cut(number, "e")
		// Zeros at the end of a whole number only hold a place.
		significant := strings.Trim(strings.ReplaceAll(strings.TrimLeft(mantissa, "-0."), ".", ""), "0")
		if len(significant) > digits {
			t.Fatalf("%v in %d digits is %q", q, digits, text)
		}
		if size := math.Abs(q.Base()); size > 1e-6 && size < 1e5 && mantissa != number {
			t.Fatalf("%v of bench size is %q", q, text)
		}
		if twice := back.Rounded(digits); twice != text {
			t.Fatalf("%q rounded again is %q", text, twice)
		}
	})
}

// FuzzParse gives any text to every dimension.
func FuzzParse(f *testing.F) {
	for _, c := range conversions {
		f.Add(c.text)
	}
	for _, c := range spellings {
		f.Add(c.text)
	}
	for _, c := range faults {
		f.Add(c.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		bounds.Hold(t, len(text), 4<<20, 10_000, func() {
			for _, p := range every {
				_, _ = p.parse(text)
			}
		})
		for _, p := range every {
			q, err := p.parse(text)
			if err != nil {
				message := err.Error()
				if message == "" || strings.ContainsFunc(message, unicode.IsControl) || len([]rune(message)) > 400 {
					t.Errorf("%s %q: the message is %q", p.name, text, message)
				}
				if q.Given() {
					t.Errorf("%s %q: given with the error %v", p.name, text, err)
				}
				continue
			}
			if b := q.Base(); math.IsNaN(b) || math.IsInf(b, 0) {
				t.Errorf("%s %q is %v", p.name, text, b)
			}
			written, err := q.MarshalText()
			if err != nil {
				t.Errorf("%s %q is not written: %v", p.name, text, err)
			}
			back, err := p.unmarshal(written)
			if err != nil || back != q {
				t.Errorf("%s %q is written %q, read back %v, %v", p.name, text, written, back, err)
			}
			if rounded := q.Rounded(3); rounded == "" || strings.HasPrefix(rounded, "-0 ") || strings.HasPrefix(q.String(), "-0 ") {
				t.Errorf("%s %q is printed %q, rounded to %q", p.name, text, q, rounded)
			}
		}
	})
}
