package files

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"unicode/utf8"
)

// Standard is the name that stands for standard input on a command line.
const Standard = "-"

// Called gives the name of a file as it is told: with what could steer a terminal
// shown, not sent.
func Called(name string) string {
	const longest = 4096 // characters, as long as paths are
	if name == Standard {
		return "standard input"
	}
	return ShownUpTo(longest, name)
}

// Read gives the whole of a file, or of stdin when name is "-", and refuses
// more than limit bytes: what a person wrote by hand is never that long, and a
// wrong file (or a device that never ends) must not fill the memory.
func Read(name string, limit int64, stdin io.Reader) ([]byte, error) {
	if name == Standard {
		return readAll(Called(name), stdin, limit)
	}
	f, _, err := Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return readAll(name, f, limit)
}

// ReadText is Read for what a person wrote by hand, which has to be text: UTF-8,
// without zero bytes.
func ReadText(name string, limit int64, stdin io.Reader) ([]byte, error) {
	text, err := Read(name, limit, stdin)
	if err != nil {
		return nil, err
	}
	if wide := isUTF16(Called(name), text); wide != nil {
		return nil, wide
	}
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRune(text[at:])
		if r == 0 || r == utf8.RuneError && size == 1 {
			line := 1 + bytes.Count(text[:at], []byte("\n"))
			start := 1 + bytes.LastIndexByte(text[:at], '\n')
			c := &Complaint{File: Called(name), Line: line, Column: 1 + utf8.RuneCount(text[start:at]), What: "a byte stands here that is no UTF-8 text", Right: "save the file as UTF-8"}
			if r == 0 {
				c.What, c.Right = "a zero byte stands here", "a text file is wanted; is it the right one?"
			}
			return nil, c
		}
		at += size
	}
	return text, nil
}

// isUTF16 complains of text that begins with the mark of UTF-16; else nil.
func isUTF16(name string, text []byte) *Complaint {
	if bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")) {
		return &Complaint{File: name, What: "this is UTF-16 text", Right: "save the file as UTF-8"}
	}
	return nil
}

func readAll(name string, r io.Reader, limit int64) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, limit+1))
	if err != nil {
		return nil, &Complaint{File: name, What: "could not be read: " + Bare(err).Error()}
	}
	if int64(len(text)) > limit {
		return nil, &Complaint{File: name, What: fmt.Sprintf("longer than %d bytes", limit),
			Right: "a file of this kind is short; is it the right one?"}
	}
	return text, nil
}

func notOpened(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return &Complaint{File: name, What: "there is no such file"}
	}
	return &Complaint{File: name, What: "could not be opened: " + Bare(err).Error()}
}

// Bare drops the operation and path that an *fs.PathError repeats.
func Bare(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// Open opens a file that is too big to be held, and gives its size in bytes; 0
// for what has none, as a pipe.
func Open(name string) (f *os.File, size int64, err error) {
	if name == "" {
		return nil, 0, noName()
	}
	info, err := os.Stat(name)
	if err != nil {
		return nil, 0, notOpened(name, err)
	}
	if info.IsDir() {
		return nil, 0, &Complaint{File: name, What: "this is a folder", Right: "a file is wanted"}
	}
	if f, err = os.Open(name); err != nil {
		return nil, 0, notOpened(name, err)
	}
	if info.Mode().IsRegular() {
		size = info.Size()
	}
	return f, size, nil
}

// Head gives the beginning of a file, at most so many bytes, and leaves it to be
// read anew. A pipe gives what it has only once, and may never give it.
func Head(name string, limit int64) ([]byte, error) {
	if info, err := os.Stat(name); err == nil && !info.IsDir() && !info.Mode().IsRegular() {
		return nil, &Complaint{File: name, What: "this is a pipe or a device, which is read only once", Right: "a plain file is wanted here"}
	}
	f, _, err := Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	head, err := io.ReadAll(io.LimitReader(f, limit))
	if err != nil {
		return nil, &Complaint{File: name, What: "could not be read: " + Bare(err).Error()}
	}
	return head, nil
}
