package wiring

import (
	"math"
	"strings"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/testdata/bounds"
)

func TestBadReplies(t *testing.T) {
	five, _ := OfFive([]motor.Lead{"BN", "WH", "GN", "GY"}, "VT")
	for text, want := range map[string]string{
		"kcik BN WH cw":      `did you mean "kick"`,
		"push BN WH":         "there is no test",
		"kick BN cw":         "takes 2 leads",
		"kick BN BN cw":      "stands twice",
		"kick BN VT cw":      "VT",
		"kick BN WH buzz":    `"buzz" answers no kick`,
		"run BN WH GN cw":    "takes 4 leads",
		"stiff BN WH yess":   `did you mean "yes"`,
		"lamp 1":             "as lamp 1 3",
		"lamp 5 1":           "each from 1 to 4",
		"pulse BN GN upward": `"upward" answers no pulse`,
	} {
		_, err := ReadReplies("a.txt", []byte("# at the bench\n"+text), five)
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "a.txt:2") {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	good, err := ReadReplies("a.txt", []byte("KICK brown,WH,CW # so\r\nrun BN WH GN GY still\nlamp 1 3\n"), five)
	if err != nil || len(good) != 3 || good[0].String() != "kick BN WH cw" || good[2].String() != "lamp 1 3" {
		t.Errorf("%v, %v", good, err)
	}
}

func FuzzReplies(f *testing.F) {
	five, _ := OfFive([]motor.Lead{"BN", "WH", "GN", "GY"}, "VT")
	f.Add("kick BN WH cw\nrun BN WH GN GY buzz\nlamp 1 3\npulse BN GN up # x")
	f.Fuzz(func(t *testing.T, text string) {
		var replies []Reply
		var err error
		bounds.Hold(t, len(text), 4<<20, 10_000, func() { replies, err = ReadReplies("x", []byte(text), five) })
		if err != nil || len(replies) > 20 {
			return
		}
		s := Sit(five)
		s.Answer(replies)
		sum := 0.0
		for _, m := range s.Mappings() {
			sum += m.Odds
		}
		if math.Abs(sum-1) > 1e-6 {
			t.Fatalf("%q: odds add up to %v", text, sum)
		}
	})
}
