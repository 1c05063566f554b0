package table

import (
	"path/filepath"
	"strings"
)

// Language is the language of a source text; it decides what a literal's value
// is and what a comment looks like.
type Language int

const (
	Plain Language = iota
	C
	CPP
	Go
	Rust
	Python
)

var languageNames = [...]string{Plain: "plain", C: "C", CPP: "C++", Go: "Go", Rust: "Rust", Python: "Python"}

// String gives the language's name.
func (l Language) String() string { return languageNames[l] }

// likeC are the languages with directives and the octal of a leading 0.
func (l Language) likeC() bool { return l == C || l == CPP }

// endings that say the language. A .txt may hold rows or a snippet of a
// program, so it says nothing.
var endings = map[string]Language{
	".c": C, ".h": C, ".cpp": CPP, ".cc": CPP, ".cxx": CPP, ".hpp": CPP, ".hh": CPP, ".hxx": CPP, ".ino": CPP,
	".go": Go, ".rs": Rust, ".py": Python,
}

// LanguageOf tells the language by the file's ending, else by its content.
func LanguageOf(fileName string, text []byte) Language {
	if l, ok := endings[strings.ToLower(filepath.Ext(fileName))]; ok {
		return l
	}
	s, directives := bareText(string(text))
	if directives {
		if cppOnly(s) {
			return CPP
		}
		return C
	}
	for _, line := range strings.Split(s, "\n") {
		line = strings.TrimSpace(line)
		if l, ok := lineSays(line); ok {
			return l
		}
	}
	switch {
	case hasAny(s, "vec![", ": [u8", ": [[u8", ": &["):
		return Rust
	case hasAny(s, "]int{", "]byte{", "]uint8{", "]bool{"):
		return Go
	case strings.Contains(s, "{") && cppOnly(s):
		return CPP
	case strings.Contains(s, "{") && (strings.Contains(s, ";") || holdsList(s, "{")):
		return C
	case holdsList(s, "[("):
		return Python
	}
	return Plain
}

// lineSays tells a language by a line that only it has.
func lineSays(line string) (Language, bool) {
	words := strings.Fields(line)
	if len(words) < 2 {
		return Plain, false
	}
	switch words[0] {
	case "package":
		return Go, len(words) == 2 && !strings.HasSuffix(line, ";")
	case "func":
		return Go, strings.Contains(line, "(")
	case "fn", "use", "let":
		return Rust, hasAny(line, "(", ";", "=")
	case "pub":
		return Rust, true
	case "const", "static":
		return Rust, strings.Contains(line, ": [") || strings.Contains(line, ": &")
	case "var":
		return Go, hasAny(line, "=", "(")
	case "def", "class":
		return Python, strings.HasSuffix(line, ":")
	case "import":
		return Python, !hasAny(line, "\"", "(", ";")
	case "from":
		return Python, words[len(words)-2] == "import" || strings.Contains(line, " import ")
	}
	return Go, strings.Contains(line, ":=") && strings.Contains(line, "{")
}

func cppOnly(s string) bool {
	return hasAny(s, "constexpr", "std::", "namespace ", "template<", "template <", "public:", "private:")
}

// holdsList says whether one of the brackets opens before a digit, a bracket or
// a level, as in a list; a name as A(+) does not.
func holdsList(s, brackets string) bool {
	for i := range len(s) {
		if strings.IndexByte(brackets, s[i]) < 0 {
			continue
		}
		rest := strings.TrimLeft(s[i+1:min(len(s), i+80)], " \t\n")
		if rest == "" {
			continue
		}
		if digit(rest[0]) || opens(rest[0]) {
			return true
		}
		for word := range levelWords {
			if strings.HasPrefix(rest, word) {
				return true
			}
		}
	}
	return false
}

func hasAny(s string, parts ...string) bool {
	for _, p := range parts {
		if strings.Contains(s, p) {
			return true
		}
	}
	return false
}

// bareText drops comments and strings of every language, so that a word in a
// remark does not decide, and says whether there are directives of C.
func bareText(s string) (bare string, directives bool) {
	var b strings.Builder
	to := func(at int, mark string) int {
		if end := strings.Index(s[at:], mark); end >= 0 {
			return at + end
		}
		return len(s)
	}
	begun := false // something stands before this place in its line
	for i := 0; i < len(s); {
		rest := s[i:]
		switch c := s[i]; {
		case c == '#' && !begun && directive(rest):
			directives = true
			i = to(i, "\n")
			continue
		case c == '#' && !strings.HasPrefix(rest, "#[") && !strings.HasPrefix(rest, "#!["), strings.HasPrefix(rest, "//"):
			i = to(i, "\n")
			continue
		case strings.HasPrefix(rest, "/*"):
			i = min(len(s), to(i+2, "*/")+2)
			continue
		case c == '"':
			i++
			for i < len(s) && s[i] != '"' && s[i] != '\n' {
				i++
			}
			i = min(len(s), i+1)
			b.WriteByte('_') // where a string was, something stands
			begun = true
			continue
		case c == '\n':
			begun = false
		case c != ' ' && c != '\t':
			begun = true
		}
		b.WriteByte(s[i])
		i++
	}
	return b.String(), directives
}

// directive says whether a line that begins with # is one of C's.
func directive(line string) bool {
	word := line[1:min(len(line), 64)] // a blank after the # is how remarks are written
	for _, d := range []string{"include", "define", "ifdef", "ifndef", "if ", "endif", "pragma", "undef"} {
		if strings.HasPrefix(word, d) {
			rest := word[len(d):]
			return d == "if " || rest == "" || !letter(rest[0])
		}
	}
	return false
}
