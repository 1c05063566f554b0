package settings

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/files"
)

// File is the name of the file of what is set once for all sittings.
const File = "settings.toml"

// Look is how the explorer looks and moves, as far as a person set it.
type Look struct {
	Theme     string // auto, dark or light; "" where it is not set
	Color     string // auto, always or never; "" likewise
	Animation *bool  // the rotor is shown between its rests; nil likewise
	ASCII     *bool  // only ASCII marks; nil likewise
}

// Themes and Colors are the words that there are for the two.
var (
	Themes = []string{"auto", "dark", "light"}
	Colors = []string{"auto", "always", "never"}
)

// document is the file as it stands in TOML. Its values are looked at by hand, for
// complaints that help.
type document struct {
	Theme     any `toml:"theme"`
	Color     any `toml:"color"`
	Animation any `toml:"animation"`
	ASCII     any `toml:"ascii"`
}

var form = files.Form{Kind: "file of settings", Line: `theme = "dark"`, Text: `"dark"`,
	Fields: map[string][]string{"": {"theme", "color", "animation", "ascii"}}}

// ParseLook reads a file of settings. Errors are *files.Complaint.
func ParseLook(file string, text []byte) (look Look, err error) {
	var d document
	if err = form.Decode(file, text, &d); err != nil {
		return Look{}, err
	}
	wrong := func(field, right string) error {
		return files.At(file, text, field, field+": this is none of its values", right)
	}
	for _, word := range []struct {
		field string
		value any
		words []string
		to    *string
	}{{"theme", d.Theme, Themes, &look.Theme}, {"color", d.Color, Colors, &look.Color}} {
		if word.value == nil {
			continue
		}
		text, ok := word.value.(string)
		if !ok || !slices.Contains(word.words, text) {
			return Look{}, wrong(word.field, fmt.Sprintf(`one of "%s" is wanted, in quotes`, strings.Join(word.words, `", "`)))
		}
		*word.to = text
	}
	for _, flag := range []struct {
		field string
		value any
		to    **bool
	}{{"animation", d.Animation, &look.Animation}, {"ascii", d.ASCII, &look.ASCII}} {
		if flag.value == nil {
			continue
		}
		is, ok := flag.value.(bool)
		if !ok {
			return Look{}, wrong(flag.field, "true or false is wanted, without quotes")
		}
		*flag.to = &is
	}
	return look, nil
}
