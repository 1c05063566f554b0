package sequence

import "testing"

// ring is the mode's cycle from one of its places on, one way round.
func ring(m Mode, start int, way Direction) []Row {
	o := m.Order()
	rows := make([]Row, o.Len())
	for k := range rows {
		rows[k] = o.Row(int64(start + int(way)*k))
	}
	return rows
}

func sameRows(t *testing.T, source string, got, want []Row) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %d rows, want %d", source, len(got), len(want))
	}
	for k := range got {
		if got[k] != want[k] {
			t.Errorf("%s, row %d: %v, want %v", source, k+1, got[k], want[k])
		}
	}
}

// The eight states of a phase-sequence controller, clockwise, columns A B of
// winding 1 and C D of winding 2 (maker's data sheet, "Motor driving phase
// sequences", p. 5).
func controllerStates(t *testing.T) []Row {
	return rowsOf(t, "A+ A- B+ B-", "0101", "0001", "1001", "1000", "1010", "0010", "0110", "0100")
}

// States 4 to 8 and 1 to 3 are the forward half-step cycle, place by place.
// (Computed from that sheet; the signs of a maker's application note on linear
// speed control, Table 2-1, and the flange-end order of a bipolar motor's sheet
// give the same ring.)
func TestTheBipolarTablesAreOneRing(t *testing.T) {
	states := controllerStates(t)
	sameRows(t, "half step from state 4", append(states[3:8:8], states[:3]...), ring(Half, 0, Forward))
	sameRows(t, "flange end, clockwise", rowsOf(t, "A+ B+ A- B-", "1100", "0110", "0011", "1001"), ring(Full, 0, Forward))

	signs := map[rune]float64{'+': 1, '0': 0, '-': -1}
	for k, a := range []rune("++0---0+") {
		b := []rune("0+++0---")[k]
		if f := Half.Order().Row(int64(k)).Field(); f.A != signs[a] || f.B != signs[b] {
			t.Errorf("signs of column %d: %v, printed %c %c", k+1, f, a, b)
		}
	}
	// "A published column on stepping motors", no. 4: the ring run backwards.
	sameRows(t, "four terminals, -V as off", rowsOf(t, "A- A+ B- B+", "0101", "0110", "1010", "1001"), ring(Full, 0, Reverse))
}

// Full step entered on an odd state has two phases on, on an even state one.
// (Maker's data sheet of a phase-sequence controller, "Motor driving phase
// sequences", pp. 5 and 6.)
func TestFullStepByTheStateItIsEnteredOn(t *testing.T) {
	states := controllerStates(t)
	for entry, want := range []Mode{Full, Wave, Full, Wave, Full, Wave, Full, Wave} {
		var rows []Row
		for k := range 5 {
			rows = append(rows, states[(entry+2*k)%8])
		}
		if s, ok := Recognise(rows); !ok || s.Mode.Name != want.Name || s.Direction != Forward {
			t.Errorf("entered on state %d: %v %s %s, want %s", entry+1, ok, s.Mode.Name, s.Direction, want.Name)
		}
	}
}

// The inhibit line of winding 1 is low in states 2 and 6, that of winding 2 in
// states 4 and 8, where both outputs of the winding are off; with two phases on
// neither is. (The same sheet, waveform figures.)
func TestAWindingWithoutCurrent(t *testing.T) {
	for k, r := range controllerStates(t) {
		state, f := k+1, r.Field()
		if (f.A == 0) != (state == 2 || state == 6) || (f.B == 0) != (state == 4 || state == 8) {
			t.Errorf("state %d: %v", state, f)
		}
	}
	for k, r := range ring(Full, 0, Forward) {
		if f := r.Field(); f.A == 0 || f.B == 0 {
			t.Errorf("full step row %d: %v", k+1, f)
		}
	}
}

// A geared can-stack by lead colour, clockwise, against a board's inputs,
// counter-clockwise: with the inputs on the leads in reverse, they are one ring
// run two ways. (Maker's data sheet of the motor, "Switching sequence"; "Stepper
// Motor control" lab sheet, Fig. 3. The order of the plug is from memory.)
func TestTheGearedMotorTablesAreOneRing(t *testing.T) {
	colours := rowsOf(t, "A+ B+ A- B-", "1000", "1100", "0100", "0110", "0010", "0011", "0001", "1001")
	sameRows(t, "orange, yellow, pink, blue", colours, ring(Half, 0, Forward))

	plug := Permutation{BMinus, AMinus, BPlus, APlus} // blue, pink, yellow, orange
	var inputs []Row
	for _, hex := range []int{0x8, 0xC, 0x4, 0x6, 0x2, 0x3, 0x1, 0x9} { // input 1 is the highest bit
		var r Row
		for k := range r {
			r[k] = float64(hex >> (3 - k) & 1)
		}
		inputs = append(inputs, r.Through(plug))
	}
	sameRows(t, "inputs 1 to 4 through the plug", inputs, ring(Half, 6, Reverse))
	if plug.Turns() != Reverse {
		t.Errorf("the plug turns %s", plug.Turns())
	}
}

// Four wires, two to a winding, as users' threads have them: "Full vs half
// steps", and a third part of a microcontroller tutorial in hexadecimal.
func TestTablesOfUsersThreads(t *testing.T) {
	pairs := "A+ A- B+ B-"
	sameRows(t, "two phases on", rowsOf(t, pairs, "1010", "0110", "0101", "1001"), ring(Full, 0, Forward))
	sameRows(t, "half step", rowsOf(t, pairs, "1000", "1010", "0010", "0110", "0100", "0101", "0001", "1001"), ring(Half, 0, Forward))
	sameRows(t, "0A 09 05 06", rowsOf(t, pairs, "1010", "1001", "0101", "0110"), ring(Full, 0, Reverse))
}

// Bit strings in time, one a half-winding: wave and two phases on. (Jones,
// "Stepping Motor Types", unipolar section; from memory.)
func TestBitStringsInTime(t *testing.T) {
	for _, c := range []struct {
		strings [4]string // 1a, 2a, 1b, 2b: field order
		want    []Row
	}{
		{[4]string{"1000", "0100", "0010", "0001"}, ring(Wave, 0, Forward)},
		{[4]string{"1100", "0110", "0011", "1001"}, ring(Full, 3, Forward)},
	} {
		rows := make([]Row, 4)
		for end, bits := range c.strings {
			for k := range bits {
				rows[k][end] = float64(bits[k] - '0')
			}
		}
		sameRows(t, c.strings[0], rows, c.want)
	}
}

// Each coil in half step: positive for three rows, none for one, negative for
// three, none for one; the coils 90° apart; reversing shifts one of the two by
// 180°. (A maker's training "Stepper Fundamentals", slide 10.)
func TestShapeOfTheCoilCurrentsInHalfStep(t *testing.T) {
	o := Half.Order()
	shape := [8]float64{1, 1, 1, 0, -1, -1, -1, 0} // of coil A, from row 7 on
	for k := range int64(8) {
		if a := o.Row(k - 1).Field().A; a != shape[k] {
			t.Errorf("coil A in row %d: %v", o.Index(k-1)+1, a)
		}
		if o.Row(k).Field().A != o.Row(k+2).Field().B {
			t.Errorf("coil B is not 90° behind coil A at row %d", k+1)
		}
		on, back := o.Row(k+4).Field(), o.Row(-k).Field()
		if back.B != on.B || back.A != o.Row(k).Field().A {
			t.Errorf("%d rows back: %v", k, back)
		}
	}
}
