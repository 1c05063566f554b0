package table

import "strings"

// quotes says whether a string or a character begins here.
func (s *scanner) quotes() bool {
	switch c := s.text[s.at]; c {
	case '"':
		return true
	case '`':
		return s.language == Go
	case '\'':
		if s.language != Rust {
			return true
		}
		// In Rust it may be the mark of a lifetime: 'a
		rest := s.rest()[1:]
		if strings.HasPrefix(rest, "\\") {
			return true
		}
		end := strings.IndexByte(rest[:min(len(rest), 5)], '\'') // one character is at most four bytes
		return end > 0 && len([]rune(rest[:end])) == 1
	case 'R':
		return s.language == CPP && s.starts(`R"`)
	case 'r':
		return s.language == Rust && (s.starts(`r"`) || s.starts(`r#"`) || s.starts(`r##"`))
	}
	return false
}

// quote skips a string and gives what it holds.
func (s *scanner) quote() string {
	from := place{"string", s.line, s.column}
	c := s.text[s.at]
	closing, escapes, lines := string(c), c != '`', c == '`' || s.language == Rust
	opening := closing
	switch {
	case c == 'R': // R"name( … )name"
		paren := strings.IndexByte(s.rest()[:min(len(s.rest()), 20)], '(') // the name is at most 16 characters
		if paren < 0 {
			s.move(2)
			return ""
		}
		opening = s.rest()[:paren+1]
		closing, escapes, lines = ")"+opening[2:paren]+`"`, false, true
	case c == 'r': // r#" … "#
		opening = s.rest()[:strings.IndexByte(s.rest(), '"')+1]
		closing, escapes, lines = `"`+opening[1:len(opening)-1], false, true
	case s.language == Python && s.starts(strings.Repeat(closing, 3)):
		closing = strings.Repeat(closing, 3)
		opening, lines = closing, true
	}
	s.move(len(opening))
	start := s.at
	for s.at < len(s.text) && !s.starts(closing) {
		if s.text[s.at] == '\n' && !lines {
			return s.text[start:s.at] // never closed; the next line is read again
		}
		if s.text[s.at] == '\\' && escapes {
			s.move(1)
		}
		s.move(1)
	}
	held := s.text[start:s.at]
	if s.at == len(s.text) {
		s.open = from
	}
	s.move(len(closing))
	return held
}
