package course

import (
	"context"
	"errors"
	"fmt"
	"io"

	"coilwalk/model/recording"
	"coilwalk/model/table"
)

// Loading is a recording whose outputs are known, and whose rows are still to be
// read.
type Loading struct {
	Choice Choice
	reader *recording.Reader
	early  []recording.Sample // read while the outputs were looked for
}

// Begin settles which channels are the outputs: those named, or those that
// behave like coil outputs.
func Begin(r *recording.Reader, names []string, pins table.Pins) (*Loading, error) {
	choice, early, err := choose(r, names, pins)
	return &Loading{choice, r, early}, err
}

// Rows reads the rows. It gives what is there so far to progress, now and then,
// and stops when the context is done.
func (l *Loading) Rows(ctx context.Context, progress func(*Course)) (*Course, error) {
	g := newGatherer(l.reader.Tick)
	g.add(translated(l.early, l.Choice.Pins))
	l.early = nil
	batches, done := make(chan []recording.Sample, 2), make(chan error, 1)
	free := make(chan []recording.Sample, 4)
	for range cap(free) {
		free <- make([]recording.Sample, 1<<14)
	}
	go read(ctx, l.reader, free, batches, done)
	for batch := range batches {
		g.add(translated(batch, l.Choice.Pins))
		if progress != nil {
			progress(g.course.soFar(batch[len(batch)-1].At))
		}
		free <- batch[:cap(batch)]
	}
	err := <-done
	if f := (fault{}); errors.As(err, &f) {
		panic(f.what)
	}
	if !errors.Is(err, io.EOF) {
		return nil, err
	}
	return g.end(l.reader.Until()), nil
}

// fault is a fault of ours beside the making of rows, which is the caller's to see.
type fault struct{ what any }

func (f fault) Error() string { return fmt.Sprint(f.what) }

// read fills batches until the recording ends: beside the making of rows, as
// each takes about as long as the other.
func read(ctx context.Context, r *recording.Reader, free <-chan []recording.Sample, batches chan<- []recording.Sample, done chan<- error) {
	defer close(batches)
	defer func() {
		if r := recover(); r != nil {
			done <- fault{r}
		}
	}()
	for {
		into := <-free
		n, err := r.Next(into)
		if err == nil {
			err = ctx.Err()
		}
		if n > 0 {
			batches <- into[:n]
		}
		if err != nil {
			done <- err
			return
		}
	}
}

// translated turns polarity and enable lines into the coil ends that they stand
// for, in place: output 1 to 4 are then A+, B+, A- and B-.
func translated(samples []recording.Sample, pins table.Pins) []recording.Sample {
	var ends *[16]uint32
	switch pins {
	case table.TwoLine:
		ends = &twoLine
	case table.PhaseEnable:
		ends = &phaseEnable
	default:
		return samples
	}
	for i := range samples {
		samples[i].High = ends[samples[i].High&0xf]
		if samples[i].Unknown != 0 {
			samples[i].Unknown = 0xf
		}
	}
	return samples
}

// What two polarity lines, or polarity and enable of A and then of B, put on the
// coil ends: bit 0 is A+, 1 is B+, 2 is A-, 3 is B-.
var twoLine, phaseEnable = func() (two, four [16]uint32) {
	end := func(high uint32, phase int) uint32 { return 1 << phase << (2 * (1 - high&1)) }
	for bits := range uint32(16) {
		two[bits] = end(bits, 0) | end(bits>>1, 1)
		if bits>>1&1 == 1 {
			four[bits] |= end(bits, 0)
		}
		if bits>>3&1 == 1 {
			four[bits] |= end(bits>>2, 1)
		}
	}
	return two, four
}()
