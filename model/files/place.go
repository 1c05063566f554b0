package files

import (
	"slices"
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

// bareValue finds the first field whose value is a bare number or word where a
// text in quotes is wanted.
func bareValue(text []byte, allowed []string) (field string, line, column int) {
	walk(text, func(name string, value *unstable.Node, _, at unstable.Position) bool {
		bare := value != nil && isBare(value)
		if value != nil && value.Kind == unstable.Array {
			for element := value.Children(); element.Next() && !bare; {
				bare = isBare(element.Node())
			}
		}
		if bare && !slices.Contains(allowed, name) {
			field, line, column = name, at.Line, at.Column
		}
		return field != ""
	})
	return field, line, column
}

func isBare(value *unstable.Node) bool {
	return value.Kind == unstable.Integer || value.Kind == unstable.Float || value.Kind == unstable.Bool
}

// walk goes through the tables (value nil) and fields of a text by their full
// names, until see says that it has seen enough.
func walk(text []byte, see sight) {
	var p unstable.Parser
	p.Reset(text)
	table := ""
	for p.NextExpression() {
		node := p.Expression()
		switch node.Kind {
		case unstable.Table:
			name, at := keyOf(&p, node)
			table = name + "."
			if see(name, nil, at, at) {
				return
			}
		case unstable.KeyValue:
			if walkField(&p, table, node, see) {
				return
			}
		}
	}
}

type sight = func(name string, value *unstable.Node, nameAt, valueAt unstable.Position) (enough bool)

// walkField sees a field, and those within it when it is a table in braces.
func walkField(p *unstable.Parser, table string, node *unstable.Node, see sight) (enough bool) {
	name, at := keyOf(p, node)
	value := node.Value()
	valueAt := at
	if value.Raw.Length > 0 {
		valueAt = p.Shape(value.Raw).Start
	}
	if see(table+name, value, at, valueAt) {
		return true
	}
	if value.Kind == unstable.InlineTable {
		for inner := value.Children(); inner.Next(); {
			if walkField(p, table+name+".", inner.Node(), see) {
				return true
			}
		}
	}
	return false
}

// keyOf gives the dotted key of a node, and where it stands.
func keyOf(p *unstable.Parser, node *unstable.Node) (name string, at unstable.Position) {
	var parts []string
	for key := node.Key(); key.Next(); {
		if len(parts) == 0 {
			at = p.Shape(key.Node().Raw).Start
		}
		parts = append(parts, string(key.Node().Data))
	}
	return strings.Join(parts, "."), at
}
