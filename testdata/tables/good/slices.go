// Invented for this project: a shutter.
package shutter

var half = [8][4]int{{1, 0, 0, 0}, {1, 1, 0, 0}, {0, 1, 0, 0}, {0, 1, 1, 0}, {0, 0, 1, 0}, {0, 0, 1, 1}, {0, 0, 0, 1}, {1, 0, 0, 1}}

var raw = `{1, 2, 3`

func rows() map[string][]byte {
	wave := []byte{0b1000, 0o4, 02, 0x1}
	return map[string][]byte{"w": wave, "full": {12, 6, 3, 9}, "slices": []byte{0b1_0000, 0b10_0000, 0b100_0000, 0b1000_0000}}
}

var typed = [][]bool{
	[]bool{true, false, false, false},
	{false, true, false, false},
	{false, false, true, false},
}
