package recording

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A number is a whole multiple of a power of ten, what is finer cut off, as done
// by hand.
func TestDecimals(t *testing.T) {
	for _, c := range []struct {
		text  string
		power int
		want  int64
	}{
		{"12", 0, 12}, {"+12", 0, 12}, {"-12", 0, -12}, {"12.9", 0, 12}, {"-12.9", 0, -12}, {"12,9", -1, 129}, {"0", -12, 0}, {"09", 0, 9},
		{"1.5e-3", -6, 1500}, {"1.5E3", 0, 1500}, {"1e+2", 0, 100}, {"1e-2", -1, 0}, {"15e-1", 0, 1}, {"120", 2, 1}, {"99", 2, 0}, {".5", -1, 5}, {"5.", -1, 50},
		{"0.000001", -12, 1_000_000}, {"9223372036854775799", 0, 9223372036854775799}, {"922337203685477580e1", 0, 9223372036854775800}, {"0e999", 0, 0}, {"1e-999", 0, 0},
	} {
		if got, ok := decimal([]byte(c.text), c.power); !ok || got != c.want {
			t.Errorf("%s in 10^%d is %d, %v; want %d", c.text, c.power, got, ok, c.want)
		}
	}
	for _, text := range []string{"", "-", "+", ".", "e3", "1.2.3", ".1.2", "1,2.3", "1.,", "1e", "1e+", "1e1000", "1e1x", "1e--1", "1x", "x1", "/", ":", "1 2", "--1", "99999999999999999999", "1e19", "9223372036854775800", "922337203685477581e1", "92233720368547758080", "0x1"} {
		if got, ok := decimal([]byte(text), 0); ok {
			t.Errorf("%q is %d", text, got)
		}
	}
}

// Against exact fractions.
func TestDecimalsAgainstFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[+-]?[0-9]{0,10}[.,]?[0-9]{0,8}`).Draw(t, "digits")
		if rapid.Bool().Draw(t, "has an exponent") {
			text += fmt.Sprintf("e%d", rapid.IntRange(-9, 9).Draw(t, "exponent"))
		}
		power := rapid.IntRange(-9, 3).Draw(t, "power")
		got, ok := decimal([]byte(text), power)
		want, is := new(big.Rat).SetString(strings.ReplaceAll(text, ",", "."))
		if !is {
			if ok {
				t.Fatalf("%q is %d", text, got)
			}
			return
		}
		scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(power, -power))), nil))
		if power < 0 {
			scale.Inv(scale)
		}
		want.Quo(want, scale)
		whole := new(big.Int).Quo(want.Num(), want.Denom()) // cuts towards nothing
		if fits := whole.IsInt64() && whole.CmpAbs(big.NewInt(1<<63-10)) < 0; fits && (!ok || got != whole.Int64()) || !fits && ok {
			t.Fatalf("%q in 10^%d is %d, %v; want %s", text, power, got, ok, whole)
		}
	})
}
