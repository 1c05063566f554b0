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
func Write(name string, text []byte) (err error) {
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
			err = notWritten(name, err)
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
	return os.Rename(f.Name(), place)
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
	return &Complaint{File: name, What: "could not be written: " + bare(err)}
}
