package files

import (
	"errors"
	"io/fs"
	"os"
)

// Write puts text into a file whole or not at all: it is written beside its
// place, brought to the disk, and then renamed over it. A file that was there
// keeps its permissions.
func Write(name string, text []byte) error { return write(name, text, os.Rename) }

// WriteNew does so with a file that is not there yet. One that comes to be there
// meanwhile stays: it is a complaint, not a loss.
func WriteNew(name string, text []byte) error {
	if _, err := os.Lstat(name); err == nil {
		if _, _, odd := spot(name); odd != nil {
			return odd
		}
		return there(name)
	}
	err := write(name, text, linkNew)
	if errors.Is(err, fs.ErrExist) {
		return there(name)
	}
	return err
}

func there(name string) error {
	return &Complaint{File: name, What: "this file is there already", Right: "choose another name"}
}

// linkNew puts a file in its place if none is there. Where the file system has no
// links it can only look first.
func linkNew(from, to string) error {
	err := os.Link(from, to)
	switch {
	case err == nil:
		return os.Remove(from)
	case errors.Is(err, fs.ErrExist):
		return err
	}
	if _, err := os.Lstat(to); err == nil {
		return fs.ErrExist
	}
	return os.Rename(from, to)
}

// write writes a file beside its place, and then has it put there.
func write(name string, text []byte, put func(from, to string) error) (err error) {
	place, mode, err := spot(name)
	if err != nil {
		return err
	}
	f, err := beside(name, place)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
			if !errors.Is(err, fs.ErrExist) {
				err = NotWritten(name, err)
			}
		}
	}()
	if _, err = f.Write(text); err != nil {
		return err
	}
	if err = f.Chmod(mode); err != nil {
		return err
	}
	if err = f.Sync(); err != nil {
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	return put(f.Name(), place)
}
