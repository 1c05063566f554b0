package main

import (
	"os"
	"path/filepath"
	"strings"

	"github.com/muesli/termenv"
	"github.com/spf13/cobra"

	"coilwalk/view"
	"coilwalk/view/picture"
	"coilwalk/view/settings"
)

// looks are the options of how the screen looks.
func (x *explorer) looks(c *cobra.Command) {
	x.theme = choice{"auto", settings.Themes}
	x.color = choice{"auto", settings.Colors}
	c.Flags().BoolVar(&x.ascii, "ascii", false, "draw with ASCII marks only")
	c.Flags().BoolVar(&x.still, "no-animation", false, "show the rotor at its rests only")
	c.Flags().Var(&x.theme, "theme", "colours for a dark or a light terminal: auto, dark or light")
	c.Flags().Var(&x.color, "color", "auto (none with NO_COLOR), always or never")
}

// settings puts together how the explorer looks and moves, and which keys it has:
// options count first, then what a person has set, then what the terminal says.
// What is wrong with a file of settings is told in the explorer, and does no harm.
func (x *explorer) settings(c *cobra.Command, out *os.File, terminal *view.Outlet) view.Settings {
	s := view.Settings{Theme: picture.Dark, ASCII: x.ascii, Still: x.still, Terminal: terminal}
	var wrong []string
	groups, _, err := x.keys("")
	if err != nil {
		wrong = append(wrong, "keys left as they came: "+briefly(err))
	}
	s.Keys = groups
	look, err := set()
	if err != nil {
		wrong = append(wrong, briefly(err))
	}
	s.Notice = strings.Join(wrong, "; ")
	theme, color := x.theme.value, x.color.value
	if !c.Flags().Changed("theme") && look.Theme != "" {
		theme = look.Theme
	}
	if !c.Flags().Changed("color") && look.Color != "" {
		color = look.Color
	}
	if !c.Flags().Changed("ascii") && look.ASCII != nil {
		s.ASCII = *look.ASCII
	}
	if !c.Flags().Changed("no-animation") && look.Animation != nil {
		s.Still = !*look.Animation
	}
	if theme == "light" || theme == "auto" && lightBackground(os.Getenv("COLORFGBG")) {
		s.Theme = picture.Light
	}
	switch {
	case color == "never", color == "auto" && os.Getenv("NO_COLOR") != "":
		s.Depth = picture.NoColour
	default:
		// That it is a terminal is known here; left to look for itself the library takes
		// one for none wherever CI is set.
		s.Depth = depth(termenv.NewOutput(out, termenv.WithTTY(true)).ColorProfile(), color == "always")
	}
	return s
}

// briefly tells an error in few words: of a file in the folder of settings only its
// name, for the screen may be narrow.
func briefly(err error) string {
	return oneLine(strings.ReplaceAll(err.Error(), settings.Find().Name("")+string(filepath.Separator), ""))
}

// set gives what a person has set.
func set() (settings.Look, error) {
	folder := settings.Find()
	text, err := folder.Read(settings.File)
	if err != nil {
		return settings.Look{}, err
	}
	return settings.ParseLook(folder.Name(settings.File), text)
}

// depth gives how many colours a terminal shows, as it says itself.
func depth(p termenv.Profile, always bool) picture.Depth {
	switch p {
	case termenv.TrueColor:
		return picture.TrueColour
	case termenv.ANSI256:
		return picture.Colours256
	case termenv.ANSI:
		return picture.Colours16
	}
	if always {
		return picture.Colours16
	}
	return picture.NoColour
}

// lightBackground reads the hint that some terminals leave in COLORFGBG:
// "text;background" by number, 7 and 15 being white.
func lightBackground(hint string) bool {
	n := len(hint)
	return n >= 2 && (hint[n-2:] == ";7" || n >= 3 && hint[n-3:] == ";15")
}
