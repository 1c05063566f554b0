// Package settings keeps what a person has set, or has seen, from one sitting to
// the next: in a folder of small files. Without the folder, or where it can not
// be read or written, everything works as if nothing had ever been set.
package settings

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"coilwalk/model/files"
)

// Folder is where the settings stand; "" where there is no place for them.
type Folder string

// Find gives the folder: $COILWALK_CONFIG, else coilwalk in $XDG_CONFIG_HOME
// (which counts on every system, and by the XDG Base Directory Specification only
// as an absolute path), else coilwalk where the system keeps such things. It need
// not be there.
func Find() Folder {
	if own := os.Getenv("COILWALK_CONFIG"); own != "" {
		return Folder(own)
	}
	if base := os.Getenv("XDG_CONFIG_HOME"); filepath.IsAbs(base) {
		return Folder(filepath.Join(base, "coilwalk"))
	}
	base, err := os.UserConfigDir()
	if err != nil || !filepath.IsAbs(base) {
		return ""
	}
	return Folder(filepath.Join(base, "coilwalk"))
}

// Name gives the full name of a file of the folder; "" without a folder.
func (f Folder) Name(file string) string {
	if f == "" {
		return ""
	}
	return filepath.Join(string(f), file)
}

// Longest bounds a file of settings, which a person writes by hand.
const Longest = 64 << 10 // bytes

// Read gives the text of a file of the folder; nil where it is not there. An
// error is one sentence (*files.Complaint).
func (f Folder) Read(file string) ([]byte, error) {
	name := f.Name(file)
	if name == "" {
		return nil, nil
	}
	if _, err := os.Stat(name); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return files.Read(name, Longest, nil)
}

// write puts a file into the folder, whole or not at all; the folder is made
// where it is missing.
func (f Folder) write(file string, text []byte) error {
	name := f.Name(file)
	if name == "" {
		return &files.Complaint{What: "there is no folder for settings", Right: "COILWALK_CONFIG names one"}
	}
	if err := os.MkdirAll(string(f), 0o700); err != nil {
		return &files.Complaint{File: string(f), What: "the folder for settings could not be made"}
	}
	return files.Write(name, text)
}
