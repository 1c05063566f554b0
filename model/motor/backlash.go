package motor

import (
	"fmt"
	"math/big"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/quantity"
)

// Backlash is the play of a train: of each mesh, at its driven gear with the
// driving one held, or one figure for all, at the output shaft with the rotor
// held (as a maker's glossary defines it).
type Backlash []quantity.Angle

// mostBacklash is the most play that can be meant, in degrees.
const mostBacklash = 180

// ParseBacklash reads "8deg", or an angle for each mesh from the rotor on, as
// "1.2deg,1deg,1.5deg".
func ParseBacklash(text string) (Backlash, error) {
	var b Backlash
	for _, part := range strings.Split(text, ",") {
		var a quantity.Angle
		if err := a.Set(strings.TrimSpace(part)); err != nil {
			return nil, err
		}
		if a.Base() < 0 || a.Base() > mostBacklash {
			return nil, fmt.Errorf("a backlash of %s can not be; 0 to %d degrees are wanted", files.Quoted(part), mostBacklash)
		}
		b = append(b, a)
	}
	if len(b) > mostMeshes {
		return nil, fmt.Errorf("backlash of %d meshes is more than %d", len(b), mostMeshes)
	}
	return b, nil
}

// String gives the backlash as it is read.
func (b Backlash) String() string {
	parts := make([]string, len(b))
	for i, a := range b {
		parts[i] = a.String()
	}
	return strings.Join(parts, ",")
}

// fits says whether a backlash can be one of this train: one figure, or one for
// each mesh.
func (t Train) fits(b Backlash) error {
	switch {
	case len(b) == 0 || len(b) == len(t.Meshes) || len(b) == 1 && t.Geared():
		return nil
	case !t.Geared():
		return fmt.Errorf("without a gear train there is no backlash")
	case len(t.Meshes) == 0:
		return fmt.Errorf("%d angles of backlash, but the meshes are not known; one at the output shaft is wanted", len(b))
	}
	return fmt.Errorf("%d angles of backlash for %d meshes; one for each, or one at the output shaft, is wanted", len(b), len(t.Meshes))
}

// WithBacklash gives the train with a backlash, if it can have that.
func (t Train) WithBacklash(b Backlash) (Train, error) {
	if err := t.fits(b); err != nil {
		return t, err
	}
	t.Backlash = b
	return t, nil
}

// Play gives the backlash in degrees at the output shaft: of each mesh, divided
// by the ratio of the meshes after it, and their sum. Where only a figure for
// the whole train is known, each is empty. ok is false when nothing is known.
func (t Train) Play() (each []float64, sum float64, ok bool) {
	if len(t.Backlash) == 0 {
		return nil, 0, false
	}
	if len(t.Backlash) != len(t.Meshes) {
		return nil, t.Backlash[0].Base(), true
	}
	each = make([]float64, len(t.Meshes))
	after := big.NewRat(1, 1)
	for i := len(t.Meshes) - 1; i >= 0; i-- {
		ratio, _ := after.Float64()
		each[i] = t.Backlash[i].Base() / ratio
		sum += each[i]
		after.Mul(after, big.NewRat(int64(t.Meshes[i].Driven), int64(t.Meshes[i].Driving)))
	}
	return each, sum, true
}
