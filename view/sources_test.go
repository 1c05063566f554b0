package view

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// sources gives the text of the explorer's own files, without its tests.
func sources(t *testing.T) map[string]string {
	t.Helper()
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all[name] = string(text)
	}
	return all
}
