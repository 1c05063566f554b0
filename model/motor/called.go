package motor

import (
	"path/filepath"
	"strings"

	"coilwalk/model/files"
)

// The most characters that a motor is called and described by.
const (
	longestName   = 32
	longestTitle  = 60
	longestOrigin = 300
)

// The advice on each.
const (
	NameWanted   = "one word of at most 32 characters is wanted"
	TitleWanted  = "at most 60 plain characters are wanted"
	OriginWanted = "at most 300 plain characters on one line are wanted"
)

// CalledAfter gives the motor the name of a file that it is written to.
func (m Motor) CalledAfter(file string) Motor {
	m.Name = strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	if !IsName(m.Name) {
		m.Name = "mine"
	}
	m.Title = m.Name
	return m
}

// IsName says whether a motor can be called so on a command line.
func IsName(text string) bool {
	return text != "" && !strings.ContainsAny(text, " \t\r\n") && printable(text, longestName)
}

// IsTitle says whether a motor can be called so on a screen.
func IsTitle(text string) bool { return printable(text, longestTitle) }

// IsOrigin says whether that can be said of where a motor's figures come from.
func IsOrigin(text string) bool { return printable(text, longestOrigin) }

// printable says whether a text has at most so many characters, none of which could
// steer a terminal.
func printable(text string, longest int) bool {
	return len([]rune(text)) <= longest && files.Shown(text) == text
}
