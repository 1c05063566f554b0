package wiring

import (
	"slices"
	"strings"
	"testing"

	"coilwalk/model/motor"
)

// Six leads of which one, WH, has shown no resistance: a tap and a broken lead read
// alike so far. By hand: half a coil of 60 ohm lies between WH and either end of its
// coil.
func TestALeadIsToShowThatItIsWhole(t *testing.T) {
	const first = "BK,RD,open\nBK,BU,60\nRD,GN,120\nBK,WH,open\nBK,YE,120\n"
	a := identified(t, first)
	if a.Kinds[0].Kind != SixLead || a.Kinds[0].Odds < sure || len(a.Faults) != 0 || a.Next == nil {
		t.Fatalf("%+v", a)
	}
	other := a.Next.A
	if a.Next.B != "WH" || other != "RD" && other != "GN" || a.Next.Why != "WH has shown no resistance yet; to "+string(other)+" it should read about 60 ohm, if it is whole" {
		t.Errorf("next is %+v", a.Next)
	}
	if a = identified(t, first+"WH,RD,60\n"); a.Next != nil || len(a.Faults) != 0 {
		t.Errorf("WH is whole, and still: %+v, %+v", a.Next, a.Faults)
	}
	// It comes out open: either this reading is wrong, or the lead is broken.
	a = identified(t, first+"WH,RD,open\n")
	if len(a.Faults) != 1 || a.Faults[0].Text != "The reading WH–RD open does not fit the others, which make it about 60.1 ohm. Take it again. Or WH is broken, the lead or its coil: it has shown no resistance yet." {
		t.Errorf("WH to RD open: %+v", a.Faults)
	}
	if a.Next == nil || !slices.Contains([]motor.Lead{a.Next.A, a.Next.B}, "WH") {
		t.Errorf("whether WH is broken is not asked: %+v", a.Next)
	}
	if a = identified(t, first+"WH,RD,open\nWH,GN,open\n"); a.Next != nil || len(a.Faults) != 1 || a.Faults[0].Kind != "open-lead" {
		t.Errorf("WH is told as broken, and still: %+v, %+v", a.Next, a.Faults)
	}
	// A slip between leads that have shown their ohms is no broken lead.
	a = identified(t, "A,B,30\nB,C,30\nA,C,open\nD,E,30\nE,F,30\nD,F,60\nA,D,open\nB,E,open\n")
	if len(a.Faults) != 1 || strings.Contains(a.Faults[0].Text, "broken") {
		t.Errorf("a slip: %+v", a.Faults)
	}
	// Of what a meter shows to the case no lead is known to be whole.
	if s := sit([]Reading{{A: "A", B: Case, Ohm: 3}, {A: "A", B: "B", Open: true}, {A: "C", B: "B", Ohm: 3}}, nil); !slices.Equal(s.bare(), []bool{true, false, false}) {
		t.Errorf("bare: %v", s.bare())
	}
}

// Whatever was read of whatever motor, no answer says that nothing is left to read
// while a lead has shown no resistance, is not told as broken, and can be read on.
func TestNothingIsLeftToReadOnlyOfWholeLeads(t *testing.T) {
	ended, rest, n := 0, 0, 0
	check := func(readings []Reading) {
		a := Identify(readings)
		if a.Next != nil {
			if strings.Contains(a.Next.Why, "no resistance yet") {
				rest++
			}
			return
		}
		ended++
		carries, read := map[motor.Lead]bool{}, map[motor.Lead]map[motor.Lead]bool{}
		for _, l := range a.Leads {
			read[l] = map[motor.Lead]bool{}
		}
		for _, r := range readings {
			read[r.A][r.B], read[r.B][r.A] = true, true
			if !r.Open {
				carries[r.A], carries[r.B] = true, true
			}
		}
		for _, l := range a.Leads {
			told := slices.ContainsFunc(a.Faults, func(f Found) bool { return f.Kind == "open-lead" && slices.Contains(f.Leads, l) })
			if !carries[l] && !told && len(read[l]) < len(a.Leads)-1 {
				t.Errorf("%s has shown no resistance, and nothing is left to read: %v", l, readings)
			}
		}
	}
	cases(t, func(m benchMotor, p *person, readings []Reading, _ map[[2]int]bool) {
		if n++; n%3 != 0 { // all of them take long
			return
		}
		check(readings)
		for k := range readings { // one of the leads is broken
			if readings[k].A == name(0) || readings[k].B == name(0) {
				readings[k].Open, readings[k].Ohm = true, 0
			}
		}
		check(readings)
	})
	t.Logf("%d answers with nothing left to read, %d that ask for a lead's resistance", ended, rest)
	least := 100
	if raced { // fewer are drawn
		least = 25
	}
	if ended < least || rest < least/12 {
		t.Errorf("%d answers with nothing left to read, %d that ask for a lead's resistance: this tests little", ended, rest)
	}
}

// No figure stands for a coil's resistance before any was read: only from readings can
// one be told.
func TestNoOhmsBeforeOhmsWereRead(t *testing.T) {
	four := []motor.Lead{"a", "b", "c", "d"}
	readings, err := ReadReadings("x", []byte("a,b,open\na,c,open\n"))
	if err != nil {
		t.Fatal(err)
	}
	for n := range 3 {
		next := Identify(readings[:n], four...).Next
		if next == nil || !strings.Contains(next.Why, "some ohm (") || strings.Contains(next.Why, "about") {
			t.Errorf("after %d readings of open: %+v", n, next)
		}
	}
	for _, f := range identified(t, "a,b,open\na,c,open\na,d,open\nb,c,open\nb,d,open\nc,d,open\n").Faults {
		if strings.Contains(f.Text, "about") {
			t.Errorf("of readings of open only: %s", f.Text)
		}
	}
	readings = append(readings, Reading{A: "c", B: "d", Open: true}, Reading{A: "a", B: "d", Ohm: 20})
	if next := Identify(readings, four...).Next; next == nil || strings.Contains(next.Why, "some ohm") || !strings.Contains(next.Why, "about 20 ohm") {
		t.Errorf("after a reading of 20 ohm: %+v", next)
	}
}
