package motor

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"strings"

	"coilwalk/model/files"
)

// longestFile bounds a motor file, which a person writes by hand.
const longestFile = 64 << 10 // bytes

// motorFile is what the complaints about one may tell of.
var motorFile = files.Form{
	Kind: "motor file", Line: `name = "vent-flap"`, Text: `"vent-flap"`, List: `["BN", "WH", "GN", "GY"]`, Fields: fields,
	Tables: []string{"winding", "rotor", "train", "wiring", "figures"},
	Bare:   []string{"rotor.pole_pairs", "rotor.rings", "rotor.teeth", "rotor.rotor_teeth"},
}

// Open reads a motor: a built-in one by name, or a motor file; "-" is stdin.
func Open(name string, stdin io.Reader) (Motor, error) {
	if m, ok := BuiltIn(name); ok {
		return m, nil
	}
	text, err := files.Read(name, longestFile, stdin)
	if err == nil {
		return Parse(files.Called(name), text)
	}
	if _, missing := os.Stat(name); name != files.Standard && errors.Is(missing, fs.ErrNotExist) {
		near := files.Nearest(name, Names())
		if near != "" {
			return Motor{}, &files.Complaint{File: name, What: "neither a built-in motor nor a file", Right: "did you mean the built-in motor " + near + "?"}
		}
		if !strings.ContainsAny(name, "./\\") {
			return Motor{}, &files.Complaint{File: name, What: "neither a built-in motor nor a file", Right: "built in are " + strings.Join(Names(), ", ")}
		}
	}
	return Motor{}, err
}

// Parse reads the text of a motor file. Its errors are *files.Complaint with
// line and column.
func Parse(file string, text []byte) (Motor, error) {
	var d document
	if err := motorFile.Decode(file, text, &d); err != nil {
		return Motor{}, err
	}
	m, wrong := d.motor()
	if wrong != nil {
		return Motor{}, files.At(file, text, wrong.field, wrong.what, wrong.right)
	}
	return m, nil
}
