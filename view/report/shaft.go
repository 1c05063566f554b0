package report

import (
	"fmt"
	"math/big"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Shaft is the answer of the command "shaft": what a row is at the output
// shaft, exactly.
type Shaft struct {
	Coilwalk  int         `json:"coilwalk"`
	Motor     string      `json:"motor"`
	Mode      string      `json:"mode"`
	Train     *string     `json:"train"`
	Ratio     string      `json:"ratio"`
	Against   *bool       `json:"against"`
	PerRotor  int         `json:"steps_per_rotor_turn"`
	PerShaft  string      `json:"steps_per_shaft_turn"`
	RowDeg    float64     `json:"row_deg"`
	CloseAt   string      `json:"turns_to_close"`
	Backlash  *ShaftPlay  `json:"backlash"`
	Drift     *ShaftDrift `json:"drift"`
	Move      *ShaftMove  `json:"move"`
	Plan      *ShaftPlan  `json:"plan"`
	Counted   *ShaftCount `json:"counted"`
	Observed  *ShaftSeen  `json:"observed"`
	motor     motor.Motor
	mode      sequence.Mode
	perShaft  *big.Rat
	plan      motor.Plan
	drift     motor.Drift
	planOf    string
	believing string
}

// ShaftPlay is the backlash at the output shaft.
type ShaftPlay struct {
	Deg  float64   `json:"deg"`
	Each []float64 `json:"each"` // of each mesh; [] where only the whole is known
	Rows float64   `json:"rows"` // that a reversal loses
}

// ShaftDrift is what comes of a believed number of rows to a turn.
type ShaftDrift struct {
	Believed      string   `json:"believed"`
	DegPerTurn    float64  `json:"deg_per_turn"`
	TurnsToStep   *float64 `json:"turns_to_step"`
	TurnsToDegree *float64 `json:"turns_to_degree"`
}

// ShaftMove is one move: rows, and the angle that they make.
type ShaftMove struct {
	Asked  string  `json:"asked"`
	Exact  string  `json:"rows_exact"`
	Rows   string  `json:"rows"`
	OffDeg float64 `json:"off_deg"`
}

// ShaftPlan is a plan that does not drift.
type ShaftPlan struct {
	Each  string   `json:"rows_exact"`
	Rows  string   `json:"rows"`
	Extra string   `json:"extra"`
	Cycle string   `json:"cycle"`
	Total string   `json:"total"`
	Worst float64  `json:"worst_rows"`
	First []string `json:"first"`
}

// ShaftCount is what counts and printed angles come to.
type ShaftCount struct {
	Steps *int64 `json:"steps"`
	Text  string `json:"text"`
}

// NewShaft answers for a motor and a mode.
func NewShaft(m motor.Motor, mode sequence.Mode) *Shaft {
	s := &Shaft{Coilwalk: Version, Motor: m.Name, Mode: mode.Name, Ratio: m.Train.Ratio().RatString(),
		PerRotor: m.StepsPerRotorTurn(mode), motor: m, mode: mode, perShaft: m.StepsPerShaftTurn(mode)}
	s.PerShaft, s.CloseAt = s.perShaft.RatString(), s.perShaft.Denom().String()
	s.RowDeg, _ = new(big.Rat).Quo(big.NewRat(360, 1), s.perShaft).Float64()
	if m.Train.Geared() {
		t := m.Train.String()
		s.Train = &t
	}
	if each, sum, ok := m.Train.Play(); ok {
		s.Backlash = &ShaftPlay{Deg: degrees(sum), Each: []float64{}, Rows: degrees(sum / s.RowDeg)}
		for _, deg := range each {
			s.Backlash.Each = append(s.Backlash.Each, degrees(deg))
		}
	}
	if against, ok := m.Train.Against(); ok {
		s.Against = &against
	}
	return s
}

// Believe adds what comes of firmware that holds a turn to be so many rows.
func (s *Shaft) Believe(b motor.Belief) {
	rows := b.Declared
	s.drift, s.believing = motor.DriftOf(s.perShaft, rows), "the believed figure"
	if b.Nominal != nil {
		s.believing = "the believed ratio " + motor.Train{Nominal: b.Nominal}.String()
	}
	d := &ShaftDrift{Believed: rows.RatString(), DegPerTurn: rounded(s.drift.DegPerTurn)}
	if s.drift.TurnsToStep != nil {
		step, degree := rounded(s.drift.TurnsToStep), rounded(s.drift.TurnsToDegree)
		d.TurnsToStep, d.TurnsToDegree = &step, &degree
	}
	s.Drift = d
}

// Turn adds the move by an angle in degrees, or by a number of rows.
func (s *Shaft) Turn(deg *big.Rat, asked string) {
	exact := new(big.Rat).Mul(deg, s.perShaft)
	exact.Quo(exact, big.NewRat(360, 1))
	whole := nearest(exact)
	off := new(big.Rat).Sub(new(big.Rat).SetInt(whole), exact)
	off.Mul(off, big.NewRat(360, 1))
	s.Move = &ShaftMove{Asked: asked, Exact: exact.RatString(), Rows: whole.String(), OffDeg: rounded(off.Quo(off, s.perShaft))}
}

// Stops adds the plan that makes a move of so many rows again and again.
func (s *Shaft) Stops(each *big.Rat, words string) {
	p := motor.PlanFor(each)
	s.plan, s.planOf = p, words
	out := &ShaftPlan{Each: each.RatString(), Rows: p.Rows.String(), Extra: p.Extra.String(), Cycle: p.Cycle.String(),
		Total: p.Total.String(), Worst: rounded(p.Worst()), First: []string{}}
	for k := int64(1); k <= 20 && big.NewInt(k).Cmp(p.Cycle) <= 0; k++ {
		out.First = append(out.First, p.Move(k).String())
	}
	s.Plan = out
}

// Count adds what several counts come to; nothing without any.
func (s *Shaft) Count(counts []motor.Count) {
	if len(counts) == 0 {
		return
	}
	g := motor.Agree(counts)
	s.Counted = &ShaftCount{Text: g.Text}
	if g.Steps > 0 {
		s.Counted.Steps = &g.Steps
	}
}

func rounded(r *big.Rat) float64 {
	v, _ := r.Float64()
	return degrees(v)
}

// nearest gives the whole number nearest to a fraction, halves up.
func nearest(r *big.Rat) *big.Int {
	half := new(big.Rat).Add(r, big.NewRat(1, 2))
	return new(big.Int).Div(half.Num(), half.Denom())
}

// Text writes the answer in plain words.
func (s *Shaft) Text() string {
	var b strings.Builder
	m := s.motor
	fmt.Fprintf(&b, "%s, %s\n", m.Title, s.mode.Title)
	fmt.Fprintf(&b, "  rotor   %d rows to a turn (%d pole pairs)\n", s.PerRotor, m.PolePairs)
	if m.Train.Geared() {
		fmt.Fprintf(&b, "  train   %s\n", m.Train)
		ratio := big.NewRat(1, 1)
		for i, mesh := range m.Train.Meshes {
			ratio.Mul(ratio, big.NewRat(int64(mesh.Driven), int64(mesh.Driving)))
			fmt.Fprintf(&b, "          mesh %d: %d teeth drive %d, so far %s:1\n", i+1, mesh.Driving, mesh.Driven, ratio.FloatString(4))
		}
		fmt.Fprintf(&b, "  ratio   %s = %s turns of the rotor to one of the shaft\n", s.Ratio, m.Train.Ratio().FloatString(6))
		if w := Against(m.Train); w != "" {
			fmt.Fprintf(&b, "          %s\n", w)
		}
		if m.Train.Nominal != nil {
			b.WriteString("          This ratio is as printed. If the teeth were never counted, the real one may differ, and positions drift.\n")
		}
	}
	fmt.Fprintf(&b, "  shaft   %s rows to a turn", s.PerShaft)
	if !s.perShaft.IsInt() {
		fmt.Fprintf(&b, " = %s; whole rows close on themselves after %s turns", s.perShaft.FloatString(6), s.CloseAt)
	}
	fmt.Fprintf(&b, "\n  a row   %s at the shaft\n", Angle(s.RowDeg, 6))
	if other := map[string]sequence.Mode{sequence.Full.Name: sequence.Half, sequence.Half.Name: sequence.Full}[s.mode.Name]; other.Name != "" {
		fmt.Fprintf(&b, "          in %s %s rows to a turn\n", other.Title, strings.TrimSuffix(m.StepsPerShaftTurn(other).FloatString(4), ".0000"))
	}
	if p := s.Backlash; p != nil {
		fmt.Fprintf(&b, "  play    %s at the shaft, taken up at every reversal: %s rows\n", Angle(p.Deg, 2), Fixed(p.Rows, 1))
		if len(p.Each) > 1 {
			words := make([]string, len(p.Each))
			for i, deg := range p.Each {
				words[i] = fmt.Sprintf("mesh %d %s", i+1, Angle(deg, 3))
			}
			fmt.Fprintf(&b, "          of it %s: the last mesh counts most\n", strings.Join(words, ", "))
		}
	}
	if s.Counted != nil {
		fmt.Fprintf(&b, "\nCounted: %s.\n", s.Counted.Text)
	}
	if s.Drift != nil {
		b.WriteString("\n" + s.driftText())
	}
	if s.Observed != nil {
		b.WriteString("\n" + s.Observed.text())
	}
	if s.Move != nil {
		fmt.Fprintf(&b, "\n%s is %s rows", s.Move.Asked, s.Move.Exact)
		if s.Move.Exact != s.Move.Rows {
			fmt.Fprintf(&b, "; %s whole rows are %s° off", s.Move.Rows, Signed(s.Move.OffDeg, 4))
		}
		b.WriteString(".\n")
	}
	if s.Plan != nil {
		b.WriteString("\n" + s.planText())
	}
	return b.String()
}

func (s *Shaft) driftText() string {
	d := s.drift
	if d.TurnsToStep == nil {
		return fmt.Sprintf("%s is what a turn really is: no drift.\n", Sentence(s.believing))
	}
	way := "too far"
	if d.DegPerTurn.Sign() < 0 {
		way = "short"
	}
	return fmt.Sprintf("%s is %s rows to a turn, but a turn is %s: each turn comes out %s° %s.\n"+
		"One row off after %s turns, one degree off after %s; after ten turns %s° %s.\n",
		Sentence(s.believing), number(d.Believed), number(s.perShaft), abs(d.DegPerTurn, 3), way,
		d.TurnsToStep.FloatString(2), d.TurnsToDegree.FloatString(2), abs(new(big.Rat).Mul(d.DegPerTurn, big.NewRat(10, 1)), 1), way)
}

func (s *Shaft) planText() string {
	p := s.plan
	if p.Extra.Sign() == 0 {
		return fmt.Sprintf("%s: %s rows each time, exact; no drift.\n", Sentence(s.planOf), p.Rows)
	}
	return fmt.Sprintf("%s without drift: send %s rows each time, and one more in %s of every %s moves (%s rows in all, exact).\n"+
		"The first moves: %s\n"+
		"In firmware: start with rest = %s; each time add %s to rest; when rest reaches %s, take %s off and send one row more.\n"+
		"The shaft is never more than %s of a row off.\n",
		Sentence(s.planOf), p.Rows, p.Extra, p.Cycle, p.Total, strings.Join(s.Plan.First, " "),
		new(big.Int).Rsh(p.Cycle, 1), p.Extra, p.Cycle, p.Cycle, trimZeros(p.Worst().FloatString(3)))
}

func number(r *big.Rat) string {
	if r.IsInt() {
		return r.Num().String()
	}
	return r.FloatString(3)
}

func abs(r *big.Rat, decimals int) string {
	return new(big.Rat).Abs(r).FloatString(decimals)
}

func trimZeros(s string) string {
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}
