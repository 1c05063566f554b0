package motor

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// The play of a mesh is felt at the shaft divided by all that follows it
// (definition of backlash: Nippon Pulse, "Reading our specs"; the division is
// the lever of the gears themselves). By hand: 10:40 then 12:30, 2° and 1.5°:
// the first mesh is 2°/2.5 = 0.8° at the shaft, the last 1.5° as it is.
func TestPlayAtTheShaft(t *testing.T) {
	train, err := ParseTrain("10:40,12:30")
	if err != nil {
		t.Fatal(err)
	}
	b, err := ParseBacklash("2deg,1.5deg")
	if err != nil {
		t.Fatal(err)
	}
	train, err = train.WithBacklash(b)
	if err != nil {
		t.Fatal(err)
	}
	each, sum, ok := train.Play()
	if !ok || len(each) != 2 || math.Abs(each[0]-0.8) > 1e-12 || math.Abs(each[1]-1.5) > 1e-12 || math.Abs(sum-2.3) > 1e-12 {
		t.Errorf("%v, %v, %v", each, sum, ok)
	}
	whole, _ := ParseBacklash("8deg")
	train, _ = train.WithBacklash(whole)
	if each, sum, ok := train.Play(); each != nil || sum != 8 || !ok {
		t.Errorf("one figure for all: %v, %v, %v", each, sum, ok)
	}
}

// Turning the rotor against a held shaft through all play: each mesh gives way
// in turn, so the rotor's way is the sum of each mesh's play referred to the
// rotor, and that is the ratio times what the shaft feels.
func TestPlayAtTheRotor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		train := drawnMeshes(t)
		for range train.Meshes {
			b, err := ParseBacklash(rapid.SampledFrom([]string{"0deg", "0.5deg", "3deg", "12deg"}).Draw(t, "play"))
			if err != nil {
				t.Fatal(err)
			}
			train.Backlash = append(train.Backlash, b...)
		}
		atRotor, before := 0.0, big.NewRat(1, 1)
		for i, m := range train.Meshes {
			before.Mul(before, big.NewRat(int64(m.Driven), int64(m.Driving)))
			turns, _ := before.Float64()
			atRotor += train.Backlash[i].Base() * turns
		}
		_, sum, ok := train.Play()
		ratio, _ := train.Ratio().Float64()
		if want := atRotor / ratio; ok != (len(train.Meshes) > 0) || math.Abs(sum-want) > 1e-9*(1+want) {
			t.Fatalf("%v with %v: %v at the shaft, want %v", train, train.Backlash, sum, want)
		}
	})
}
