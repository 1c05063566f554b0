package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// What DEVELOPERS.md names is there: each test, each file, each package of the
// house.
func TestDevelopersNamesWhatThereIs(t *testing.T) {
	doc, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	tests, names, folders := map[string]bool{}, map[string]bool{}, map[string]bool{}
	var source []string
	declared := regexp.MustCompile(`(?m)^func ((?:Test|Fuzz|Benchmark)\w+)\(`)
	err = filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && d.Name() == ".git":
			return filepath.SkipDir
		case d.IsDir():
			folders[d.Name()] = true
		default:
			names[d.Name()] = true
			if strings.HasSuffix(path, ".go") {
				source = append(source, path)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range source {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range declared.FindAllSubmatch(text, -1) {
			tests[string(m[1])] = true
		}
	}
	found := 0
	for _, m := range regexp.MustCompile("`((?:Test|Fuzz|Benchmark)\\w+)`").FindAllSubmatch(doc, -1) {
		if found++; !tests[string(m[1])] {
			t.Errorf("there is no test %s", m[1])
		}
	}
	for _, m := range regexp.MustCompile("`(?:\\w+/)*(\\w+\\.(?:go|tmpl|c|toml))`").FindAllSubmatch(doc, -1) {
		if found++; !names[string(m[1])] && string(m[1]) != "keys.toml" && string(m[1]) != "settings.toml" {
			t.Errorf("there is no file %s", m[1])
		}
	}
	house := string(doc[:strings.Index(string(doc), "Imports run cmd")])
	told := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^ {4,6}([\w/]+)/ `).FindAllStringSubmatch(house, -1) {
		name := filepath.Base(m[1])
		told[name] = true
		if found++; !folders[name] {
			t.Errorf("there is no folder %s", m[1])
		}
	}
	for _, name := range append(append([]string(nil), modelOrder...), viewOrder...) {
		if name != "" && !told[name] {
			t.Errorf("the house does not tell of the package %s", name)
		}
	}
	if found < 80 {
		t.Errorf("only %d names were found: the text or this test has changed its form", found)
	}
}
