package main

import (
	"fmt"
	"os"
	"runtime/debug"

	"coilwalk/model/files"
)

// crashed is the outcome of a panic that was caught.
type crashed struct{ what string }

func (c crashed) Error() string { return c.what }

// crash keeps what is needed to mend a fault of ours.
func crash(what any) error {
	words := fmt.Sprintf("a fault of coilwalk itself: %v", what)
	f, err := os.CreateTemp("", "coilwalk-crash-*.txt")
	if err == nil {
		where := debug.Stack()
		if met, ok := what.(interface{ Trace() []byte }); ok {
			where = met.Trace()
		}
		_, err = fmt.Fprintf(f, "%s\n\n%s", words, where)
		if closing := f.Close(); err == nil {
			err = closing
		}
		if err != nil {
			_ = os.Remove(f.Name()) // half of it would only mislead
		}
	}
	if err != nil {
		return crashed{words + "; where it was could not be kept: " + oneLine(files.Bare(err).Error())}
	}
	return crashed{words + "; please report it with " + f.Name()}
}
