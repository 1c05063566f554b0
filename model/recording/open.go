// Package recording reads what a logic analyser or a simulator recorded of
// pins, in VCD (IEEE 1364 clause 18) or CSV, plain or packed, of any size: a
// stream of moments at which chosen channels changed. It knows channels and
// levels, nothing of motors.
package recording

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"sync/atomic"

	"github.com/klauspost/compress/zstd"

	"coilwalk/model/files"
)

// source is an open recording, unpacked, that counts how much of the file has
// been read.
type source struct {
	io.Reader
	name  string
	total int64 // bytes of the file; 0 when nobody can know
	read  *atomic.Int64
	close []func()

	cutOff bool // it is packed, and ends before its end
}

// Marks at the beginning of packed files.
var (
	gzipMark = []byte{0x1f, 0x8b}
	zstdMark = []byte{0x28, 0xb5, 0x2f, 0xfd}
)

// longestWindow is how much, in bytes, is held at most to unpack a file.
const longestWindow = 32 << 20

// openSource opens a file, or stdin for "-", and unpacks it when it is packed.
func openSource(name string, stdin io.Reader) (*source, error) {
	s := &source{name: files.Called(name), read: new(atomic.Int64)}
	var in = stdin
	if name != files.Standard {
		f, total, err := files.Open(name)
		if err != nil {
			return nil, err
		}
		s.total, s.close = total, append(s.close, func() { f.Close() })
		in = f
	}
	b := bufio.NewReader(counted{in, s.read})
	head, _ := b.Peek(len(zstdMark)) // an error shows again at the first reading
	switch {
	case bytes.HasPrefix(head, gzipMark):
		z, err := gzip.NewReader(b)
		if err != nil {
			return nil, s.broken(err)
		}
		s.Reader = z
	case bytes.HasPrefix(head, zstdMark):
		z, err := zstd.NewReader(b, zstd.WithDecoderConcurrency(1), zstd.WithDecoderMaxMemory(longestWindow))
		if err != nil {
			return nil, s.broken(err)
		}
		s.Reader, s.close = z, append(s.close, z.Close)
	default:
		s.Reader = b
	}
	return s, nil
}

// broken is the complaint about a file that ends badly or is packed badly.
func (s *source) broken(err error) error {
	switch {
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF): // within what stands before the packed text
		return &files.Complaint{File: s.name, What: "the packed file was cut off before anything could be unpacked", Right: "record or copy it anew"}
	case errors.Is(err, zstd.ErrWindowSizeExceeded), errors.Is(err, zstd.ErrDecoderSizeExceeded):
		return &files.Complaint{File: s.name, What: fmt.Sprintf("it is packed so that more than %d MB have to be held to unpack it", longestWindow>>20), Right: "pack it anew, with a common level"}
	}
	what := strings.TrimPrefix(err.Error(), "read "+s.name+": ")
	if pathError, ok := err.(*os.PathError); ok {
		what = pathError.Err.Error()
	}
	return &files.Complaint{File: s.name, What: "could not be read: " + what}
}

// counted counts the bytes that pass.
type counted struct {
	io.Reader
	n *atomic.Int64
}

func (c counted) Read(p []byte) (int, error) {
	n, err := c.Reader.Read(p)
	c.n.Add(int64(n))
	return n, err
}
