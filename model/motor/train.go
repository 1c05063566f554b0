package motor

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"coilwalk/model/files"
)

// Mesh is one gear driving another, by their tooth counts.
type Mesh struct{ Driving, Driven int }

// Train is the gear train from rotor to output shaft: meshes as counted, from
// the rotor on, or the ratio as printed when nobody counted. The zero Train
// is none: the rotor is the shaft.
type Train struct {
	Meshes  []Mesh
	Nominal *big.Rat // nil unless only a printed ratio is known

	Backlash Backlash // nil when it was not measured
}

// What a train may hold, far above any real one, so that a slip of the hand
// is caught and exact fractions stay short.
const (
	mostMeshes = 12
	mostTeeth  = 1000
	mostRatio  = 1_000_000

	mostDigits = 24 // of a number in a ratio
)

// ParseTrain reads meshes as "9:32,11:22", driving gear first, rotor first.
func ParseTrain(text string) (Train, error) {
	var t Train
	for _, part := range strings.Split(text, ",") {
		m, err := parseMesh(strings.TrimSpace(part))
		if err != nil {
			return Train{}, err
		}
		t.Meshes = append(t.Meshes, m)
	}
	if len(t.Meshes) > mostMeshes {
		return Train{}, fmt.Errorf("these are %d meshes; a train of at most %d is taken", len(t.Meshes), mostMeshes)
	}
	if t.Ratio().Cmp(big.NewRat(mostRatio, 1)) > 0 || t.Ratio().Cmp(big.NewRat(1, mostRatio)) < 0 {
		return Train{}, fmt.Errorf("the train's ratio is beyond 1:%d; check the tooth counts", mostRatio)
	}
	return t, nil
}

func parseMesh(text string) (Mesh, error) {
	driving, driven, ok := strings.Cut(text, ":")
	a, errA := strconv.Atoi(strings.TrimSpace(driving))
	b, errB := strconv.Atoi(strings.TrimSpace(driven))
	if !ok || errA != nil || errB != nil {
		return Mesh{}, fmt.Errorf("%s is no mesh; the teeth of the driving and the driven gear are wanted, as 9:32", files.Quoted(text))
	}
	if a < 1 || b < 1 || a > mostTeeth || b > mostTeeth {
		return Mesh{}, fmt.Errorf("%s is no mesh; a gear has 1 to %d teeth", files.Quoted(text), mostTeeth)
	}
	return Mesh{Driving: a, Driven: b}, nil
}

// ParseRatio reads a printed ratio, "64", "64:1" or "1:64" (motor sheets write
// either for a reduction), as turns of the rotor to one of the shaft.
func ParseRatio(text string) (Train, error) {
	left, right, both := strings.Cut(strings.TrimSpace(text), ":")
	if !both {
		right = "1"
	}
	a, okA := number(left)
	b, okB := number(right)
	if !okA || !okB || a.Sign() <= 0 || b.Sign() <= 0 {
		return Train{}, fmt.Errorf("%s is no ratio; turns of the rotor to one of the shaft are wanted, as 64:1", files.Quoted(text))
	}
	ratio := a.Quo(a, b)
	if ratio.Cmp(big.NewRat(1, 1)) < 0 {
		ratio.Inv(ratio)
	}
	if ratio.Cmp(big.NewRat(mostRatio, 1)) > 0 {
		return Train{}, fmt.Errorf("the ratio %s is beyond %d:1", files.Quoted(text), mostRatio)
	}
	return Train{Nominal: ratio}, nil
}

// number reads a decimal number or a fraction of two, exactly.
func number(text string) (*big.Rat, bool) {
	text = strings.TrimSpace(text)
	over, under, fraction := strings.Cut(text, "/")
	if strings.Trim(text, "0123456789./") != "" || max(len(over), len(under)) > mostDigits || fraction && strings.Contains(text, ".") {
		return nil, false
	}
	return new(big.Rat).SetString(text)
}

// Ratio gives the turns of the rotor to one turn of the shaft, exact: the
// product of driven over driving teeth; 1 without a train.
func (t Train) Ratio() *big.Rat {
	if t.Nominal != nil {
		return new(big.Rat).Set(t.Nominal)
	}
	ratio := big.NewRat(1, 1)
	for _, m := range t.Meshes {
		ratio.Mul(ratio, big.NewRat(int64(m.Driven), int64(m.Driving)))
	}
	return ratio
}

// Geared says whether there is a train at all.
func (t Train) Geared() bool { return t.Nominal != nil || len(t.Meshes) > 0 }

// Against says whether the shaft turns against the rotor: each external mesh
// turns the sense round, so an odd number of them does. ok is false when only
// a printed ratio is known.
func (t Train) Against() (against, ok bool) {
	return len(t.Meshes)%2 == 1, t.Nominal == nil
}

// String gives the train as it is read: "9:32,11:22", or "64:1" for a ratio.
func (t Train) String() string {
	if t.Nominal != nil {
		return fmt.Sprintf("%s:1", t.Nominal.RatString())
	}
	parts := make([]string, len(t.Meshes))
	for i, m := range t.Meshes {
		parts[i] = fmt.Sprintf("%d:%d", m.Driving, m.Driven)
	}
	return strings.Join(parts, ",")
}
