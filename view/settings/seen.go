package settings

import (
	"slices"
	"strings"
)

// seenFile lists what was seen, a word a line.
const seenFile = "seen"

// Seen says whether something that is shown only once, as a walk-through, was
// seen before. Where that can not be read it was not.
func (f Folder) Seen(what string) bool { return slices.Contains(f.seen(), what) }

// See keeps that something was seen. An error says why that could not be kept;
// it is then shown again, and nothing else comes of it.
func (f Folder) See(what string) error {
	before := f.seen()
	if slices.Contains(before, what) {
		return nil
	}
	return f.write(seenFile, []byte(strings.Join(append(before, what), "\n")+"\n"))
}

// Forget takes back that something was seen.
func (f Folder) Forget(what string) error {
	before := f.seen()
	if !slices.Contains(before, what) {
		return nil
	}
	var left strings.Builder
	for _, word := range before {
		if word != what {
			left.WriteString(word + "\n")
		}
	}
	return f.write(seenFile, []byte(left.String()))
}

func (f Folder) seen() []string {
	text, err := f.Read(seenFile)
	if err != nil {
		return nil
	}
	return strings.Fields(string(text))
}
