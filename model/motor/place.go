package motor

import (
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// place finds where a field stands in a TOML text that is known to be well
// formed: the field itself, else its table; 0, 0 when neither is there.
func place(text []byte, field string) (line, column int) {
	table, _, inTable := strings.Cut(field, ".")
	if !inTable {
		table = ""
	}
	var p unstable.Parser
	p.Reset(text)
	at := ""
	for p.NextExpression() {
		node := p.Expression()
		if node.Kind != unstable.Table && node.Kind != unstable.KeyValue {
			continue
		}
		var parts []string
		key := node.Key()
		var start unstable.Range
		for first := true; key.Next(); first = false {
			if first {
				start = key.Node().Raw
			}
			parts = append(parts, string(key.Node().Data))
		}
		name := strings.Join(parts, ".")
		if node.Kind == unstable.Table {
			at = name
			if name == field || name == table {
				pos := p.Shape(start).Start
				line, column = pos.Line, pos.Column
			}
			continue
		}
		if at != "" {
			name = at + "." + name
		}
		if name == field || (line == 0 && name == table) {
			pos := p.Shape(start).Start
			line, column = pos.Line, pos.Column
			if name == field {
				return line, column
			}
		}
	}
	return line, column
}
