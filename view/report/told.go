package report

import (
	"math"
	"slices"
	"strconv"

	"coilwalk/model/rotor"
)

// perSecond rounds a rate to what it was found to: three digits, from a hundred on
// whole rows.
func perSecond(v float64) float64 { return toDecimals(v, decimals(v)) }

// decimals gives how many a rate of that size has.
func decimals(v float64) int {
	v = math.Abs(v)
	if !(v > 0 && v < 100) {
		return 0
	}
	return 2 - int(math.Floor(math.Log10(v)))
}

func toDecimals(v float64, n int) float64 {
	if n > 300 { // no power of ten is more
		return 0
	}
	ten := math.Pow(10, float64(n))
	return math.Round(v*ten) / ten
}

// Told writes a rate that is rounded already, with the decimals that it has.
func Told(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// rows writes a rate.
func rows(rate float64) string { return rowsTold(perSecond(rate)) }

// rowsTold writes one that is rounded already, as by rounding.
func rowsTold(rate float64) string { return Told(rate) + " rows/s" }

// rowsGiven writes a rate that a person gave: with its own digits, as it stands beside
// rates that are close to it.
func rowsGiven(rate float64) string {
	six, _ := strconv.ParseFloat(strconv.FormatFloat(rate, 'g', 6, 64), 64)
	return rowsTold(six)
}

// Hertz writes how fast something swings: whole ones, below ten three digits.
func Hertz(v float64) string {
	if v >= 10 {
		return Fixed(v, 0)
	}
	return Told(perSecond(v))
}

// rounding is how rates are rounded that are told together.
type rounding map[float64]int // by rate, the decimals beyond its own

// mostDecimals are added to tell two rates apart: what is closer is the same.
const mostDecimals = 3

// apart finds how rates have to be rounded so that two that differ do not look alike,
// as the two ends of a narrow hole would.
func apart(rates ...float64) rounding {
	rates = slices.Compact(slices.Sorted(slices.Values(rates)))
	more := rounding{}
	for i := 1; i < len(rates); i++ {
		low, high := rates[i-1], rates[i]
		for n := 1; more.of(low) >= more.of(high) && n <= mostDecimals; n++ {
			more[low], more[high] = max(more[low], n), max(more[high], n)
		}
	}
	return more
}

// of rounds one of them.
func (more rounding) of(v float64) float64 { return toDecimals(v, decimals(v)+more[v]) }

func (more rounding) bands(all []rotor.Band) [][2]float64 {
	out := [][2]float64{}
	for _, b := range all {
		out = append(out, [2]float64{more.of(b.From), more.of(b.To)})
	}
	return out
}

// starting tells apart the ends of what starts and what does not.
func starting(r rotor.Rates) rounding {
	return apart(append(edges(r.Windows, r.Holes), r.StartStop)...)
}

func edges(all ...[]rotor.Band) (rates []float64) {
	for _, bands := range all {
		for _, b := range bands {
			rates = append(rates, b.From, b.To)
		}
	}
	return rates
}
