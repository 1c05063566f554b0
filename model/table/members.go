package table

import (
	"fmt"
	"strings"

	"coilwalk/model/files"
)

// member takes a token that stands right within a group.
func (f *finder) member(g *group, t token) error {
	switch t.kind {
	case 'n':
		lit := readNumber(t.text, f.language)
		lit.line, lit.column, lit.span = t.line, t.column, t.span
		if f.before(f.at) == 'n' && g.list && g.odd == "" && !g.code && g.elements > 0 {
			return f.complaint(t.line, t.column, "a comma is missing before this", "numbers are parted by commas")
		}
		if f.before(f.at) == '-' {
			lit.value, lit.text, lit.digits = -lit.value, "-"+lit.text, ""
		}
		f.shifted(&lit)
		if strings.Contains(t.text, ".") {
			g.strange("the fraction " + shortened(t.text))
		}
		g.literals = append(g.literals, lit)
	case 'w':
		if lit, ok := readWord(t.text, f.language); ok {
			lit.line, lit.column, lit.span = t.line, t.column, t.span
			g.literals = append(g.literals, lit)
			return nil
		}
		if after := f.after(f.at); after == '{' && (f.language == Go || f.language == CPP) || after == '!' && f.language == Rust {
			return nil // a type before its braces, or vec!
		}
		g.strange("the name " + shortened(t.text) + ", not a number")
	case ',':
		g.elements++
	case '"':
		if len(t.text) != 4 || strings.Trim(t.text, "01") != "" {
			g.strange("text")
			return nil
		}
		g.literals = append(g.literals, literal{text: t.text, line: t.line, column: t.column, value: int64(patternValue(t.text)), valued: true, base: 2, span: t.span.within()})
	case ';':
		if g.list && g.odd == "" && g.opening == '{' && len(g.literals)+len(g.arrays) > 1 && f.assigned(g.begin) && f.language != Rust {
			return f.complaint(g.line, g.column, fmt.Sprintf("this { is not closed before the ; of line %d", t.line), "} is wanted after the last row")
		}
		g.code = true
	case '-', '+':
		if b := f.before(f.at); f.after(f.at) != 'n' || b == 'n' || b == 'w' || b == ')' {
			g.strange("an expression")
		}
	case '=':
		if !g.named {
			g.strange("an expression")
		}
		g.named = false
	case '&', '!':
		if f.language != Rust {
			g.strange("an expression")
		}
	default:
		g.strange("an expression")
	}
	return nil
}

// shifted takes 1<<3 as the one number that it is.
func (f *finder) shifted(lit *literal) {
	if f.at+3 >= len(f.tokens) || f.tokens[f.at+1].kind != '<' || f.tokens[f.at+2].kind != '<' || f.tokens[f.at+3].kind != 'n' {
		return
	}
	by := readNumber(f.tokens[f.at+3].text, f.language)
	if !by.valued || by.value > 15 || !lit.valued || lit.value < 0 || lit.value > 0xffff {
		return
	}
	lit.text, lit.digits, lit.base = lit.text+"<<"+by.text, "", 2
	lit.value <<= by.value
	f.at += 3
	lit.to = f.tokens[f.at].to
}

// placed takes a designator of C, as [3] = {…}. Rows are read as they stand, so
// one that jumps is told; a place that is a name can not be followed.
func (f *finder) placed(around, g *group) bool {
	if g.opening != '[' || !f.language.likeC() || !around.list || f.after(g.end) != '=' {
		return false
	}
	around.named = true
	if len(g.literals) == 1 && g.odd == "" && g.literals[0].value != int64(around.elements) {
		around.strange("places out of order, as [" + g.literals[0].text + "] =")
	}
	return true
}

// typeBefore says whether a group only tells the type of the list after it:
// []int{…} and [4]bool{…} in Go, (int[]){…} in C.
func (f *finder) typeBefore(g *group) bool {
	after := f.after(g.end)
	switch {
	case f.language == Go && g.opening == '[':
		return after == '[' || after == 'w' && g.end+2 < len(f.tokens) && f.tokens[g.end+2].kind == '{'
	case f.language.likeC() && g.opening == '(':
		return after == '{'
	}
	return false
}

// opensList says whether the bracket here can open a list, rather than an
// index, a call, a type or a body.
func (f *finder) opensList(at int) bool {
	c := f.tokens[at].kind
	before := f.before(at)
	switch f.language {
	case C, CPP, Go:
		return c == '{'
	case Rust:
		if c == '[' {
			return !f.ends(at-1) && before != '#' && !(before == '!' && f.before(at-1) == '#')
		}
		return c == '(' && !f.ends(at-1) && len(f.open) > 0 && f.open[len(f.open)-1].list
	}
	if c == '{' {
		return false
	}
	if len(f.open) == 0 && at > 0 && f.tokens[at-1].line != f.tokens[at].line {
		return true // in Python a statement, so no index or call, begins with a line
	}
	return !f.ends(at - 1)
}

// valueWords come before a value, so a bracket after one is no index or call.
var valueWords = map[string]bool{"return": true, "in": true, "yield": true, "and": true, "or": true, "not": true,
	"if": true, "else": true, "elif": true, "mut": true, "match": true, "is": true, "assert": true}

// ends says whether a token can end a value, so that a bracket after it is an
// index or a call.
func (f *finder) ends(at int) bool {
	if at < 0 {
		return false
	}
	t := f.tokens[at]
	return t.kind == 'w' && !valueWords[t.text] || t.kind == ']' || t.kind == ')' || t.kind == '"'
}

// before and after give the kind of the neighbour; 0 for none.
func (f *finder) before(at int) byte {
	if at == 0 {
		return 0
	}
	return f.tokens[at-1].kind
}

func (f *finder) after(at int) byte {
	if at+1 >= len(f.tokens) {
		return 0
	}
	return f.tokens[at+1].kind
}

// assigned says whether the bracket begins the value of something: it stands
// after an equals sign, or after a colon as in a dictionary, or in C++ and Go
// after the name or type itself.
func (f *finder) assigned(at int) bool {
	switch f.before(at) {
	case '=':
		return true
	case ':':
		return f.language == Python || f.language == Go || f.language == Rust
	case 'w':
		return f.language == Go && at > 1 && f.tokens[at-2].kind == ']'
	case ']':
		return f.language == CPP
	case '!', '&':
		return f.language == Rust
	}
	return false
}

// shortened keeps a word from the file short enough for a message.
func shortened(word string) string {
	if r := []rune(word); len(r) > 32 {
		word = string(r[:32]) + "…"
	}
	return files.Shown(word)
}
