//go:build linux || darwin

package main

import (
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// readmeCommands are the commands of the README, as they stand there.
func readmeCommands(t *testing.T) (lines []string) {
	t.Helper()
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?m)^    ((?:printf .*\| |zcat .*\| )?coilwalk\b.*)$`).FindAllStringSubmatch(string(readme), -1) {
		lines = append(lines, m[1])
	}
	if len(lines) < 55 {
		t.Fatalf("only %d commands", len(lines))
	}
	return lines
}

// readmeFolder has the files that they name.
func readmeFolder(t *testing.T) string {
	t.Helper()
	folder := benchFolder(t)
	put := func(name string, text []byte) {
		if err := os.WriteFile(filepath.Join(folder, name), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	pins, err := os.ReadFile(filepath.Join(folder, "pins.vcd"))
	if err != nil {
		t.Fatal(err)
	}
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	if _, err := w.Write(pins); err != nil || w.Close() != nil {
		t.Fatal(err)
	}
	put("pins.vcd.gz", packed.Bytes())
	put("pins.csv", []byte("IN1,IN2,IN3,IN4\n"+strings.Repeat(strings.Repeat("1,0,0,0\n", 40)+strings.Repeat("0,1,0,0\n", 40)+strings.Repeat("0,0,1,0\n", 40)+strings.Repeat("0,0,0,1\n", 40), 20)))
	return folder
}

// screenOpens are the commands of the README that open the screen.
var screenOpens = regexp.MustCompile(`^coilwalk( --motor \S+)?( [a-z-]+\.\w+)?( --motor \S+)?$`)

// Every command of the README runs as it stands there, on files of those names: it
// answers, or finds something, and says nothing of an error; what opens the screen
// opens it, and what writes a file has written it.
func TestEveryCommandOfTheREADME(t *testing.T) {
	folder := readmeFolder(t)
	answers := map[string]string{"BK,RD,GN,BU": "kick BK RD cw\n", "BK/GN": "kick BK TQ cw\n", "BN,WH": "kick BN WH cw\n"}
	for _, line := range readmeCommands(t) {
		command := strings.TrimSpace(regexp.MustCompile(`\s+#.*$`).ReplaceAllString(line, ""))
		for part, text := range answers {
			if strings.Contains(command, part) {
				if err := os.WriteFile(filepath.Join(folder, "answers.txt"), []byte(text), 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
		switch {
		case screenOpens.MatchString(command):
			x := open(t, "/bin/sh", 80, 24, "-c", `cd "$0" && exec ./`+command, folder)
			x.shows("q quit")
			x.press("q")
			if status := x.ends(); status != 0 {
				t.Errorf("%s: status %d: %s", command, status, x.errs.String())
			}
			continue
		case strings.Contains(command, "motors new"): // it asks: TestMotorsNewAsksAndWrites
			continue
		}
		out, errs, status := typedLine(t, folder, command)
		if status != exitDone && status != exitFinding || errs != "" {
			t.Errorf("%s: status %d: %s", command, status, errs)
		}
		to := regexp.MustCompile(`(?:--out|>|--plot) (\S+)`).FindStringSubmatch(command)
		if to == nil {
			if len(out) < 40 {
				t.Errorf("%s answers %q", command, out)
			}
			continue
		}
		if info, err := os.Stat(filepath.Join(folder, to[1])); err != nil || info.Size() < 40 {
			t.Errorf("%s: %v", command, err)
		}
		if to[1] != "keys.toml" {
			os.Remove(filepath.Join(folder, to[1])) // another example writes one of that name
		}
	}
}
