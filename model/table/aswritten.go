package table

import (
	"fmt"
	"math/bits"
	"strings"
)

// asWritten writes a number as a literal is written: in its base and as wide, with the
// marks between its digits and the type behind them.
func (l literal) asWritten(v uint64) string {
	text := l.text
	start := 0
	if l.base != 10 && len(text) > 2 && strings.ContainsRune("xXbBoO", rune(text[1])) {
		start = 2
	}
	if l.base == 2 && text[0] == 'B' {
		start = 1
	}
	kind := strings.TrimLeft(text[start:], "0123456789abcdefABCDEF_'")
	digits := text[start : len(text)-len(kind)]
	wide := len(strings.NewReplacer("_", "", "'", "").Replace(digits))
	switch {
	case strings.Contains(text, "<<") && bits.OnesCount64(v) == 1:
		return fmt.Sprintf("1<<%d", bits.TrailingZeros64(v))
	case strings.Contains(text, "<<"):
		return fmt.Sprintf("0x%02X", v)
	case l.base == 2:
		return text[:start] + parted(fmt.Sprintf("%0*b", wide, v), digits) + kind
	case l.base == 8 && start == 2:
		return text[:start] + fmt.Sprintf("%o", v) + kind
	case l.base == 8:
		return fmt.Sprintf("0%o", v) + kind
	case l.base == 16:
		return text[:start] + parted(fmt.Sprintf("%0*X", wide, v), digits) + kind
	}
	return fmt.Sprint(v) + kind
}

// parted puts the marks between digits that others have, counted from their end.
func parted(digits, like string) string {
	for back := 1; back < len(like) && back < len(digits)+1; back++ {
		if mark := like[len(like)-back]; mark == '_' || mark == '\'' {
			at := len(digits) - back + 1
			digits = digits[:at] + string(mark) + digits[at:]
		}
	}
	return strings.TrimLeft(digits, "_'")
}
