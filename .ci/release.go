//go:build ignore

// Release builds the archives that are given away, the same to the byte each time
// it is run on a commit: the program for each system, its manual, completions,
// the README, and the licences of all that is in it.
//
//	go run .ci/release.go -manual FOLDER -to FOLDER                      # all six, and SHA256SUMS
//	go run .ci/release.go -manual FOLDER -to FOLDER -system linux/amd64  # that one
//	go run .ci/release.go -licences                                      # holds the table in DEVELOPERS.md against what is built on
package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

var (
	systems  = []string{"linux", "darwin", "windows"}
	machines = []string{"amd64", "arm64"}
)

func main() {
	manual := flag.String("manual", "", "the folder of man pages and completions")
	to := flag.String("to", "", "where the archives go")
	one := flag.String("system", "", "one system only, as linux/amd64")
	only := flag.Bool("licences", false, "hold the table of modules in DEVELOPERS.md against the modules and their licences")
	flag.Parse()
	var err error
	if *only {
		err = judgeLicences("DEVELOPERS.md")
	} else {
		err = release(*manual, *to, *one)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// A part is a file of an archive.
type part struct {
	name string
	text []byte
	mode int64
}

func release(manual, to, one string) error {
	stamp, err := said("git", "log", "-1", "--format=%ct")
	if err != nil {
		return err
	}
	seconds, err := strconv.ParseInt(stamp, 10, 64)
	if err != nil {
		return err
	}
	when := time.Unix(seconds, 0).UTC()
	name, err := said("git", "describe", "--tags", "--always", "--dirty")
	if err != nil {
		return err
	}
	common, err := collect(manual)
	if err != nil {
		return err
	}
	var sums strings.Builder
	for _, system := range systems {
		for _, machine := range machines {
			if one != "" && one != system+"/"+machine {
				continue
			}
			folder := fmt.Sprintf("coilwalk-%s-%s-%s", strings.TrimPrefix(name, "v"), system, machine)
			parts, err := build(system, machine)
			if err != nil {
				return err
			}
			ending, pack := ".tar.gz", tarred
			if system == "windows" {
				ending, pack = ".zip", zipped
			}
			text, err := pack(folder, append(parts, common...), when)
			if err != nil {
				return err
			}
			if err := os.WriteFile(filepath.Join(to, folder+ending), text, 0o644); err != nil {
				return err
			}
			fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(text), folder+ending)
		}
	}
	if sums.Len() == 0 {
		return fmt.Errorf("nothing is built for %q", one)
	}
	fmt.Print(sums.String())
	return os.WriteFile(filepath.Join(to, "SHA256SUMS"), []byte(sums.String()), 0o644)
}

// collect reads what every archive has.
func collect(manual string) (parts []part, err error) {
	for _, file := range []string{"README.md", "LICENSE"} {
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		parts = append(parts, part{file, text, 0o644})
	}
	for _, folder := range []string{"man1", "completions"} {
		files, err := filepath.Glob(filepath.Join(manual, folder, "*"))
		if err != nil || len(files) == 0 {
			return nil, fmt.Errorf("%s: no %s there", manual, folder)
		}
		for _, file := range files { // sorted by Glob
			text, err := os.ReadFile(file)
			if err != nil {
				return nil, err
			}
			parts = append(parts, part{path.Join(folder, filepath.Base(file)), text, 0o644})
		}
	}
	return parts, nil
}

// build gives the program of a system, and the licences of what is in it.
func build(system, machine string) ([]part, error) {
	folder, err := os.MkdirTemp("", "coilwalk-release-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	env := []string{"GOOS=" + system, "GOARCH=" + machine, "CGO_ENABLED=0", "GOFLAGS="}
	name := "coilwalk"
	if system == "windows" {
		name += ".exe"
	}
	file := filepath.Join(folder, name)
	cmd := exec.Command("go", "build", "-trimpath", "-buildvcs=true", "-ldflags=-s -w -buildid=", "-o", file, "./cmd/coilwalk")
	cmd.Env, cmd.Stderr = append(os.Environ(), env...), os.Stderr
	if err := cmd.Run(); err != nil {
		return nil, err
	}
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	modules, err := modules(env, "./cmd/coilwalk")
	if err != nil {
		return nil, err
	}
	var notices bytes.Buffer
	fmt.Fprintf(&notices, "What %s holds of others, and on what terms.\n", name)
	for _, m := range modules {
		fmt.Fprintf(&notices, "\n%s\n%s %s: %s\n\n%s\n", strings.Repeat("=", 72), m.path, m.version, m.licence, bytes.TrimSpace(m.text))
	}
	return []part{{name, text, 0o755}, {"THIRD-PARTY.txt", notices.Bytes(), 0o644}}, nil
}

// A module is one that we build on.
type module struct {
	path, version, licence string
	text                   []byte // of its licence
}

// modules lists those that packages are built from, the standard library too.
func modules(env []string, args ...string) ([]module, error) {
	cmd := exec.Command("go", append([]string{"list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}} {{.Dir}}{{end}}{{end}}"}, args...)...)
	cmd.Env, cmd.Stderr = append(os.Environ(), env...), os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, err
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	root, err := said("go", "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	version, err := said("go", "env", "GOVERSION")
	if err != nil {
		return nil, err
	}
	lines = append(lines, "std "+version+" "+root)
	slices.Sort(lines)
	var all []module
	for _, line := range slices.Compact(lines) {
		parts := strings.SplitN(line, " ", 3)
		if len(parts) < 3 {
			continue
		}
		m := module{path: parts[0], version: parts[1]}
		if m.licence, m.text, err = licence(parts[2]); err != nil {
			return nil, fmt.Errorf("%s: %w", m.path, err)
		}
		all = append(all, m)
	}
	return all, nil
}

// known are phrases that only the one licence has. All but the last may be linked
// into a program under MIT when their text goes with it; that one would ask for
// more than that, and is for tests only.
var known = []struct{ name, phrase string }{
	{"Apache-2.0", "Apache License"},
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy of this software and"},
	{"BSD-3-Clause", "endorse or promote products"},
	{"BSD-2-Clause", "Redistributions in binary form must reproduce"},
	{"MIT, said in its README", "## License MIT ##"},
	{"FTL", "Freetype-Go software is subject to your choice of exactly one"},
	{"OFL-1.1", "SIL OPEN FONT LICENSE Version 1.1"},
	{"CC-BY-4.0", "Creative Commons Attribution 4.0 International"},
	{"MPL-2.0", "Mozilla Public License"},
}

// licence names the licences of a module, and gives their whole text with the
// notices that have to go along: fonts have one beside that of their code.
func licence(folder string) (string, []byte, error) {
	var files []string
	for _, pattern := range []string{"LICEN[SC]E*", "NOTICE*", "PATENTS*"} {
		some, err := filepath.Glob(filepath.Join(folder, pattern))
		if err != nil {
			return "", nil, err
		}
		files = append(files, some...)
	}
	if len(files) == 0 {
		files = []string{filepath.Join(folder, "README.md")}
	}
	if chosen := filepath.Join(folder, "licenses", "ftl.txt"); exists(chosen) { // of the two that are offered
		files = append(files, chosen)
	}
	var text []byte
	for _, file := range files {
		more, err := os.ReadFile(file)
		if err != nil {
			return "", nil, fmt.Errorf("it has no licence: %w", err)
		}
		text = append(append(text, bytes.TrimSpace(more)...), "\n\n"...)
	}
	words := strings.Join(strings.Fields(string(text)), " ")
	var names []string
	for _, l := range known {
		if strings.Contains(words, l.phrase) && !(l.name == "BSD-2-Clause" && slices.Contains(names, "BSD-3-Clause")) {
			names = append(names, l.name)
		}
	}
	if len(names) == 0 {
		return "", nil, fmt.Errorf("its licence is none of those that are known here: %.80s", words)
	}
	return strings.Join(names, " and "), text, nil
}

func exists(file string) bool {
	_, err := os.Stat(file)
	return err == nil
}

// judgeLicences holds the table in a document against every module that is built
// on, by the tests too: each has its line with its licence, and no line is of
// none. It fails on a licence that is not known.
func judgeLicences(document string) error {
	linked, all := map[string]bool{}, map[string]module{}
	for _, system := range systems {
		env := []string{"GOOS=" + system}
		program, err := modules(env, "./cmd/coilwalk")
		if err != nil {
			return err
		}
		for _, m := range program {
			if strings.Contains(m.licence, known[len(known)-1].name) {
				return fmt.Errorf("%s is under %s, and must stay out of the program", m.path, m.licence)
			}
			linked[m.path] = true
		}
		tests, err := modules(env, "-test", "./...")
		if err != nil {
			return err
		}
		for _, m := range append(program, tests...) {
			all[m.path] = m
		}
	}
	text, err := os.ReadFile(document)
	if err != nil {
		return err
	}
	told := map[string]bool{}
	for _, line := range strings.Split(string(text), "\n") {
		cells := strings.Split(line, " | ")
		if len(cells) == 4 && (cells[2] == "program" || cells[2] == "tests") {
			told[strings.Join(cells[:3], " | ")+" |"] = strings.Trim(cells[3], " |") != ""
		}
	}
	var wrong []string
	for p, m := range all {
		in := "tests"
		if linked[p] {
			in = "program"
		}
		line := fmt.Sprintf("| %s | %s | %s |", p, m.licence, in)
		switch why, there := told[line]; {
		case !there:
			wrong = append(wrong, "not in the table: "+line)
		case !why:
			wrong = append(wrong, "no reason given: "+line)
		}
		delete(told, line)
	}
	for line := range told {
		wrong = append(wrong, "nothing is built on: "+line)
	}
	if len(wrong) > 0 {
		slices.Sort(wrong)
		return fmt.Errorf("%s: the modules and their licences are not as told:\n%s", document, strings.Join(wrong, "\n"))
	}
	fmt.Printf("%d modules, each with its reason and its licence\n", len(all))
	return nil
}

func said(name string, args ...string) (string, error) {
	cmd := exec.Command(name, args...)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	return strings.TrimSpace(string(out)), err
}

func tarred(folder string, parts []part, when time.Time) ([]byte, error) {
	var out bytes.Buffer
	packed, _ := gzip.NewWriterLevel(&out, gzip.BestCompression) // its head is without time or name
	w := tar.NewWriter(packed)
	for _, p := range parts {
		if err := w.WriteHeader(&tar.Header{Name: path.Join(folder, p.name), Mode: p.mode, Size: int64(len(p.text)), ModTime: when, Format: tar.FormatUSTAR}); err != nil {
			return nil, err
		}
		if _, err := w.Write(p.text); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	err := packed.Close()
	return out.Bytes(), err
}

func zipped(folder string, parts []part, when time.Time) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, p := range parts {
		w, err := z.CreateHeader(&zip.FileHeader{Name: path.Join(folder, p.name), Method: zip.Deflate, Modified: when})
		if err != nil {
			return nil, err
		}
		if _, err := io.Copy(w, bytes.NewReader(p.text)); err != nil {
			return nil, err
		}
	}
	err := z.Close()
	return out.Bytes(), err
}
