package table

import (
	"strconv"
	"strings"
)

// literal is one number of a source text.
type literal struct {
	text         string
	line, column int
	value        int64
	valued       bool   // the language gives it a value
	digits       string // its digits when they are all 0 or 1 and no base is named; else ""
}

// words that stand for a level in firmware.
var levelWords = map[string]int64{"HIGH": 1, "LOW": 0, "true": 1, "false": 0, "True": 1, "False": 0}

// readWord gives the literal that a word stands for: a level, or a binary
// constant of the kind B1010 that C frameworks define.
func readWord(word string, l Language) (lit literal, ok bool) {
	lit.text = word
	if v, known := levelWords[word]; known {
		lit.value, lit.valued = v, true
		return lit, true
	}
	if (l == C || l == CPP) && len(word) > 1 && len(word) <= 9 && word[0] == 'B' && strings.Trim(word[1:], "01") == "" {
		v, err := strconv.ParseInt(word[1:], 2, 64)
		lit.value, lit.valued = v, err == nil
		return lit, true
	}
	return literal{}, false
}

// readNumber gives a number the value that its language gives it. A leading 0
// is octal in C and C++ (C11 6.4.4.1, C++17 5.13.2) and in Go (language
// specification, Integer literals), decimal in Rust (reference, Integer
// literals), and no number at all in Python (language reference 2.4.5). All
// from memory.
func readNumber(text string, l Language) literal {
	lit := literal{text: text}
	plain := strings.NewReplacer("'", "", "_", "").Replace(text)
	plain = withoutSuffix(plain, l)
	if plain != "" && strings.Trim(plain, "01") == "" {
		lit.digits = plain
	}
	base, digits := 10, plain
	if len(plain) > 1 && plain[0] == '0' {
		switch plain[1] {
		case 'x', 'X':
			base, digits = 16, plain[2:]
		case 'b', 'B':
			base, digits = 2, plain[2:]
		case 'o', 'O':
			if l == C || l == CPP {
				return lit
			}
			base, digits = 8, plain[2:]
		default:
			switch l {
			case C, CPP, Go:
				base, digits = 8, plain[1:]
			case Python:
				if strings.Trim(plain, "0") != "" {
					return lit
				}
			}
		}
	}
	v, err := strconv.ParseInt(digits, base, 64)
	lit.value, lit.valued = v, err == nil
	return lit
}

// withoutSuffix drops what says the type of a number: UL, u8.
func withoutSuffix(text string, l Language) string {
	switch l {
	case C, CPP:
		return strings.TrimRight(text, "uUlLzZ")
	case Rust:
		if strings.HasPrefix(text, "0x") || strings.HasPrefix(text, "0b") || strings.HasPrefix(text, "0o") {
			if i := strings.IndexAny(text, "iu"); i > 0 {
				return text[:i]
			}
			return text
		}
		if i := strings.IndexAny(text, "iu"); i > 0 {
			return text[:i]
		}
	}
	return text
}
