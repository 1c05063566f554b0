package motor

import (
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// place finds where a field stands in a TOML text that is known to be well
// formed: the field itself, else its table; 0, 0 when neither is there.
func place(text []byte, field string) (line, column int) {
	table, _, _ := strings.Cut(field, ".")
	walk(text, func(name string, _ *unstable.Node, at, _ unstable.Position) bool {
		if name == field || name == table || line == 0 && strings.HasPrefix(name, field+".") {
			line, column = at.Line, at.Column
		}
		return name == field
	})
	return line, column
}

// bareFigure finds the first figure that is a number where a quantity in quotes
// is wanted.
func bareFigure(text []byte) (field string, line, column int) {
	walk(text, func(name string, value *unstable.Node, _, at unstable.Position) bool {
		if value != nil && strings.HasPrefix(name, "figures.") && (value.Kind == unstable.Integer || value.Kind == unstable.Float) {
			field, line, column = name, at.Line, at.Column
		}
		return field != ""
	})
	return field, line, column
}

// walk goes through the tables (value nil) and fields of a text by their full
// names, until see says that it has seen enough.
func walk(text []byte, see func(name string, value *unstable.Node, nameAt, valueAt unstable.Position) (enough bool)) {
	var p unstable.Parser
	p.Reset(text)
	table := ""
	for p.NextExpression() {
		node := p.Expression()
		if node.Kind != unstable.Table && node.Kind != unstable.KeyValue {
			continue
		}
		var parts []string
		var start unstable.Range
		for key := node.Key(); key.Next(); {
			if len(parts) == 0 {
				start = key.Node().Raw
			}
			parts = append(parts, string(key.Node().Data))
		}
		name := strings.Join(parts, ".")
		var value *unstable.Node
		nameAt := p.Shape(start).Start
		valueAt := nameAt
		if node.Kind == unstable.Table {
			table = name
		} else {
			value = node.Value()
			valueAt = p.Shape(value.Raw).Start
			if table != "" {
				name = table + "." + name
			}
		}
		if see(name, value, nameAt, valueAt) {
			return
		}
	}
}
