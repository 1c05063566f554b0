package motor

import (
	"strings"
	"testing"
)

func TestCountsAsWritten(t *testing.T) {
	for text, want := range map[string]struct {
		c    Counted
		text string
	}{
		"4x8":               {Counted{Rings: 4, Teeth: 8}, "4x8"},
		"4 X 12 , 50 teeth": {Counted{Rings: 4, Teeth: 12, RotorTeeth: 50}, "4x12, 50 teeth"},
		"":                  {Counted{}, ""},
		" 7.5deg, 4x12":     {Counted{Rings: 4, Teeth: 12}, "4x12, 7.5 deg"},
	} {
		got, err := ParseCounted(text)
		angle := got.StepAngle
		got.StepAngle = want.c.StepAngle
		if err != nil || got != want.c {
			t.Errorf("%q reads %+v, %v", text, got, err)
		}
		got.StepAngle = angle
		if got.String() != want.text {
			t.Errorf("%q is written %q", text, got.String())
		}
	}
	for _, text := range []string{"4x", "x8", "4x-8", "0x8", "8", "teeth", "-3 teeth", "7.5", "4x8x2"} {
		if c, err := ParseCounted(text); err == nil {
			t.Errorf("%q reads %+v", text, c)
		}
	}
}

// Steps as a person knows them, and what is wrong with what can not be.
func TestStepsAsWritten(t *testing.T) {
	for text, want := range map[string]struct {
		pairs int
		told  string
	}{
		"200":           {50, "taken for 200 full steps: 50 pole pairs, and a full step is 1.8°"},
		"4":             {1, "taken for 4 full steps: 1 pole pairs, and a full step is 90°"},
		"4x8":           {8, "4 rings of 8 teeth: 32 full steps to a rotor turn"},
		"50 teeth":      {50, "50 rotor teeth: 200 full steps to a rotor turn"},
		"7.5deg":        {12, "a step angle of 7.5°: 48 full steps to a rotor turn"},
		"4x12, 3.75deg": {12, "4 rings of 12 teeth: 48 full steps to a rotor turn; a step angle of 3.75° is the half-step angle, which agrees"},
	} {
		pairs, counted, told, err := ParseSteps(text)
		if err != nil || pairs != want.pairs || told != want.told || counted.Given() == strings.HasPrefix(told, "taken") {
			t.Errorf("%q: %d pole pairs, %q, %v, %v", text, pairs, told, counted, err)
		}
	}
	for text, want := range map[string]string{"": "this one is needed", "47": "that 4 divides", "0": "that 4 divides", "2004": "that 4 divides", "7.4deg": "no multiple of 4", "4x": "is no count", "5x8": "four rings", "many": ""} {
		if pairs, _, _, err := ParseSteps(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %d pole pairs, %v; want an error with %q", text, pairs, err, want)
		}
	}
}
