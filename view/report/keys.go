package report

import (
	"fmt"
	"strconv"
	"strings"

	"coilwalk/view/keys"
)

// Keys is the answer of the command "keys": which key does what, at each place.
type Keys struct {
	Coilwalk int        `json:"coilwalk"`
	File     *string    `json:"file"` // that gave other keys; null where there is none
	Places   []KeyPlace `json:"places"`
	place    string     // where such a file goes; "" where there is no folder
}

// KeyPlace is what keys do at one place.
type KeyPlace struct {
	Name  string   `json:"name"`
	Where string   `json:"where"`
	Keys  []OneKey `json:"keys"`
}

// OneKey is one thing that keys do.
type OneKey struct {
	Word  string   `json:"word"`
	Keys  []string `json:"keys"`
	Says  string   `json:"says"`
	Fixed bool     `json:"fixed"` // it can be given no other key
}

// NewKeys tells of groups of keys, the file that they were read from ("" where
// there is none), and where one would be looked for.
func NewKeys(groups []keys.Group, file, place string) Keys {
	out := Keys{Coilwalk: Version, place: place}
	if file != "" {
		out.File = &file
	}
	for _, g := range groups {
		p := KeyPlace{Name: g.Name, Where: g.Where}
		for _, b := range g.Bindings {
			p.Keys = append(p.Keys, OneKey{b.Word, b.Keys, keys.Fill(b.Says, keys.In(groups), true), b.Fixed})
		}
		out.Places = append(out.Places, p)
	}
	return out
}

// Text is a file of keys that gives all of them as they are.
func (k Keys) Text() string {
	var s strings.Builder
	s.WriteString("# Keys of coilwalk: what is done, and the key that does it, or several.\n")
	if k.place != "" {
		fmt.Fprintf(&s, "# To change them, save this as\n#   %s\n# A line that is left out keeps its key.\n", k.place)
	}
	s.WriteString("# Space always stops and ctrl+c always leaves: those two can not be changed.\n")
	for _, p := range k.Places {
		fmt.Fprintf(&s, "\n[%s]%s# %s\n", p.Name, gap(len(p.Name)+2), p.Where)
		for _, one := range p.Keys {
			line := one.Word + " = " + keyList(one.Keys)
			if one.Fixed {
				line = "# " + line
			}
			fmt.Fprintf(&s, "%s%s# %s\n", line, gap(len([]rune(line))), one.Says)
		}
	}
	return s.String()
}

// saysColumn is where the words of a file of keys stand.
const saysColumn = 38

func gap(used int) string { return strings.Repeat(" ", max(1, saysColumn-used)) }

func keyList(names []string) string {
	quoted := make([]string, len(names))
	for i, name := range names {
		quoted[i] = strconv.Quote(name)
	}
	if len(quoted) == 1 {
		return quoted[0]
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}
