package view

import "strings"

// class is what a letter of a file belongs to.
type class uint8

const (
	plainly class = iota
	commented
	keyword
	numeral
	quoted
)

// language is what tells the classes apart in one kind of file, as far as our own
// files go.
type language struct {
	lines       []string // marks that begin a comment to the end of its line
	open, close string   // marks about a comment over lines
	quotes      string   // marks about a string within a line
	triple      bool     // three quotes are about a comment over lines
	names       bool     // a string before a colon is a name
	headings    bool     // a line that begins with # is a heading
	marks       string   // that a keyword may begin with
	stamp       byte     // stands before a number that is a time
	words       map[string]bool
}

func wordsOf(list string) map[string]bool {
	words := map[string]bool{}
	for _, word := range strings.Fields(list) {
		words[word] = true
	}
	return words
}

// languages by the names of kinds; others have numbers only.
var languages = map[string]language{
	"c":           cLike,
	"cpp":         cLike,
	"firmware":    cLike,
	"rust":        {lines: []string{"//"}, open: "/*", close: "*/", quotes: `"`, words: wordsOf("as bool const else enum false fn for i16 i32 i64 if impl in let loop match mod mut pub return self struct true u16 u32 u64 u8 use usize while")},
	"python":      {lines: []string{"#"}, quotes: `"'`, triple: true, words: pythonWords},
	"micropython": {lines: []string{"#"}, quotes: `"'`, triple: true, words: pythonWords},
	"csv":         {lines: []string{"#"}, quotes: `"`},
	"json":        {quotes: `"`, names: true, words: wordsOf("true false null")},
	"vcd":         {open: "$comment", close: "$end", marks: "$", stamp: '#', words: wordsOf("$date $dumpvars $end $enddefinitions $scope $timescale $upscope $var $version")},
	"markdown":    {headings: true},
}

var (
	cLike  = language{lines: []string{"//"}, open: "/*", close: "*/", quotes: `"'`, marks: "#", words: cWords}
	cWords = wordsOf("#define #else #endif #if #ifdef #ifndef #include bool break case char class const constexpr continue default do else enum extern false for if inline int " +
		"int16_t int32_t int8_t long namespace private public return short signed sizeof static struct switch true typedef uint16_t uint32_t uint8_t unsigned using void volatile while")
	pythonWords = wordsOf("False None True and as assert break class continue def del elif else except for from global if import in is lambda not or pass raise return try while with yield")
)

// classes gives the class of each byte of a text.
func (l language) classes(text string) []class {
	all := make([]class, len(text))
	for at := 0; at < len(text); {
		end, is := l.token(text, at)
		for k := at; k < end; k++ {
			all[k] = is
		}
		at = end
	}
	return all
}

// token gives where what begins at a place ends, at least a byte on, and what it is.
func (l language) token(text string, at int) (end int, is class) {
	rest := text[at:]
	first := at == 0 || text[at-1] == '\n'
	if l.headings && first && rest[0] == '#' {
		return lineEnd(text, at), keyword
	}
	if l.open != "" && strings.HasPrefix(rest, l.open) {
		return after(text, at+len(l.open), l.close), commented
	}
	for _, mark := range l.lines {
		if strings.HasPrefix(rest, mark) {
			return lineEnd(text, at), commented
		}
	}
	switch c := rest[0]; {
	case l.triple && strings.HasPrefix(rest, `"""`):
		return after(text, at+3, `"""`), commented
	case strings.IndexByte(l.quotes, c) >= 0:
		end = stringEnd(text, at)
		if l.names && end < len(text) && text[end] == ':' {
			return end, keyword
		}
		return end, quoted
	case c == l.stamp && c != 0 && at+1 < len(text) && digit(text[at+1]):
		return wordEnd(text, at+1), numeral
	case digit(c):
		return wordEnd(text, at), numeral
	case letter(c), strings.IndexByte(l.marks, c) >= 0:
		end = wordEnd(text, at+1)
		if l.words[text[at:end]] {
			return end, keyword
		}
		return end, plainly
	}
	return at + 1, plainly
}

func digit(c byte) bool  { return c >= '0' && c <= '9' }
func letter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_' }

// wordEnd gives where a word or a number ends: 0x0c, 16u and 0.5 are one.
func wordEnd(text string, at int) int {
	for at < len(text) && (letter(text[at]) || digit(text[at]) || text[at] == '.' && at > 0 && digit(text[at-1])) {
		at++
	}
	return at
}

// stringEnd gives where the string that begins here ends, at the end of its line
// where it is not closed.
func stringEnd(text string, at int) int {
	end := lineEnd(text, at)
	for k := at + 1; k < end; k++ {
		switch text[k] {
		case '\\':
			k++
		case text[at]:
			return k + 1
		}
	}
	return end
}

func lineEnd(text string, at int) int {
	if k := strings.IndexByte(text[at:], '\n'); k >= 0 {
		return at + k
	}
	return len(text)
}

// after gives the place after the next mark, or the end.
func after(text string, at int, mark string) int {
	if k := strings.Index(text[at:], mark); k >= 0 {
		return at + k + len(mark)
	}
	return len(text)
}
