package files

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
)

// Form is what a kind of TOML file holds, for complaints that help.
type Form struct {
	Kind   string              // "motor file"
	Line   string              // one that such a file has
	Text   string              // an example of a text in quotes
	List   string              // and of a list of them
	Fields map[string][]string // known fields by table, "" for the top
	Tables []string            // the names of the tables
	Bare   []string            // full names of the fields that stand without quotes
}

// Decode reads the text of a file into a document, strictly: a field that it does
// not have is a fault. Errors are *Complaint with line and column.
func (f *Form) Decode(file string, text []byte, document any) error {
	if wide := isUTF16(file, text); wide != nil {
		return wide
	}
	decoder := toml.NewDecoder(bytes.NewReader(plain(text)))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(document); err != nil {
		return f.complaint(file, plain(text), err)
	}
	return nil
}

// At complains of a field that was read, but whose value can not be.
func At(file string, text []byte, field, what, right string) *Complaint {
	text = plain(text)
	line, column := place(text, field)
	return &Complaint{File: file, Line: line, Column: characters(text, line, column), What: what, Right: right}
}

// plain takes off the mark that some editors put before everything.
func plain(text []byte) []byte { return bytes.TrimPrefix(text, []byte("\ufeff")) }

// complaint turns an error of the TOML library into one with advice.
func (f *Form) complaint(file string, text []byte, err error) error {
	var strict *toml.StrictMissingError
	if errors.As(err, &strict) && len(strict.Errors) > 0 {
		first := strict.Errors[0]
		line, column := first.Position()
		key := first.Key()
		table, name := "", key[len(key)-1]
		if len(key) > 1 {
			table = key[0]
		}
		c := &Complaint{File: file, Line: line, Column: characters(text, line, column), What: fmt.Sprintf("there is no field %s", Quoted(strings.Join(key, ".")))}
		near := Nearest(name, f.Fields[table])
		for _, other := range f.Tables {
			if near == "" && table == "" { // within braces the library tells no table
				near = Nearest(name, f.Fields[other])
			}
		}
		if near != "" {
			c.Right = fmt.Sprintf("did you mean %q?", near)
		} else if known := f.Fields[table]; known != nil {
			c.Right = "known here: " + strings.Join(known, ", ")
		}
		return c
	}
	var bad *toml.DecodeError
	if errors.As(err, &bad) {
		line, column := bad.Position()
		c := &Complaint{File: file, Line: line, Column: characters(text, line, column), What: strings.TrimPrefix(bad.Error(), "toml: ")}
		if found, goType, ok := strings.Cut(c.What, " into "); ok { // the library tells Go's types, which are not the person's
			c.What = "this is " + strings.Replace(found, "cannot decode TOML ", "of the kind ", 1)
			c.Right = "a text in quotes is wanted"
			if strings.HasSuffix(goType, "int") || strings.HasSuffix(goType, "int64") {
				c.Right = "a whole number is wanted, without quotes"
			} else if strings.Contains(goType, "[]") {
				c.Right = "a list is wanted, as " + f.List
			}
		}
		for _, a := range syntaxAdvice {
			if c.Right == "" && strings.Contains(c.What, a.told) {
				if a.what != "" {
					c.What = a.what
				}
				c.Right = a.right
			}
		}
		if strings.Contains(c.What, "array table") && len(f.Tables) > 0 {
			c.What, c.Right = "this is a list of tables", "one pair of brackets is wanted, as ["+f.Tables[len(f.Tables)-1]+"]"
		}
		if strings.Contains(c.What, "at start of key") {
			c.Right = fmt.Sprintf("is this a %s? it has lines as %s", f.Kind, f.Line)
		}
		if strings.Contains(c.What, "at start of value") {
			c.Right = "a text is written in quotes, as " + f.Text
		}
		if key := bad.Key(); len(key) > 0 {
			c.What = strings.Join(key, ".") + ": " + c.What
		}
		return c
	}
	// The library gives no place when a quantity is a number without quotes.
	c := &Complaint{File: file, What: strings.TrimPrefix(err.Error(), "toml: ")}
	var field string
	if field, c.Line, c.Column = bareValue(text, f.Bare); field != "" {
		c.What = field + ": " + c.What
		c.Column = characters(text, c.Line, c.Column)
	}
	return c
}

// syntaxAdvice puts what the library tells of a text that is no TOML into words of a
// bench, and adds what would be right.
var syntaxAdvice = []struct{ told, what, right string }{
	{"UTF-8", "this is no UTF-8 text", "save the file as UTF-8"},
	{"strings cannot have new lines", "a text goes on beyond its line", `it ends with the quote that it began with, as "vent-flap"`},
	{"expected newline", "more stands here than a field and its value", "a line a field is wanted; a remark begins with #"},
	{"already defined", "this field is given twice", "keep one of the lines"},
	{"after array value", "the list is not closed", `texts in quotes, parted by commas, and ] are wanted, as ["BN", "WH"]`},
	{"too large to fit", "this number is far too large", "check its digits"},
	{"not terminated", "a text is not closed", `it ends with the quote that it began with, as "vent-flap"`},
	{"expected", "", "a line a field is wanted, as name = \"vent-flap\""},
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
