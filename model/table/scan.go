package table

import "strings"

// token is a piece of a source text that matters to arrays: a literal, a name,
// or a mark. A string is a mark '"': what it holds is not read, but may be the
// name of what follows it.
type token struct {
	kind         byte // 'n' number, 'w' word, or the mark itself
	text         string
	line, column int
	span
}

// scanner goes through a source text once.
type scanner struct {
	text         string
	at           int
	line, column int
	last         int // the line of the last token
	language     Language
	define       bool  // within a #define, which ends with its line
	open         place // the last comment or string that is never closed
	remarks      []remark
}

func newScanner(text string, l Language) *scanner {
	return &scanner{text: text, line: 1, column: 1, language: l}
}

// tokens gives all that is left.
func (s *scanner) tokens() []token {
	var all []token
	for {
		t, ok := s.next()
		if !ok {
			return all
		}
		s.last = t.line
		all = append(all, t)
	}
}

// next gives the next token, and where in the text it stands.
func (s *scanner) next() (t token, ok bool) {
	t, ok = s.piece()
	t.to = s.at
	return t, ok
}

func (s *scanner) piece() (token, bool) {
	for s.at < len(s.text) {
		c := s.text[s.at]
		t := token{kind: c, line: s.line, column: s.column, span: span{from: s.at}}
		switch {
		case c == '\n' && s.define:
			s.define = false
			s.move(1)
			t.kind = ';' // a definition ends as a statement does
			return t, true
		case c == ' ' || c == '\t' || c == '\n':
			s.move(1)
			continue
		case c == '\\':
			s.move(2) // with the line's end, if that follows: the line goes on
			continue
		case c == '#' && s.language.likeC() && s.last != s.line:
			s.directive()
			continue
		case s.comment():
			continue
		case s.quotes():
			t.kind = '"'
			t.text = s.quote()
			return t, true
		case digit(c):
			t.kind, t.text = 'n', s.number()
			return t, true
		case letter(c):
			t.kind, t.text = 'w', s.word()
			return t, true
		}
		s.move(1)
		return t, true
	}
	return token{}, false
}

func digit(c byte) bool  { return c >= '0' && c <= '9' }
func letter(c byte) bool { return c == '_' || c|0x20 >= 'a' && c|0x20 <= 'z' || c >= 0x80 }

// move goes on by n bytes and keeps the place, a column for each character.
func (s *scanner) move(n int) {
	for range n {
		if s.at >= len(s.text) {
			return
		}
		switch c := s.text[s.at]; {
		case c == '\n':
			s.line, s.column = s.line+1, 1
		case c&0xc0 != 0x80: // not within a character
			s.column++
		}
		s.at++
	}
}

func (s *scanner) rest() string { return s.text[s.at:] }

func (s *scanner) starts(mark string) bool { return strings.HasPrefix(s.rest(), mark) }

// directive skips a line of the preprocessor, with those that it goes on in.
// What a #define stands for is read: it may be a table.
func (s *scanner) directive() {
	after := strings.TrimLeft(s.rest()[1:], " \t")
	if strings.HasPrefix(after, "define") {
		s.move(len(s.rest()) - len(after) + len("define"))
		s.define = true
		return
	}
	if strings.Join(strings.Fields(firstLine(s.rest())), "") == "#if0" {
		s.leaveOut()
		return
	}
	s.lineEnd()
}

func firstLine(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return line
}

// leaveOut skips what #if 0 leaves out, to its #else or #endif.
func (s *scanner) leaveOut() {
	for deep := 0; s.at < len(s.text); s.move(1) {
		switch words := strings.Fields(strings.Replace(firstLine(s.rest()), "#", "# ", 1)); {
		case len(words) < 2 || words[0] != "#":
		case strings.HasPrefix(words[1], "if"):
			deep++
		case words[1] == "endif" || deep == 1 && strings.HasPrefix(words[1], "el"):
			if deep--; deep == 0 {
				s.lineEnd()
				return
			}
		}
		s.lineEnd()
	}
}

// lineEnd goes to the end of the line. In C a backslash there joins the next
// line to it, in a comment too (C11 5.1.1.2, from memory).
func (s *scanner) lineEnd() {
	for s.at < len(s.text) && s.text[s.at] != '\n' {
		if s.language.likeC() && s.text[s.at] == '\\' {
			s.move(1)
		}
		s.move(1)
	}
}

// comment skips a comment, if one begins here, and keeps what it says.
func (s *scanner) comment() bool {
	line, start := s.line, s.at
	switch {
	case s.language == Python:
		if s.text[s.at] != '#' {
			return false
		}
		s.lineEnd()
	case s.starts("//"):
		s.lineEnd()
	case s.starts("/*"):
		s.blockComment()
	default:
		return false
	}
	s.remarks = append(s.remarks, remark{line, s.text[start:s.at]})
	return true
}

// blockComment skips to the end of a comment. In Rust comments stand within
// comments (Rust reference, comments; from memory).
func (s *scanner) blockComment() {
	from := place{"comment", s.line, s.column}
	deep := 0
	for s.at < len(s.text) {
		switch {
		case s.starts("/*") && (deep == 0 || s.language == Rust):
			deep++
			s.move(2)
		case s.starts("*/"):
			s.move(2)
			if deep--; deep == 0 {
				return
			}
		default:
			s.move(1)
		}
	}
	s.open = from
}

// word takes a name, with the path before it: self.rows, Motor::rows.
func (s *scanner) word() string {
	start := s.at
	for s.at < len(s.text) {
		c := s.text[s.at]
		rest := s.rest()
		switch {
		case letter(c) || digit(c):
			s.move(1)
		case c == '.' && len(rest) > 1 && letter(rest[1]):
			s.move(2)
		case strings.HasPrefix(rest, "::") && len(rest) > 2 && letter(rest[2]):
			s.move(3)
		default:
			return s.text[start:s.at]
		}
	}
	return s.text[start:]
}

// number takes a number with its separators, base and suffix. A point or an
// exponent makes it no literal of ours; it is taken whole all the same.
func (s *scanner) number() string {
	start := s.at
	for s.at < len(s.text) {
		c := s.text[s.at]
		separator := c == '\'' && s.language.likeC() && s.at+1 < len(s.text) && (digit(s.text[s.at+1]) || letter(s.text[s.at+1]))
		if !digit(c) && !letter(c) && c != '.' && !separator {
			break
		}
		s.move(1)
	}
	return s.text[start:s.at]
}
