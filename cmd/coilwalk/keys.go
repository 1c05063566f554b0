package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"coilwalk/model/files"
	"coilwalk/view"
	"coilwalk/view/keys"
	"coilwalk/view/report"
	"coilwalk/view/settings"
)

func (p *program) keysCommand() *cobra.Command {
	var check bool
	c := &cobra.Command{
		Use:   "keys [FILE]",
		Short: "List the keys of the explorer, and check a file that gives others",
		Long: `List which key does what on each screen of the explorer, as a file that can be
saved and changed. Keys are named as the screen shows them: "right", "enter",
"ctrl+n", "R". Without a FILE those count that stand in keys.toml in the folder of
settings: $COILWALK_CONFIG, else coilwalk in $XDG_CONFIG_HOME, else coilwalk where
the system keeps settings. Ends with status 2 when the file is wrong.`,
		Example: "  coilwalk keys > keys.toml\n  coilwalk keys --check keys.toml",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return errors.New("one file of keys is wanted at most")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			file := ""
			if len(args) == 1 {
				file = args[0]
			}
			groups, from, err := p.keys(file)
			if err != nil {
				return err
			}
			answer := report.NewKeys(groups, from, settings.Find().Name(keys.File))
			if check && !p.json {
				_, err := fmt.Fprintln(p.out, checked(from))
				return err
			}
			return p.tell(answer)
		},
	}
	c.Flags().BoolVar(&check, "check", false, "only say whether the file is right")
	return c
}

// checked says what was found right.
func checked(file string) string {
	if file == "" {
		return "There is no file of keys: all have the keys that they came with."
	}
	return files.Shown(file) + ": every line of it gives a key."
}

// keys gives the keys that count, and the file that gave some of them; "" for
// none. A name "" stands for the file in the folder of settings.
func (p *program) keys(name string) (groups []keys.Group, from string, err error) {
	groups = view.Keys()
	var text []byte
	if from = files.Called(name); name == "" {
		folder := settings.Find()
		from = folder.Name(keys.File)
		if text, err = folder.Read(keys.File); text == nil && err == nil {
			return groups, "", nil
		}
	} else {
		text, err = files.Read(name, settings.Longest, p.in)
	}
	if err != nil {
		return nil, from, err
	}
	groups, err = keys.Read(from, text, groups)
	return groups, from, err
}
