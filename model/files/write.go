package files

import (
	"os"
	"path/filepath"
)

// Write puts text into a file whole or not at all: it is written beside its
// place, brought to the disk, and then renamed over it. A file that was there
// keeps its permissions.
func Write(name string, text []byte) (err error) {
	mode := os.FileMode(0o644)
	if real, linkErr := filepath.EvalSymlinks(name); linkErr == nil {
		name = real // renaming over a link would part it from its file
	}
	if info, statErr := os.Stat(name); statErr == nil {
		if !info.Mode().IsRegular() {
			return &Complaint{File: name, What: "this is not a plain file", Right: "it can not be replaced whole; name a file"}
		}
		mode = info.Mode().Perm()
	}
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
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
	return os.Rename(f.Name(), name)
}

func notWritten(name string, err error) error {
	return &Complaint{File: name, What: "could not be written: " + bare(err)}
}
