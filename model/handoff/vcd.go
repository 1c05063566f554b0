package handoff

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math/big"

	"coilwalk/model/course"
	"coilwalk/model/files"
	"coilwalk/model/recording"
	"coilwalk/sequence"
)

// outputNames are the channels of a recording.
var outputNames = []string{"output1", "output2", "output3", "output4"}

// writeVCD writes the walk as the pins would be recorded (IEEE 1364, Verilog,
// clause 18: value change dump).
func writeVCD(w *Walk) []byte {
	var b bytes.Buffer
	b.WriteString("$comment\n" + comment("   ", w.Head()) + "$end\n$version coilwalk $end\n$timescale " + w.scale().word + " $end\n$scope module coilwalk $end\n")
	for k, name := range outputNames {
		fmt.Fprintf(&b, "$var wire 1 %c %s $end\n", '!'+k, name)
	}
	b.WriteString("$upscope $end\n$enddefinitions $end\n")
	moments, until := w.Moments()
	last := [4]int{-1, -1, -1, -1}
	for n, m := range moments {
		fmt.Fprintf(&b, "#%d\n", w.scaled(m.At))
		if n == 0 {
			b.WriteString("$dumpvars\n")
		}
		levels := w.Board.Levels(m.Row)
		for k, level := range levels {
			if level != last[k] {
				fmt.Fprintf(&b, "%d%c\n", level, '!'+k)
			}
		}
		last = levels
		if n == 0 {
			b.WriteString("$end\n")
		}
	}
	fmt.Fprintf(&b, "#%d\n", w.scaled(until))
	return b.Bytes()
}

// scale is a unit of time that VCD knows.
type scale struct {
	word      string
	perSecond int64
}

// scale gives nanoseconds where ticks are whole ones, else picoseconds.
func (w *Walk) scale() scale {
	if tick := w.Pace.Tick(); tick.Mul(tick, big.NewRat(1e9, 1)).IsInt() {
		return scale{"1 ns", 1e9}
	}
	return scale{"1 ps", 1e12}
}

// scaled gives a time in ticks in units of the recording, to the nearest: from
// the beginning, so that no error adds up.
func (w *Walk) scaled(ticks int64) int64 {
	t := w.Pace.Tick()
	t.Mul(t, big.NewRat(ticks, 1)).Mul(t, big.NewRat(w.scale().perSecond, 1))
	twice := new(big.Int).Mul(t.Num(), big.NewInt(2))
	twice.Add(twice, t.Denom())
	return twice.Div(twice, new(big.Int).Mul(t.Denom(), big.NewInt(2))).Int64()
}

// readVCD reads a recording back twice: as samples, which have to stand at their
// times, and as the rows that the reader of recordings makes of them.
func readVCD(w *Walk, text []byte) (c contents, err error) {
	r, err := recording.Open(files.Standard, bytes.NewReader(text), recording.Options{})
	if err != nil {
		return c, err
	}
	defer r.Close()
	if err := r.Watch([]int{0, 1, 2, 3}); err != nil {
		return c, err
	}
	into := make([]recording.Sample, 256)
	for {
		n, err := r.Next(into)
		for _, s := range into[:n] {
			if s.Unknown != 0 {
				return c, fmt.Errorf("a level is not known at %d", s.At)
			}
			var row sequence.Row
			for k := range row {
				if (s.High>>k&1 == 1) != w.Board.ActiveLow {
					row[k] = 1
				}
			}
			c.moments = append(c.moments, Moment{s.At, row})
		}
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return c, err
		}
	}
	c.until = r.Until()
	return c, w.follow(text)
}

// follow asks the reader of recordings what firmware would be sending: the walk's
// mode, forward and then back to where it began.
func (w *Walk) follow(text []byte) error {
	r, err := recording.Open(files.Standard, bytes.NewReader(text), recording.Options{})
	if err != nil {
		return err
	}
	defer r.Close()
	loading, err := course.Begin(r, outputNames, 0)
	if err != nil {
		return err
	}
	rows, err := loading.Rows(context.Background(), nil)
	if err != nil {
		return err
	}
	q := course.Question{Wiring: &w.Motor.Wiring, Active: course.High}
	if w.Board.ActiveLow {
		q.Active = course.Low
	}
	v := course.Judge(rows, loading.Choice.Outputs, q)
	if v.Position == nil || *v.Position != 0 {
		return errors.New("the recording does not lead back to where it began")
	}
	var runs []sequence.Direction
	for _, run := range v.Runs {
		if run.Rows > 1 {
			if run.Mode != w.Mode.Name {
				return fmt.Errorf("the recording is read as %s", run.Mode)
			}
			runs = append(runs, run.Direction)
		}
	}
	if len(runs) != 2 || runs[0] != sequence.Forward || runs[1] != sequence.Reverse {
		return fmt.Errorf("the recording is read as %d runs, not as one forward and one back", len(runs))
	}
	return nil
}
