// Package appear keeps the program from asking the terminal for its background
// colour. The terminal library asks while it is initialised, and on a terminal
// that never answers that takes five seconds, even for --version. Setting the
// answer beforehand keeps it from asking; ours is chosen with --theme.
//
// Go initialises packages that are ready in the order of their import paths,
// and this one sorts before the library's. A test holds the time.
package appear

import "github.com/charmbracelet/lipgloss"

var _ = dark()

func dark() bool {
	lipgloss.SetHasDarkBackground(true)
	return true
}
