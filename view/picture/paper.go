package picture

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"coilwalk/model/files"
	"coilwalk/model/rotor"
)

// Size of a drawing on paper.
const (
	paperWide = 16 * vg.Centimeter
	paperTall = 10 * vg.Centimeter
)

// CurvesGoTo refuses a file that RateCurves can not write, by its ending.
func CurvesGoTo(name string) error {
	switch format := strings.ToLower(filepath.Ext(name)); format {
	case ".csv", ".svg", ".png":
		return nil
	case "":
		return fmt.Errorf("the name %s has no ending; one in .csv, .svg or .png is wanted", files.Quoted(name))
	default:
		return fmt.Errorf("%s is none of .csv, .svg and .png", files.Quoted(format))
	}
}

// RateCurves draws pull-in and pull-out rates over load, in the format that the
// name of a file asks for: .csv, .svg or .png.
func RateCurves(name, title string, points []rotor.CurvePoint) ([]byte, error) {
	format := strings.ToLower(filepath.Ext(name))
	if err := CurvesGoTo(name); err != nil {
		return nil, err
	}
	if format == ".csv" {
		return rateTable(points)
	}
	p := plot.New()
	p.Title.Text = title
	p.X.Label.Text = "rate, rows/s"
	p.Y.Label.Text = "load at the shaft, mN.m"
	p.X.Min, p.Y.Min = 0, 0
	p.Add(plotter.NewGrid())
	for i, curve := range []struct {
		name string
		rate func(rotor.CurvePoint) float64
	}{
		{"starts and stops (pull-in)", func(c rotor.CurvePoint) float64 { return c.StartStop }},
		{"follows once it turns (pull-out)", func(c rotor.CurvePoint) float64 { return c.PullOut }},
	} {
		xy := make(plotter.XYs, len(points))
		for k, c := range points {
			xy[k] = plotter.XY{X: curve.rate(c), Y: 1e3 * c.Load}
		}
		line, err := plotter.NewLine(xy)
		if err != nil {
			return nil, err
		}
		if i == 1 { // told apart without colour
			line.Dashes = []vg.Length{vg.Points(5), vg.Points(3)}
		}
		line.Width = vg.Points(1.2)
		p.Add(line)
		p.Legend.Add(curve.name, line)
	}
	p.Legend.Top = true
	to, err := p.WriterTo(paperWide, paperTall, format[1:])
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	_, err = to.WriteTo(&out)
	return out.Bytes(), err
}

// rateTable writes the curves as a table.
func rateTable(points []rotor.CurvePoint) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	number := func(v float64) string { return strconv.FormatFloat(v, 'g', 5, 64) }
	w.Write([]string{"load_nm", "start_stop_rows_per_s", "pull_out_rows_per_s"})
	for _, p := range points {
		w.Write([]string{number(p.Load), number(p.StartStop), number(p.PullOut)})
	}
	w.Flush()
	return out.Bytes(), w.Error()
}
