package wiring

import (
	"math/rand/v2"
	"testing"
)

// What four leads do that are energised in turn, both ways, for every set of
// fields: held against the rotor written anew for the orders. A motor that turns
// does so both ways; in any other order it seldom seems to.
func TestEveryRun(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 3))
	turning := map[string]int{}
	for code := range 64 {
		quarter := [4]int{0, code & 3, code >> 2 & 3, code >> 4}
		rows := func(order [4]int) (all [][4]float64) {
			for _, k := range order {
				var row [4]float64
				row[quarter[k]] = 1
				all = append(all, row)
			}
			return all
		}
		sent, back := rows([4]int{0, 1, 2, 3}), rows([4]int{0, 3, 2, 1})
		const times = 10
		cw, ccw := 0, 0
		for range times {
			one, two := turned(sent, random), turned(back, random)
			switch {
			case one > 0.8 && two < -0.8:
				cw++
			case one < -0.8 && two > 0.8:
				ccw++
			}
		}
		told := runs()[quarter]
		if sum := told[0] + told[1] + told[2] + told[3]; sum < 1-1e-9 || sum > 1+1e-9 {
			t.Errorf("%v: %v add up to %v", quarter, told, sum)
		}
		switch {
		case cw == times:
			turning["cw"]++
			if told[0] < 0.99 {
				t.Errorf("%v turns clockwise, told %v", quarter, told)
			}
		case ccw == times:
			turning["ccw"]++
			if told[1] < 0.99 {
				t.Errorf("%v turns counter-clockwise, told %v", quarter, told)
			}
		default:
			if cw+ccw > 3 || told[0]+told[1] > 0.3 {
				t.Errorf("%v turns by chance in %d of 10, told %v", quarter, cw+ccw, told)
			}
		}
		if quarter == [4]int{} != (told[3] > 0.99) { // one field alone lets the rotor stand, any two move it
			t.Errorf("%v stands still with share %.2f", quarter, told[3])
		}
	}
	if turning["cw"] != 1 || turning["ccw"] != 1 { // 0° 90° 180° 270°, and back
		t.Errorf("%v of 64 sets turn", turning)
	}
}
