package view

import (
	"bytes"
	"strconv"
	"testing"

	"coilwalk/model/bench"
	"coilwalk/model/course"
	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/recording"
	"coilwalk/model/rotor"
	"coilwalk/model/table"
	"coilwalk/view/opened"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// scrubbed opens a recording of so many half-step rows, 500 a second, judged, and
// with a motor run along some of it.
func scrubbed(b testing.TB, rows int) *Explorer {
	text := []byte("$timescale 1us $end\n$var wire 1 a IN1 $end\n$var wire 1 b IN2 $end\n$var wire 1 c IN3 $end\n$var wire 1 d IN4 $end\n$enddefinitions $end\n#0\n0a\n0b\n0c\n0d\n")
	half, last := [8]byte{1, 3, 2, 6, 4, 12, 8, 9}, byte(0)
	for k := range rows {
		text = append(strconv.AppendInt(append(text, '#'), int64(1000+2000*k), 10), '\n')
		for pin := range 4 {
			if now := half[k%8] >> pin & 1; now != last>>pin&1 {
				text = append(text, '0'+now, 'a'+byte(pin), '\n')
			}
		}
		last = half[k%8]
	}
	r, err := recording.Open("-", bytes.NewReader(text), recording.Options{})
	if err != nil {
		b.Fatal(err)
	}
	loading, err := course.Begin(r, nil, table.Auto)
	if err != nil {
		b.Fatal(err)
	}
	m, _ := motor.BuiltIn("vent-flap")
	plant, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
	if err != nil {
		b.Fatal(err)
	}
	recorded := opened.Recording{Source: report.Recorded{Recording: r, Motor: &m}, Loading: loading, Motor: &m, Machine: &course.Motor{Name: m.Name, Plant: plant}, Close: r.Close}
	e := New(bench.New(m), Settings{Depth: picture.Colours256, Now: newClock().Now}, Opened{Recorded: &recorded})
	sized(e, 200, 60)
	s := e.screens[e.at].(*recordingScreen)
	c, err := loading.Rows(b.Context(), nil)
	if err != nil {
		b.Fatal(err)
	}
	s.judged(course.Judge(c, loading.Choice.Outputs, course.Question{}))
	ride := course.NewRide(s.Verdict, &plant)
	if err := ride.Run(b.Context(), 5000); err != nil {
		b.Fatal(err)
	}
	s.Ride, s.Rider = ride, rotor.NewMotion(&plant)
	e.View()
	return e
}

// A step through a recording of two million rows, drawn at 200×60, where the
// rotor has been run: at most 5 ms.
func BenchmarkBudgetScrub(b *testing.B) {
	e := scrubbed(b, 2_000_000)
	press(e, "g", "row 3000", "enter")
	for range 18 {
		press(e, "+")
	}
	n := 0
	for b.Loop() {
		if n++; n%1500 == 0 { // it stays where the rotor has been run
			press(e, "g", "row 3000", "enter")
		}
		press(e, "right")
		e.View()
	}
	b.ReportMetric(5e6, "allowed-ns")
}

// The same with the whole recording in view.
func BenchmarkBudgetScrubAll(b *testing.B) {
	e := scrubbed(b, 2_000_000)
	for b.Loop() {
		press(e, "right")
		e.View()
	}
	b.ReportMetric(5e6, "allowed-ns")
}
