package main

import (
	"runtime/debug"
	"testing"
)

func TestVersion(t *testing.T) {
	built := func(version string, settings ...debug.BuildSetting) *debug.BuildInfo {
		return &debug.BuildInfo{GoVersion: "go1.99", Main: debug.Module{Version: version}, Settings: settings}
	}
	commit := debug.BuildSetting{Key: "vcs.revision", Value: "0123456789abcdef0123456789abcdef01234567"}
	day := debug.BuildSetting{Key: "vcs.time", Value: "2026-03-04T05:06:07Z"}
	for _, c := range []struct {
		info *debug.BuildInfo
		want string
	}{
		{built("v1.2.3", commit, day), "v1.2.3, commit 0123456789ab of 2026-03-04, go1.99"},
		{built("(devel)", commit, day, debug.BuildSetting{Key: "vcs.modified", Value: "true"}), "(built from source), commit 0123456789ab of 2026-03-04 with changes, go1.99"},
		{built(""), "(built from source), go1.99"},
		{built("v1.2.3"), "v1.2.3, go1.99"}, // by go install
	} {
		if got := version(c.info, true); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
