package keys

import "strings"

// Fill puts keys into words that name them by what they do: {walk.next} becomes
// the first key that of gives for the word next of the place walk. What names no
// key stays as it is.
func Fill(words string, of func(place, word string) []string, ascii bool) string {
	for from := 0; ; {
		open := strings.IndexByte(words[from:], '{')
		if open < 0 {
			return words
		}
		open += from
		end := strings.IndexByte(words[open:], '}')
		if end < 0 {
			return words
		}
		place, word, ok := strings.Cut(words[open+1:open+end], ".")
		from = open + 1
		if !ok {
			continue
		}
		if names := of(place, word); names != nil {
			mark := Mark(names[0], ascii)
			words = words[:open] + mark + words[open+end+1:]
			from = open + len(mark)
		}
	}
}

// In looks keys up in groups, for Fill.
func In(groups []Group) func(place, word string) []string {
	return func(place, word string) []string {
		if g := find(groups, place); g != nil {
			return g.Of(word)
		}
		return nil
	}
}
