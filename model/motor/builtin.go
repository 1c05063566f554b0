package motor

import (
	"embed"
	"fmt"
)

//go:embed builtin/*.toml
var builtIn embed.FS

// Default is the built-in motor that the explorer opens on.
const Default = "vent-flap"

// Names lists the built-in motors, the default first.
func Names() []string {
	return []string{Default, "geared-can", "can-48", "hybrid-4", "hybrid-6", "hybrid-8"}
}

// BuiltIn gives a built-in motor by its name.
func BuiltIn(name string) (Motor, bool) {
	for _, n := range Names() {
		if n != name {
			continue
		}
		file := "builtin/" + n + ".toml"
		text, err := builtIn.ReadFile(file)
		if err == nil {
			var m Motor
			if m, err = Parse(file, text); err == nil {
				return m, true
			}
		}
		panic(fmt.Sprintf("the built-in motor %s is broken: %v", n, err)) // a test opens each
	}
	return Motor{}, false
}
