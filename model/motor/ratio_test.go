package motor

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseRatio(t *testing.T) {
	for text, want := range map[string]*big.Rat{
		"64": big.NewRat(64, 1), "64:1": big.NewRat(64, 1), "1:64": big.NewRat(64, 1), " 1 : 64 ": big.NewRat(64, 1),
		"1": big.NewRat(1, 1), "1:1": big.NewRat(1, 1), "63.68395": big.NewRat(6368395, 100000),
		"25792/405": big.NewRat(25792, 405), "25792/405:1": big.NewRat(25792, 405), "405:25792": big.NewRat(25792, 405),
		"1:12.5": big.NewRat(25, 2), "3:2": big.NewRat(3, 2), "2:3": big.NewRat(3, 2), "0.5": big.NewRat(2, 1),
		"1000000": big.NewRat(1000000, 1), "1:1000000": big.NewRat(1000000, 1),
		"010": big.NewRat(10, 1), // ten: nobody prints a ratio in octal
	} {
		got, err := ParseRatio(text)
		if err != nil || got.Nominal == nil || got.Nominal.Cmp(want) != 0 || got.Ratio().Cmp(want) != 0 || got.Meshes != nil || !got.Geared() {
			t.Errorf("ParseRatio(%q) = %v, %v; want %s", text, got, err, want)
		}
	}
}

func TestParseRatioRefuses(t *testing.T) {
	for _, text := range []string{"", " ", ":", "64:", ":64", "0", "0:1", "1:0", "64:0", "-64", "64:-1", "-64:-1", "sixty-four", "64 1",
		"64:1:2", "64,5", "1e3", "1E3:1", "0x40", "0X40", "1_000", "1p3", "1/0", "Inf", "NaN", "64x", "\x1b", "1e999999999"} {
		want := fmt.Sprintf("%q is no ratio; turns of the rotor to one of the shaft are wanted, as 64:1", text)
		if got, err := ParseRatio(text); err == nil || got.Geared() || err.Error() != want {
			t.Errorf("ParseRatio(%q) = %v, error %v; want the error %s", text, got, err, want)
		}
	}
	for _, text := range []string{"1000001", "1:1000001", "0.0000001", "1000000.5:1"} {
		want := fmt.Sprintf("the ratio %q is beyond 1000000:1", text)
		if got, err := ParseRatio(text); err == nil || got.Geared() || err.Error() != want {
			t.Errorf("ParseRatio(%q) = %v, error %v; want the error %s", text, got, err, want)
		}
	}
}

func TestParseRatioRefusesWhatIsFarTooLong(t *testing.T) {
	for _, text := range []string{"10000000000000000000000000", "1:0.00000000000000000000001", "1." + strings.Repeat("0", 100_000) + "1"} {
		if got, err := ParseRatio(text); err == nil {
			t.Errorf("ParseRatio takes %d characters as a train of %d", len(text), len(got.String()))
		}
	}
}

// Hexadecimal is refused, so binary and octal can not be meant either: 0b11
// must not quietly be a train of 3:1.
func TestParseRatioRefusesOtherBases(t *testing.T) {
	for _, text := range []string{"0b11", "0B11:1", "0o17", "1:0O17"} {
		if got, err := ParseRatio(text); err == nil {
			t.Errorf("ParseRatio(%q) = %s, want an error", text, got)
		}
	}
}

// readsItself says what is wrong when a ratio is taken and the text that the
// program writes for it is not, or is another.
func readsItself(text string) error {
	train, err := ParseRatio(text)
	if err != nil {
		return nil
	}
	again, err := ParseRatio(train.String())
	if err != nil {
		return fmt.Errorf("%q is taken and written as %q: %w", text, train.String(), err)
	}
	if again.Nominal.Cmp(train.Nominal) != 0 {
		return fmt.Errorf("%q is %s, and comes back as %s", text, train, again)
	}
	return nil
}

func TestPrintedRatioReadsItself(t *testing.T) {
	for _, text := range []string{"64", "1:64", "25792/405", "63.68395", "63.683950617", "63.6839506173", "63.683950617283950617",
		"1." + strings.Repeat("0", 44) + "1", "1." + strings.Repeat("0", 60) + "1", "1:2." + strings.Repeat("3", 94)} {
		if err := readsItself(text); err != nil {
			t.Error(err)
		}
	}
}

func TestAnyRatioReadsItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(
			rapid.StringMatching(`[0-9]{1,6}(\.[0-9]{1,9})?(/[0-9]{1,5})?(:[0-9]{1,4}(\.[0-9]{1,6})?)?`),
			rapid.StringMatching(`[0-9]\.[0-9]{1,60}(:0?\.[0-9]{1,60})?`), // as long as is taken
		).Draw(t, "ratio")
		if err := readsItself(text); err != nil {
			t.Fatal(err)
		}
	})
}

// A ratio that was handed out is the caller's own.
func TestRatioIsACopy(t *testing.T) {
	train := Train{Nominal: big.NewRat(64, 1)}
	train.Ratio().SetInt64(1)
	if got := train.Ratio(); got.Cmp(big.NewRat(64, 1)) != 0 {
		t.Errorf("the train's own ratio has become %s", got)
	}
}
