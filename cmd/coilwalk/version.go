package main

import (
	"runtime/debug"
	"strings"
)

// version says what the build recorded of itself: the version, the commit and
// the day of that, and the Go that built it.
func version(info *debug.BuildInfo, ok bool) string {
	if !ok {
		return "(built without a record of what of)"
	}
	of := map[string]string{}
	for _, s := range info.Settings {
		of[s.Key] = s.Value
	}
	text := info.Main.Version
	if text == "" || text == "(devel)" {
		text = "(built from source)"
	}
	if commit := of["vcs.revision"]; commit != "" {
		day, _, _ := strings.Cut(of["vcs.time"], "T")
		text += ", commit " + commit[:min(12, len(commit))] + " of " + day
		if of["vcs.modified"] == "true" {
			text += " with changes"
		}
	}
	return text + ", " + info.GoVersion
}
