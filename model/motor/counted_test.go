package motor

import "testing"

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
