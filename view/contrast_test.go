package view

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"coilwalk/view/picture"
)

// The grounds that the themes are made for: a dark terminal from black to this
// grey, a light one from white to this paper. Between them contrast lies between.
var grounds = map[*picture.Theme][2]colour{
	picture.Dark:  {{0, 0, 0}, {0x26, 0x26, 0x26}},
	picture.Light: {{255, 255, 255}, {0xee, 0xee, 0xee}},
}

// colour is one of sRGB.
type colour [3]uint8

// luminance is the relative luminance of a colour, and contrast the contrast
// ratio of two. Source: W3C, Web Content Accessibility Guidelines 2.1, definitions
// of "relative luminance" and "contrast ratio" (with the corrected 0.04045).
func (c colour) luminance() float64 {
	sum := 0.0
	for i, weight := range [3]float64{0.2126, 0.7152, 0.0722} {
		v := float64(c[i]) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}

func contrast(a, b colour) float64 {
	x, y := a.luminance(), b.luminance()
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestContrastAsPublished(t *testing.T) {
	// Black on white is 21, as the guideline says; the others are of its
	// "understanding" pages and often quoted: #777777 on white 4.48, #767676 4.54.
	for _, c := range []struct {
		a, b colour
		want float64
	}{{colour{0, 0, 0}, colour{255, 255, 255}, 21}, {colour{0x77, 0x77, 0x77}, colour{255, 255, 255}, 4.48}, {colour{0x76, 0x76, 0x76}, colour{255, 255, 255}, 4.54}} {
		if got := contrast(c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%v on %v: %.3f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

// of256 gives a colour among the 256: a cube of six levels, then 24 greys, as
// xterm has them and others after it (from memory of xterm's 256colres.pl).
func of256(n int) colour {
	if n >= 232 {
		grey := uint8(8 + 10*(n-232))
		return colour{grey, grey, grey}
	}
	levels := [6]uint8{0, 95, 135, 175, 215, 255}
	n -= 16
	return colour{levels[n/36], levels[n/6%6], levels[n%6]}
}

// seen is a mark as a terminal shows it; nil is the terminal's own colour.
type seen struct {
	mark       rune
	fore, back *colour
}

// shownCells reads what is sent to a terminal, cell by cell, as the terminal would.
func shownCells(t *testing.T, view string) (cells []seen) {
	t.Helper()
	var at seen
	for view != "" {
		if parts := sgrFirst.FindStringSubmatch(view); parts != nil {
			view = view[len(parts[0]):]
			at.set(t, strings.Split(parts[1], ";"))
			continue
		}
		r := []rune(view[:min(4, len(view))])[0]
		view = view[len(string(r)):]
		if r == '\x1b' {
			t.Fatalf("a sequence that is no style: %q", view[:min(20, len(view))])
		}
		cells = append(cells, seen{r, at.fore, at.back})
	}
	return cells
}

var (
	sgrFirst    = regexp.MustCompile(`^\x1b\[([0-9;]*)m`)
	sgrAnywhere = regexp.MustCompile(`\x1b\[([0-9;]*)m`)
)

func (s *seen) set(t *testing.T, parts []string) {
	t.Helper()
	numbers := make([]int, len(parts))
	for i, p := range parts {
		numbers[i], _ = strconv.Atoi(p)
	}
	for len(numbers) > 0 {
		n := numbers[0]
		numbers = numbers[1:]
		var c *colour
		switch {
		case n == 0:
			s.fore, s.back = nil, nil
			continue
		case n == 39 || n == 49:
		case n == 38 || n == 48:
			if numbers[0] == 5 {
				one := of256(numbers[1])
				c, numbers = &one, numbers[2:]
			} else {
				one := colour{uint8(numbers[1]), uint8(numbers[2]), uint8(numbers[3])}
				c, numbers = &one, numbers[4:]
			}
		case n == 1 || n == 4 || n == 7:
			continue
		default:
			t.Fatalf("%d is no style that is reckoned with", n)
		}
		if n/10 == 3 {
			s.fore = c
		} else {
			s.back = c
		}
	}
}

// contrastOf measures that text has a contrast of 4.5 : 1 at least against what it
// stands on, and other marks 3 : 1, as they are sent to the terminal.
func contrastOf(t *testing.T, states []shown) {
	type pair struct {
		text       bool
		fore, back colour
	}
	for theme, ground := range grounds {
		for _, depth := range []picture.Depth{picture.Colours256, picture.TrueColour} {
			found := map[pair]string{}
			for _, s := range states {
				for _, cell := range shownCells(t, s.look(theme, depth, false, 120, 36)) {
					if cell.mark == ' ' || cell.mark == '\n' {
						continue
					}
					if cell.fore == nil {
						t.Errorf("%s, %s: %q keeps the terminal's own colour, which nobody knows", theme.Name, s.name, cell.mark)
						continue
					}
					backs := ground[:]
					if cell.back != nil {
						backs = []colour{*cell.back}
					}
					mark := cell.mark
					if cell.back != nil && (*cell.fore == *cell.back || half[mark]) { // the body of a pole
						mark, backs = '█', ground[:]
					}
					for _, back := range backs {
						found[pair{picture.Read(mark), *cell.fore, back}] = fmt.Sprintf("%s: %q", s.name, cell.mark)
					}
				}
			}
			for p, where := range found {
				least := 3.0
				if p.text {
					least = 4.5
				}
				if got := contrast(p.fore, p.back); got < least {
					t.Errorf("%s, depth %d: %02x on %02x is %.2f : 1, at least %.1f are wanted (%s)", theme.Name, depth, p.fore, p.back, got, least, where)
				}
			}
			if len(found) < 40 && !raced {
				t.Errorf("%s, depth %d: only %d pairs were seen", theme.Name, depth, len(found))
			}
		}
	}
}

// half are marks that are half in one pole's ink and half in the next one's: the
// letters tell those apart, and each is seen against the ground around.
var half = map[rune]bool{'▌': true, '▀': true, '▐': true}
