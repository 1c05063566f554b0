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

var endings = map[string]Language{
	".c": C, ".h": C, ".cpp": CPP, ".cc": CPP, ".cxx": CPP, ".hpp": CPP, ".hh": CPP, ".ino": CPP,
	".go": Go, ".rs": Rust, ".py": Python, ".txt": Plain, ".csv": Plain,
}

// LanguageOf tells the language by the file's ending, else by its content.
func LanguageOf(fileName string, text []byte) Language {
	if l, ok := endings[strings.ToLower(filepath.Ext(fileName))]; ok {
		return l
	}
	s := string(text)
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(s, w) {
				return true
			}
		}
		return false
	}
	switch {
	case has("fn ", "let ", ": [[u8", ": [u8", "vec!"):
		return Rust
	case has("package ", ":=") || has("var ") && has("{"):
		return Go
	case has("{") && has(";", "#include", "#define"):
		return C
	case has("[", "(") && has("="):
		return Python
	case has("{"):
		return C
	}
	return Plain
}
