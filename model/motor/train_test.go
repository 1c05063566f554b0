package motor

import (
	"fmt"
	"math/big"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseTrain(t *testing.T) {
	for text, want := range map[string][]Mesh{
		"9:32":                             {{9, 32}},
		"9:32,11:22":                       {{9, 32}, {11, 22}},
		" 9 : 32 ,\t11:22 ":                {{9, 32}, {11, 22}},
		"32:9":                             {{32, 9}}, // geared up
		"1:1000,1:1000":                    {{1, 1000}, {1, 1000}},
		"1000:1,1000:1":                    {{1000, 1}, {1000, 1}},
		strings.Repeat("2:3,", 11) + "2:3": {{2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}},
	} {
		got, err := ParseTrain(text)
		if err != nil || !reflect.DeepEqual(got, Train{Meshes: want}) {
			t.Errorf("ParseTrain(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
}

func TestParseTrainRefuses(t *testing.T) {
	noMesh := func(part string) string {
		return fmt.Sprintf("%q is no mesh; the teeth of the driving and the driven gear are wanted, as 9:32", part)
	}
	teeth := func(part string) string { return fmt.Sprintf("%q is no mesh; a gear has 1 to 1000 teeth", part) }
	for text, want := range map[string]string{
		"": noMesh(""), " ": noMesh(""), "9": noMesh("9"), ":": noMesh(":"), "9:": noMesh("9:"), ":32": noMesh(":32"),
		"9:32,": noMesh(""), ",9:32": noMesh(""), "9:32,,11:22": noMesh(""), "9:32;11:22": noMesh("9:32;11:22"),
		"9:32 11:22": noMesh("9:32 11:22"), "9:32:11": noMesh("9:32:11"), "9-32": noMesh("9-32"), "9/32": noMesh("9/32"),
		"9.5:32": noMesh("9.5:32"), "1e1:32": noMesh("1e1:32"), "0x9:32": noMesh("0x9:32"), "nine:32": noMesh("nine:32"),
		"9:99999999999999999999": noMesh("9:99999999999999999999"), "9:32,\x1b:1": noMesh("\x1b:1"),
		"0:32": teeth("0:32"), "9:0": teeth("9:0"), "-9:32": teeth("-9:32"), "9:-32": teeth("9:-32"), "-9:-32": teeth("-9:-32"),
		"1001:9": teeth("1001:9"), "9:1001": teeth("9:1001"),
		strings.Repeat("2:3,", 12) + "2:3": "these are 13 meshes; a train of at most 12 is taken",
		"1:1000,1:1000,1:2":                "the train's ratio is beyond 1:1000000; check the tooth counts",
		"1000:1,1000:1,2:1":                "the train's ratio is beyond 1:1000000; check the tooth counts",
	} {
		if got, err := ParseTrain(text); err == nil || got.Geared() || err.Error() != want {
			t.Errorf("ParseTrain(%q) = %v, error %v; want the error %s", text, got, err, want)
		}
	}
}

// 32/9 x 22/11 x 26/9 x 31/10 = 25792/405: Arduino forum, thread 71308 "Geared
// stepper motor", opening post and post 22.
func TestPublishedTrain(t *testing.T) {
	train, err := ParseTrain("9:32,11:22,9:26,10:31")
	if err != nil {
		t.Fatal(err)
	}
	if got := train.Ratio(); got.Cmp(big.NewRat(25792, 405)) != 0 || got.RatString() != "25792/405" {
		t.Errorf("ratio %s, want 25792/405", got.RatString())
	}
	if got := train.Ratio().FloatString(5); got != "63.68395" {
		t.Errorf("ratio %s, printed as 63.68395", got)
	}
}

func drawnMeshes(t *rapid.T) Train {
	n := rapid.IntRange(1, 12).Draw(t, "meshes")
	var train Train
	for range n {
		train.Meshes = append(train.Meshes, Mesh{rapid.IntRange(1, 1000).Draw(t, "driving"), rapid.IntRange(1, 1000).Draw(t, "driven")})
	}
	return train
}

// The ratio done anew: whole numbers, multiplied crosswise.
func TestRatioIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		train := drawnMeshes(t)
		driving, driven := big.NewInt(1), big.NewInt(1)
		for _, m := range train.Meshes {
			driving.Mul(driving, big.NewInt(int64(m.Driving)))
			driven.Mul(driven, big.NewInt(int64(m.Driven)))
		}
		got := train.Ratio()
		left, right := new(big.Int).Mul(got.Num(), driving), new(big.Int).Mul(got.Denom(), driven)
		if left.Cmp(right) != 0 {
			t.Fatalf("%s: ratio %s, want %s/%s", train, got, driven, driving)
		}
	})
}

func TestTrainReadsItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		train, err := ParseTrain(drawnMeshes(t).String())
		if err != nil {
			return // beyond a million
		}
		if again, err := ParseTrain(train.String()); err != nil || !reflect.DeepEqual(again, train) {
			t.Fatalf("%s reads as %v, %v", train, again, err)
		}
	})
}

// An external mesh turns the sense round: common practice, no source.
func TestAgainst(t *testing.T) {
	for n := range 13 {
		train := Train{Meshes: make([]Mesh, n)}
		for i := range train.Meshes {
			train.Meshes[i] = Mesh{9, 32}
		}
		if against, ok := train.Against(); !ok || against != (n%2 != 0) {
			t.Errorf("%d meshes: against %v, known %v", n, against, ok)
		}
		if train.Geared() != (n > 0) {
			t.Errorf("%d meshes: geared %v", n, train.Geared())
		}
	}
	if _, ok := (Train{Nominal: big.NewRat(64, 1)}).Against(); ok {
		t.Error("a printed ratio does not say the sense of the shaft")
	}
}
