package motor

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"

	"coilwalk/model/files"
)

// longestFile bounds a motor file, which a person writes by hand.
const longestFile = 64 << 10 // bytes

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
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // some editors put this mark before everything
	var d document
	decoder := toml.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&d); err != nil {
		return Motor{}, complaint(file, text, err)
	}
	m, wrong := d.motor()
	if wrong != nil {
		line, column := place(text, wrong.field)
		return Motor{}, &files.Complaint{File: file, Line: line, Column: characters(text, line, column), What: wrong.what, Right: wrong.right}
	}
	return m, nil
}

// complaint turns an error of the TOML library into one with advice.
func complaint(file string, text []byte, err error) error {
	var strict *toml.StrictMissingError
	if errors.As(err, &strict) && len(strict.Errors) > 0 {
		first := strict.Errors[0]
		line, column := first.Position()
		key := first.Key()
		table, name := "", key[len(key)-1]
		if len(key) > 1 {
			table = key[0]
		}
		c := &files.Complaint{File: file, Line: line, Column: characters(text, line, column), What: fmt.Sprintf("there is no field %q", strings.Join(key, "."))}
		near := files.Nearest(name, fields[table])
		for _, other := range []string{"winding", "rotor", "train", "wiring", "figures"} {
			if near == "" && table == "" { // within braces the library tells no table
				near = files.Nearest(name, fields[other])
			}
		}
		if near != "" {
			c.Right = fmt.Sprintf("did you mean %q?", near)
		} else if known := fields[table]; known != nil {
			c.Right = "known here: " + strings.Join(known, ", ")
		}
		return c
	}
	var bad *toml.DecodeError
	if errors.As(err, &bad) {
		line, column := bad.Position()
		c := &files.Complaint{File: file, Line: line, Column: characters(text, line, column), What: strings.TrimPrefix(bad.Error(), "toml: ")}
		if found, goType, ok := strings.Cut(c.What, " into "); ok { // the library tells Go's types, which are not the person's
			c.What = "this is " + strings.Replace(found, "cannot decode TOML ", "of the kind ", 1)
			c.Right = "a text in quotes is wanted"
			if strings.HasSuffix(goType, "int") || strings.HasSuffix(goType, "int64") {
				c.Right = "a whole number is wanted, without quotes"
			} else if strings.Contains(goType, "[]") {
				c.Right = `a list is wanted, as ["BN", "WH", "GN", "GY"]`
			}
		}
		if strings.Contains(c.What, "array table") {
			c.What, c.Right = "this is a list of tables", "one pair of brackets is wanted, as [figures]"
		}
		if strings.Contains(c.What, "at start of key") {
			c.Right = "is this a motor file? it has lines as name = \"vent-flap\""
		}
		if strings.Contains(c.What, "at start of value") {
			c.Right = `a text is written in quotes, as "vent-flap"`
		}
		if key := bad.Key(); len(key) > 0 {
			c.What = strings.Join(key, ".") + ": " + c.What
		}
		return c
	}
	// The library gives no place when a quantity is a number without quotes.
	c := &files.Complaint{File: file, What: strings.TrimPrefix(err.Error(), "toml: ")}
	var field string
	if field, c.Line, c.Column = bareValue(text); field != "" {
		c.What = field + ": " + c.What
		c.Column = characters(text, c.Line, c.Column)
	}
	return c
}

// characters turns a column counted in bytes, from 1, into one counted in
// characters, as editors do.
func characters(text []byte, line, column int) int {
	lines := bytes.Split(text, []byte("\n"))
	if line < 1 || line > len(lines) || column < 1 {
		return column
	}
	at := lines[line-1]
	return utf8.RuneCount(at[:min(column-1, len(at))]) + 1
}
