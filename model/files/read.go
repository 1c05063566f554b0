package files

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// Standard is the name that stands for standard input on a command line.
const Standard = "-"

// Called gives the name of a file for messages.
func Called(name string) string {
	if name == Standard {
		return "standard input"
	}
	return name
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

func readAll(name string, r io.Reader, limit int64) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, limit+1))
	if err != nil {
		return nil, &Complaint{File: name, What: "could not be read: " + bare(err)}
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
	return &Complaint{File: name, What: "could not be opened: " + bare(err)}
}

// bare drops the operation and path that an *fs.PathError repeats.
func bare(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

// Open opens a file that is too big to be held, and gives its size in bytes; 0
// for what has none, as a pipe.
func Open(name string) (f *os.File, size int64, err error) {
	if name == "" {
		return nil, 0, &Complaint{What: "the name of the file is empty"}
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

// Head gives the beginning of a file, at most so many bytes.
func Head(name string, limit int64) ([]byte, error) {
	f, _, err := Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	head, err := io.ReadAll(io.LimitReader(f, limit))
	if err != nil {
		return nil, &Complaint{File: name, What: "could not be read: " + bare(err)}
	}
	return head, nil
}
