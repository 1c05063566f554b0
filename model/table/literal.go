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
	base         int    // in which it is written; 0 for a word
	digits       string // its digits when they are all 0 or 1 and no base is named; else ""
	span
}

func (l literal) isLevel() bool { return l.valued && (l.value == 0 || l.value == 1) }

// levelWords stand for a level in firmware.
var levelWords = map[string]int64{"HIGH": 1, "LOW": 0, "High": 1, "Low": 0, "true": 1, "false": 0, "True": 1, "False": 0}

// readWord gives the literal that a word stands for: a level, perhaps of a
// named kind as in pin.HIGH, or a binary constant as B1010, which some C
// libraries define for up to eight digits.
func readWord(word string, l Language) (lit literal, ok bool) {
	lit.text = word
	if v, known := levelWords[lastPart(word)]; known {
		lit.value, lit.valued = v, true
		return lit, true
	}
	if (l.likeC() || l == Plain) && len(word) > 1 && len(word) <= 9 && word[0] == 'B' && strings.Trim(word[1:], "01") == "" {
		v, err := strconv.ParseInt(word[1:], 2, 64)
		lit.value, lit.valued, lit.base = v, err == nil, 2
		return lit, true
	}
	return literal{}, false
}

// lastPart is the name itself in a path as self.rows or Motor::rows.
func lastPart(path string) string {
	return path[strings.LastIndexAny(path, ".:")+1:]
}

// readNumber gives a number the value that its language gives it. All sources
// from memory:
//
//	C11 6.4.4.1, integer constants: a leading 0 is octal; C23 adds 0b and the ' between digits
//	C++17 [lex.icon]: the same, with 0b and '; there is no 0o
//	Go specification, integer literals: a leading 0 or 0o is octal; _ between digits
//	Rust reference, integer literals: a leading 0 is decimal; 0x, 0o and 0b in small letters only
//	Python language reference 2.4.5: leading zeros are not allowed, but for 0 itself
//
// Plain text is in no language; a leading 0 changes nothing there.
func readNumber(text string, l Language) literal {
	lit := literal{text: text, base: 10}
	plain := text
	switch l {
	case C, CPP:
		plain = strings.TrimRight(strings.ReplaceAll(plain, "'", ""), "uUlLzZ")
	case Rust:
		plain = withoutRustSuffix(strings.ReplaceAll(plain, "_", ""))
	default:
		plain = strings.ReplaceAll(plain, "_", "")
	}
	if plain != "" && strings.Trim(plain, "01") == "" {
		lit.digits = plain
	}
	digits := plain
	if len(plain) > 1 && plain[0] == '0' {
		switch c := plain[1]; {
		case c == 'x' || c == 'X' && l != Rust:
			lit.base, digits = 16, plain[2:]
		case c == 'b' || c == 'B' && l != Rust:
			lit.base, digits = 2, plain[2:]
		case (c == 'o' || c == 'O' && l != Rust) && !l.likeC():
			lit.base, digits = 8, plain[2:]
		case l.likeC() || l == Go:
			lit.base, digits = 8, plain[1:]
		case l == Python && strings.Trim(plain, "0") != "":
			return lit
		}
	}
	if digits != "" && (digits[0] == '-' || digits[0] == '+') { // ParseInt would take a sign
		return lit
	}
	v, err := strconv.ParseInt(digits, lit.base, 64)
	lit.value, lit.valued = v, err == nil
	return lit
}

// withoutRustSuffix drops the type at the end of a number: 7u8, 0x1Fusize. No
// digit of any base is an i or a u.
func withoutRustSuffix(text string) string {
	if i := strings.IndexAny(text, "iu"); i > 0 {
		return text[:i]
	}
	return text
}

// leadingZero says whether a literal of 0s and 1s is octal only because it
// begins with 0: most people who write 0110 mean a pattern of bits.
func (l literal) leadingZero() bool {
	return l.base == 8 && l.valued && l.value > 1 && len(l.digits) > 2
}
