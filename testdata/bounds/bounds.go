// Package bounds is what every fuzz target holds its reader to: an answer soon,
// out of a bounded memory, however bad the input. Only tests import it.
package bounds

import (
	"fmt"
	"runtime/metrics"
	"testing"
	"time"
)

// Longest is the time that one input may take. Readers take milliseconds; on a
// machine with much other work a hundred times that is still no hang.
const Longest = 10 * time.Second

// Hold runs a reader on an input of so many bytes. It panics when that takes
// longer than Longest, which is how a fuzzer is told of a hang, and fails the test
// when more than base + size·perByte bytes were asked for, in all and not at one
// time, which bounds the memory too. Nothing else may run beside it.
func Hold(tb testing.TB, size int, base, perByte uint64, read func()) {
	tb.Helper()
	late := time.AfterFunc(Longest, func() { panic(fmt.Sprintf("%s: no answer within %v", tb.Name(), Longest)) })
	defer late.Stop()
	before := allocated()
	read()
	if got, most := allocated()-before, base+uint64(size)*perByte; got > most {
		tb.Errorf("%d bytes of memory were asked for, for an input of %d bytes; at most %d are allowed", got, size, most)
	}
}

// allocated gives the bytes that were ever asked for. It is a little behind, by
// less than a megabyte.
func allocated() uint64 {
	sample := []metrics.Sample{{Name: "/gc/heap/allocs:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}
