package table

import "strings"

// token is a piece of a source text that matters to arrays: a literal, a name,
// or a mark. Strings are a mark '"' so that what they hold is not read.
type token struct {
	kind         byte // 'n' number, 'w' word, or the mark itself
	text         string
	line, column int
}

// scanner goes through a source text once.
type scanner struct {
	text         string
	at           int
	line, column int
	language     Language
}

func scan(text string, l Language) []token {
	s := scanner{text: text, line: 1, column: 1, language: l}
	var tokens []token
	for {
		t, ok := s.next()
		if !ok {
			return tokens
		}
		tokens = append(tokens, t)
	}
}

func (s *scanner) next() (token, bool) {
	for s.at < len(s.text) {
		c := s.text[s.at]
		t := token{kind: c, line: s.line, column: s.column}
		switch {
		case c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\\':
			s.move(1)
			continue
		case s.comment():
			continue
		case c == '"' || c == '\'' && s.quoted() || c == '`' && s.language == Go:
			s.quote(c)
			t.kind = '"'
			return t, true
		case digit(c):
			t.kind, t.text = 'n', s.number()
			return t, true
		case letter(c):
			start := s.at
			for s.at < len(s.text) && (letter(s.text[s.at]) || digit(s.text[s.at])) {
				s.move(1)
			}
			t.kind, t.text = 'w', s.text[start:s.at]
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

// comment skips a comment, if one begins here.
func (s *scanner) comment() bool {
	rest := s.text[s.at:]
	switch {
	case s.language == Python && rest[0] == '#', s.language != Python && strings.HasPrefix(rest, "//"),
		(s.language == C || s.language == CPP) && rest[0] == '#' && s.startsLine(), s.language == Rust && rest[0] == '#':
		end := strings.IndexByte(rest, '\n')
		if end < 0 {
			end = len(rest)
		}
		s.move(end)
		return true
	case s.language != Python && strings.HasPrefix(rest, "/*"):
		end := strings.Index(rest[2:], "*/")
		if end < 0 {
			s.move(len(rest)) // never closed: the rest is comment
		} else {
			s.move(end + 4)
		}
		return true
	}
	return false
}

// startsLine says whether only blanks stand before this place in its line: a #
// there begins a directive.
func (s *scanner) startsLine() bool {
	before := s.text[:s.at]
	return strings.TrimSpace(before[strings.LastIndexByte(before, '\n')+1:]) == ""
}

// quoted tells a character or string in single quotes from the mark of a
// lifetime in Rust.
func (s *scanner) quoted() bool {
	if s.language != Rust {
		return true
	}
	rest := s.text[s.at+1:]
	return strings.HasPrefix(rest, "\\") || len(rest) > 1 && rest[1] == '\''
}

// quote skips a string; it ends with its line where the language says so.
func (s *scanner) quote(c byte) {
	mark := string(c)
	if s.language == Python && strings.HasPrefix(s.text[s.at:], strings.Repeat(mark, 3)) {
		mark = strings.Repeat(mark, 3)
	}
	s.move(len(mark))
	for s.at < len(s.text) && !strings.HasPrefix(s.text[s.at:], mark) {
		if s.text[s.at] == '\n' && len(mark) == 1 && c != '`' && s.language != Rust {
			return // never closed
		}
		if s.text[s.at] == '\\' && c != '`' {
			s.move(1)
		}
		s.move(1)
	}
	s.move(len(mark))
}

// number takes a number with its separators, base and suffix. A point or an
// exponent makes it no literal of ours; it is taken whole all the same.
func (s *scanner) number() string {
	start := s.at
	for s.at < len(s.text) {
		c := s.text[s.at]
		separator := c == '\'' && s.language == CPP && s.at+1 < len(s.text) && (digit(s.text[s.at+1]) || letter(s.text[s.at+1]))
		if !digit(c) && !letter(c) && c != '.' && !separator {
			break
		}
		s.move(1)
	}
	return s.text[start:s.at]
}
