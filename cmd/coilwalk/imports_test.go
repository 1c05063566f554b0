package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// The house: a package may import only what stands after it here, and within
// model only what stands before it.
var house = []string{"cmd", "view", "model", "sequence"}

var modelOrder = []string{"files", "quantity", "motor", "driver", "rotor", "power", "wiring", "table", "recording", "course", "travel", "handoff", "live", "bench"}

var viewOrder = []string{"appear", "picture", "action", "keys", "settings", "terms", "trouble", "report", "tour", "practice", "opened", "sheet", "hold", "plain", ""}

func TestImportsRunOneWay(t *testing.T) {
	checked := 0
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && path != "../.." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		from, err := filepath.Rel("../..", filepath.Dir(path))
		if err != nil {
			return err
		}
		for _, spec := range file.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			if to, ours := strings.CutPrefix(name, "coilwalk/"); ours {
				checked++
				if wrong := against(filepath.ToSlash(from), to); wrong != "" {
					t.Errorf("%s imports %s: %s", path, name, wrong)
				}
			} else if strings.HasPrefix(filepath.ToSlash(from), "sequence") && strings.Contains(name, ".") {
				t.Errorf("%s imports %s: sequence needs no library", path, name)
			} else if strings.HasPrefix(filepath.ToSlash(from), "model") && strings.Contains(name, "charmbracelet") {
				t.Errorf("%s imports %s: the model knows no screen", path, name)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if checked < 20 {
		t.Errorf("only %d imports were looked at: the walk went astray", checked)
	}
}

// against says why from may not import to; "" when it may.
func against(from, to string) string {
	a, b := top(from), top(to)
	switch {
	case place(house, a) < 0 || place(house, b) < 0:
		return "not in the list of the house"
	case place(house, a) > place(house, b):
		return "imports run cmd, view, model, sequence"
	case a != b:
		return ""
	case a == "model":
		if within(modelOrder, from, "model/") <= within(modelOrder, to, "model/") {
			return "within model each may import only those before it"
		}
	case a == "view":
		if within(viewOrder, from, "view") <= within(viewOrder, to, "view") {
			return "within view each may import only those before it"
		}
	}
	return ""
}

func top(path string) string { return strings.SplitN(path, "/", 2)[0] }

func within(order []string, path, prefix string) int {
	return place(order, strings.TrimPrefix(strings.TrimPrefix(path, prefix), "/"))
}

func place(list []string, word string) int {
	for i, w := range list {
		if w == word {
			return i
		}
	}
	return -1
}

// The list above is held against the tree, so that a new package is put in.
func TestEveryPackageIsInTheHouse(t *testing.T) {
	for folder, order := range map[string][]string{"../../model": modelOrder, "../../view": viewOrder} {
		entries, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if e.IsDir() && place(order, e.Name()) < 0 {
				t.Errorf("%s/%s is not in the list of packages", folder, e.Name())
			}
		}
	}
}
