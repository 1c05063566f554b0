package wiring

import (
	"testing"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// A published lead table (references: three makers' sheets of 42 mm hybrids give
// BLK YEL GRN and RED WHT BLU as end, tap, end of each phase): readings of such
// a motor make its winding.
func TestWindingFromReadings(t *testing.T) {
	read := func(text string) motor.Winding {
		readings, err := ReadReadings("x", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		w, ok := Identify(readings).Winding()
		if !ok {
			t.Fatalf("%s settles nothing", text)
		}
		return w
	}
	six := read("BLK,GRN,60\nBLK,YEL,30\nYEL,GRN,30\nRED,BLU,60\nRED,WHT,30\nWHT,BLU,30\nBLK,RED,OL\nYEL,WHT,OL\n")
	if six.Ends[0] != "BK" || six.Ends[2] != "GN" || six.Taps[0] != "YE" || six.Ends[1] != "BU" || six.Ends[3] != "RD" || six.Taps[1] != "WH" {
		t.Errorf("six leads: %+v", six)
	}
	four := read("BLK,GRN,2.4\nRED,BLU,2.4\nBLK,RED,open\nBLK,BLU,open\nGRN,RED,open\nGRN,BLU,open\n")
	if four.Ends != [4]motor.Lead{"BK", "BU", "GN", "RD"} || four.Taps[0] != "" || four.Common != "" {
		t.Errorf("four leads: %+v", four)
	}
	five := read("A,E,50\nB,E,51\nC,E,50\nD,E,49\nA,B,100\nC,D,100\n")
	if five.Common != "E" || five.Ends != [4]motor.Lead{"A", "B", "C", "D"} {
		t.Errorf("five leads: %+v", five)
	}
	eight := read("A,B,2\nC,D,2\nE,F,2\nG,H,2\nA,C,open\nA,E,open\nA,G,open\nC,E,open\nC,G,open\nE,G,open\n")
	if eight.Ends != [4]motor.Lead{"A", "C", "E", "G"} || eight.Inner != [4]motor.Lead{"B", "D", "F", "H"} || eight.Common != "" {
		t.Errorf("eight leads: %+v", eight)
	}
	for _, text := range []string{"A,E,50\n", "BLK,GRN,60\nBLK,YEL,30\n"} {
		readings, err := ReadReadings("x", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if w, ok := Identify(readings).Winding(); ok {
			t.Errorf("%q makes %+v", text, w)
		}
	}
}

func TestReadingsComeBack(t *testing.T) {
	readings := []Reading{{A: "BN", B: "VT", Ohm: 52.125}, {A: "WH/RD", B: "case", Open: true}, {A: "BN", B: "GN", Ohm: 1.5e6}}
	again, err := ReadReadings("x", WriteReadings(readings))
	if err != nil || len(again) != len(readings) {
		t.Fatalf("%v, %v", again, err)
	}
	for i, r := range again {
		r.Line = 0
		if r != readings[i] {
			t.Errorf("%+v comes back as %+v", readings[i], r)
		}
	}
	for text, want := range map[string]bool{"BN,VT,52\nWH,VT,OL\n": true, "lead,lead,ohm\nBN,VT,52\n": true, "1000\n1100\n": false,
		"1,0,0,0\n": false, "int t[] = {1, 2, 3};\n": false, "": false, "# nothing\n": false} {
		if LikeReadings([]byte(text)) != want {
			t.Errorf("%q looks like readings: %v", text, !want)
		}
	}
}

// A motor of readings has what they tell, and is a motor file once its steps are
// known: leads as the sheets of the published lead table have them, their order as the
// shaft answers. 29.8 ohm are (2·59.75 + 4·29.75)/8, the meter's leads at 0.25 ohm.
func TestMotorFromReadings(t *testing.T) {
	a := identified(t, "BLK,GRN,60\nBLK,YEL,30\nYEL,GRN,30\nRED,BLU,60\nRED,WHT,30\nWHT,BLU,30\nBLK,RED,OL\nYEL,WHT,OL\n")
	plain, ordered, ok := a.Motor(nil)
	if !ok || ordered || plain.Ends != [4]motor.Lead{"BK", "BU", "GN", "RD"} || plain.Drive != sequence.Unipolar || plain.Output(plain.Wiring, 3) != "RD" || plain.Figures.Resistance.String() != "29.8 ohm" || plain.Figures.Voltage.Given() {
		t.Errorf("%+v, %v, %v", plain, ordered, ok)
	}
	known, _ := OfAnswer(a)
	shaft := Sit(known)
	shaft.Answer([]Reply{{Question: Question{Kick, []motor.Lead{"BK", "BU"}}, Word: "ccw"}})
	if m, ordered, _ := a.Motor(shaft); ordered || m.Ends != plain.Ends {
		t.Errorf("one answer settles nothing, and %v", m.Ends)
	}
	shaft.Answer([]Reply{{Question: Question{Kick, []motor.Lead{"BK", "BU"}}, Word: "ccw"}, {Question: Question{Kick, []motor.Lead{"BK", "RD"}}, Word: "cw"}})
	m, ordered, ok := a.Motor(shaft)
	if !ok || !ordered || m.Ends != [4]motor.Lead{"BK", "RD", "GN", "BU"} || m.Taps != [2]motor.Lead{"YE", "WH"} {
		t.Errorf("by the shaft: %+v, %v, %v", m.Winding, ordered, ok)
	}
	m.Name, m.Title, m.Origin, m.PolePairs = "mine", "mine", "here", 12
	if again, err := motor.Parse("mine", m.Text()); err != nil || again.Winding != m.Winding {
		t.Errorf("%v:\n%s", err, m.Text())
	}
	big := identified(t, "A,B,12345\nC,D,12345\nA,C,open\nA,D,open\nB,C,open\nB,D,open\n")
	if m, _, ok := big.Motor(nil); !ok || m.Figures.Resistance.Base() < 12200 || m.Figures.Resistance.Base() > 12400 {
		t.Errorf("of 12345 ohm: %s, %v", m.Figures.Resistance, ok)
	}
	if _, _, ok := identified(t, "A,B,30\n").Motor(nil); ok {
		t.Error("one reading makes a motor")
	}
}
