package files

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// CanWrite says why a file could not be written, before anything is computed or asked
// for it. Whether a folder takes files is only seen by making one: permissions, a
// file system that is read only, and one that is full say so in no other way that
// goes for all systems.
func CanWrite(name string) error {
	place, _, err := spot(name)
	if err != nil {
		return err
	}
	f, err := beside(name, place)
	if err != nil {
		return err
	}
	f.Close()
	return os.Remove(f.Name())
}

// spot gives the place of the file that a name stands for, and the permissions that
// it is to have; or the complaint that no file can stand there.
func spot(name string) (place string, mode fs.FileMode, err error) {
	if name == "" {
		return "", 0, noName()
	}
	if place, err = target(name); err != nil {
		return "", 0, NotWritten(name, err)
	}
	info, err := os.Stat(place)
	switch {
	case err != nil:
		return place, 0o644, nil
	case !info.Mode().IsRegular():
		return "", 0, &Complaint{File: name, What: "this is " + odd(info.Mode()) + ", not a plain file", Right: "it can not be replaced whole; name a file"}
	}
	return place, info.Mode().Perm(), nil
}

// odd names what is no plain file.
func odd(mode fs.FileMode) string {
	switch {
	case mode.IsDir():
		return "a folder"
	case mode&fs.ModeNamedPipe != 0:
		return "a pipe"
	case mode&fs.ModeSocket != 0:
		return "a socket"
	}
	return "a device"
}

// beside makes a file that is later put in its place.
func beside(name, place string) (*os.File, error) {
	folder := filepath.Dir(place)
	f, err := os.CreateTemp(folder, "."+filepath.Base(place)+".*")
	if err != nil {
		return nil, notWritten(name, folder, err)
	}
	return f, nil
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

// NotWritten complains of a file that could not be written.
func NotWritten(name string, err error) error { return notWritten(name, filepath.Dir(name), err) }

// notWritten tells a folder that is not there from one that takes no files, as some
// that a system makes up.
func notWritten(name, folder string, err error) error {
	c := &Complaint{File: name, What: "could not be written: " + Bare(err).Error()}
	if errors.Is(err, fs.ErrNotExist) {
		c.What, c.Right = "could not be written: there is no folder "+folder, "make it first, or choose another"
		if _, err := os.Stat(folder); err == nil {
			c.What, c.Right = "could not be written: no file can be made in the folder "+folder, "choose another"
		}
	}
	return c
}

func noName() error {
	return &Complaint{What: "the name of the file is empty"}
}
