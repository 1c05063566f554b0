package course

import (
	"context"
	"errors"
	"io"

	"coilwalk/model/recording"
	"coilwalk/model/table"
)

// Read makes a course of a recording's four outputs: of the channels named, or
// of those that behave like coil outputs. It tells of what is there so far to
// progress, now and then, and stops when the context is done; what was read till
// then is given with its error.
func Read(ctx context.Context, r *recording.Reader, names []string, pins table.Pins, progress func(*Course)) (*Course, Choice, error) {
	choice, early, err := choose(r, names, pins)
	if err != nil {
		return nil, choice, err
	}
	g := newGatherer(r.Tick)
	g.add(translated(early, choice.Pins))
	batches, done := make(chan []recording.Sample, 2), make(chan error, 1)
	free := make(chan []recording.Sample, 4)
	for range cap(free) {
		free <- make([]recording.Sample, 1<<14)
	}
	stop := make(chan struct{})
	defer close(stop)
	go read(ctx, r, free, batches, done, stop)
	for batch := range batches {
		g.add(translated(batch, choice.Pins))
		if progress != nil && len(batch) > 0 {
			progress(g.course.soFar(batch[len(batch)-1].At))
		}
		free <- batch[:cap(batch)]
	}
	err = <-done
	if errors.Is(err, io.EOF) {
		err = nil
	}
	return g.end(r.Until()), choice, err
}

// read fills batches until the recording ends: beside the making of rows, as
// each takes about as long as the other.
func read(ctx context.Context, r *recording.Reader, free <-chan []recording.Sample, batches chan<- []recording.Sample, done chan<- error, stop <-chan struct{}) {
	defer close(batches)
	for {
		var into []recording.Sample
		select {
		case into = <-free:
		case <-stop:
			return
		}
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
