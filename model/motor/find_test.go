package motor

import (
	"fmt"
	"testing"
)

func TestFind(t *testing.T) {
	leads := []Lead{"BN", "WH/RD", "GN/YE", "Tap1"}
	for text, want := range map[string]Lead{
		"BN": "BN", "brown": "BN", "brn": "BN", " BN ": "BN",
		"WH/RD": "WH/RD", "white/red": "WH/RD",
		"RDWH": "WH/RD", " rdwh ": "WH/RD", // only one lead has both colours
		"GNYE": "GN/YE", "gn/ye": "GN/YE",
		"Tap1": "Tap1", "tap1": "Tap1", "TAP1": "Tap1",
	} {
		if got, err := Find(leads, text); err != nil || got != want {
			t.Errorf("Find(%q) = %q, %v; want %q", text, got, err, want)
		}
	}
}

func TestFindOfTheJoinedForm(t *testing.T) {
	asked := "RDWH does not say which colour is the base; write RD/WH or WH/RD"
	for _, c := range []struct {
		name  string
		leads []Lead
		text  string
		want  Lead
		err   string
	}{
		{"the base comes second", []Lead{"RD", "WH", "WH/RD"}, "RDWH", "WH/RD", ""},
		{"the base comes first", []Lead{"RD", "WH", "RD/WH"}, "RDWH", "RD/WH", ""},
		{"both are there", []Lead{"RD/WH", "WH/RD"}, "RDWH", "", asked},
		{"neither is there", []Lead{"RD", "WH"}, "RDWH", "", asked},
		{"both are there, but GNYE says the base", []Lead{"YE/GN", "GN/YE"}, "GNYE", "GN/YE", ""},
		{"the only one with both", []Lead{"YE/GN", "BN"}, "GNYE", "YE/GN", ""},
	} {
		got, err := Find(c.leads, c.text)
		if got != c.want || (err == nil) != (c.err == "") || err != nil && err.Error() != c.err {
			t.Errorf("%s: Find(%q) = %q, %v; want %q, %s", c.name, c.text, got, err, c.want, c.err)
		}
	}
}

func TestFindOfWhatIsNotThere(t *testing.T) {
	leads := []Lead{"BN", "WH/RD"}
	for text, want := range map[string]string{
		"black": "the motor has no lead BK; it has BN WH/RD",
		"WH":    "the motor has no lead WH; it has BN WH/RD",
		"RD/WH": "the motor has no lead RD/WH; it has BN WH/RD",
		"x":     "the motor has no lead x; it has BN WH/RD",
		"case":  `"case" stands for the motor's case; name the lead otherwise`,
		"":      "a lead has no name; a colour (BN, brown) or a name of your own is wanted",
	} {
		if got, err := Find(leads, text); err == nil || got != "" || err.Error() != want {
			t.Errorf("Find(%q) = %q, error %v; want the error %s", text, got, err, want)
		}
	}
}

// Find takes names in either case of letters, so a motor can not have two leads
// that differ in nothing else.
func TestLeadsThatDifferByCaseOnly(t *testing.T) {
	for _, two := range [][2]string{{"a1", "A1"}, {"s", "ſ"}, {"σ", "ς"}, {"k", "\u212a"}} {
		text := fmt.Sprintf("name = \"x\"\n[winding]\nends = [%q, %q, \"x\", \"y\"]\n[rotor]\npole_pairs = 8\n", two[0], two[1])
		m, err := Parse("x", []byte(text))
		if err != nil {
			continue // refused: good
		}
		for _, l := range m.Leads() {
			if got, err := Find(m.Leads(), string(l)); err != nil || got != l {
				t.Errorf("the lead %s is taken, but Find gives %q, %v", l, got, err)
			}
		}
		if _, err := Parse("again", m.Text()); err != nil {
			t.Errorf("the motor is taken, but its own Text is refused: %v", err)
		}
	}
}
