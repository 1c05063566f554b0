package handoff

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// outside is a run of programs that are not ours on what we wrote. What came of
// it was recorded, so that go test needs only Go: below a head with the command,
// the version of the tool and the SHA-256 of all that it was given. With
// COILWALK_TOOLS=required it runs anew, and has to say the same to the letter;
// COILWALK_RECORD=1 writes what it says to the recording.
type outside struct {
	name    string            // of the recording
	given   map[string][]byte // files by their names
	sources []string          // of ours under testdata/reference, given as they are
	npm     []string          // packages of npm/PACKAGES.txt, under node_modules
	command string            // for sh, in a folder with the files
	version string            // for sh
	result  string            // the file that counts; "" for what was printed
}

const references = "../../testdata/reference"

// said gives what came of the run, once it is known to belong to what would be
// given today.
func (o *outside) said(t *testing.T) []byte {
	t.Helper()
	files := map[string][]byte{}
	for name, text := range o.given {
		files[name] = text
	}
	for _, name := range o.sources {
		text, err := os.ReadFile(filepath.Join(references, name))
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Base(name)] = text
	}
	hash := o.hash(t, files)
	recording := filepath.Join(references, o.name+".txt")
	required, record := os.Getenv("COILWALK_TOOLS") == "required", os.Getenv("COILWALK_RECORD") != ""
	var live []byte
	if required || record {
		live = o.run(t, files)
	}
	if record {
		head := fmt.Sprintf("# command: %s\n# version: %s\n# SHA-256 of the input: %s\n", o.command, firstLine(string(shell(t, ".", o.version))), hash)
		if err := os.WriteFile(recording, append([]byte(head), live...), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(recording)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(text, []byte("\n# SHA-256 of the input: "+hash+"\n")) {
		t.Fatalf("%s is out of date: the input of today has the hash %s; .ci/record renews it", recording, hash)
	}
	for range 3 {
		_, text, _ = bytes.Cut(text, []byte("\n"))
	}
	if !required {
		t.Logf("%s: recorded", o.name)
		return text
	}
	if !bytes.Equal(live, text) {
		t.Errorf("%s: a new run says something else than the recording:\n%s", o.name, live)
	}
	t.Logf("%s: live", o.name)
	return live
}

// hash is over the command, the names and texts of the files, and the packages.
func (o *outside) hash(t *testing.T, files map[string][]byte) string {
	t.Helper()
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	h := sha256.New()
	fmt.Fprintf(h, "%s\n", o.command)
	for _, name := range names {
		fmt.Fprintf(h, "%s %d\n%s", name, len(files[name]), files[name])
	}
	for _, p := range choose(t, o.npm) {
		fmt.Fprintf(h, "%s %s %s\n", p.name, p.version, p.integrity)
	}
	return fmt.Sprintf("%x", h.Sum(nil))
}

func (o *outside) run(t *testing.T, files map[string][]byte) []byte {
	t.Helper()
	folder := t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(folder, name), text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if len(o.npm) > 0 {
		install(t, folder, o.npm...)
	}
	printed := shell(t, folder, o.command)
	if o.result == "" {
		return printed
	}
	text, err := os.ReadFile(filepath.Join(folder, o.result))
	if err != nil {
		t.Fatalf("%v\n%s", err, printed)
	}
	return text
}

// shell gives what a command prints; what it says on standard error, or a
// status, fails the test.
func shell(t *testing.T, folder, command string) []byte {
	t.Helper()
	c := exec.Command("sh", "-c", command)
	c.Dir = folder
	var out, aside strings.Builder
	c.Stdout, c.Stderr = &out, &aside
	if err := c.Run(); err != nil || aside.Len() > 0 {
		t.Fatalf("%s: %v\n%s", command, err, aside.String())
	}
	return []byte(out.String())
}
