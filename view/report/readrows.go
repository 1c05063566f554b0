package report

import (
	"bufio"
	"fmt"
	"io"
	"math"

	"coilwalk/model/course"
	"coilwalk/model/files"
)

// WriteRows writes the rows of a recording from a time to another as CSV, a line
// a row: number, time, levels of the outputs, what is on the coil ends, field,
// how long it lasts, and where it commands the motor.
func WriteRows(w io.Writer, v *course.Verdict, fromS, toS float64) error {
	b := bufio.NewWriter(w)
	fmt.Fprint(b, "row,time_s")
	for _, c := range v.Channels {
		fmt.Fprintf(b, ",%s", cell(c))
	}
	fmt.Fprint(b, ",coils,field_deg,lasts_s,position_steps\n")
	c := v.Course
	first := 0
	if !math.IsInf(fromS, -1) {
		first = max(0, c.Find(c.Ticks(fromS)))
	}
	for i := first; i < c.Len() && c.Seconds(c.Row(i).At) <= toS; i++ {
		row := c.Row(i)
		if !v.Numbers.None(i) { // outputs at rest, and glitches, have no number
			fmt.Fprint(b, v.Numbers.Of(i))
		}
		fmt.Fprintf(b, ",%.9f", c.Seconds(row.At))
		for k := range 4 {
			fmt.Fprintf(b, ",%d", row.Levels>>k&1)
		}
		coils := v.Row(row.Levels)
		b.WriteByte(',')
		for k, e := range coils.On() {
			if k > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(e.String())
		}
		b.WriteByte(',')
		if deg, ok := coils.Field().Degrees(); ok {
			fmt.Fprintf(b, "%g", deg)
		}
		fmt.Fprintf(b, ",%.9f,%g\n", c.Seconds(c.Dwell(i)), v.Positions.Steps(i))
	}
	return b.Flush()
}

// cell writes a name into a CSV.
func cell(name string) string {
	name = files.Shown(name)
	for _, r := range name {
		if r == ',' || r == '"' || r == '\n' {
			return files.Quoted(name)
		}
	}
	return name
}
