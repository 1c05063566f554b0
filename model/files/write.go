package files

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// Write puts text into a file whole or not at all: it is written beside its
// place, brought to the disk, and then renamed over it. A file that was there
// keeps its permissions.
func Write(name string, text []byte) error { return write(name, text, os.Rename) }

// WriteNew does so with a file that is not there yet. One that comes to be there
// meanwhile stays: it is a complaint, not a loss.
func WriteNew(name string, text []byte) error {
	if _, err := os.Lstat(name); err == nil {
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
	mode := os.FileMode(0o644)
	place, err := target(name)
	if err != nil {
		return notWritten(name, err)
	}
	if info, statErr := os.Stat(place); statErr == nil {
		if !info.Mode().IsRegular() {
			return &Complaint{File: name, What: "this is not a plain file", Right: "it can not be replaced whole; name a file"}
		}
		mode = info.Mode().Perm()
	}
	f, err := os.CreateTemp(filepath.Dir(place), "."+filepath.Base(place)+".*")
	if err != nil {
		return notWritten(name, err)
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
			if !errors.Is(err, fs.ErrExist) {
				err = notWritten(name, err)
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

// target gives the file that a link stands for, there or not yet: renaming over
// the link itself would part it from its file.
func target(name string) (string, error) {
	real, err := filepath.EvalSymlinks(name)
	if err == nil {
		return real, nil
	}
	to, linkErr := os.Readlink(name)
	if linkErr != nil {
		return name, nil // no link: a file that is not there yet
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return "", err // links in a ring
	}
	folder, err := filepath.EvalSymlinks(filepath.Dir(name))
	if err != nil {
		return "", err
	}
	if !filepath.IsAbs(to) {
		to = filepath.Join(folder, to)
	}
	return target(to)
}

func notWritten(name string, err error) error {
	return &Complaint{File: name, What: "could not be written: " + Bare(err).Error()}
}
