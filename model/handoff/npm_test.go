package handoff

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha512"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// pinned is a package of npm that a check runs, one and no other: its tarball is
// known by its hash, and is neither unpacked nor run before that was seen.
type pinned struct{ name, version, integrity string }

// leastNode is the oldest node that the pinned packages run under: the one of
// Debian 12.
const leastNode = 18

// pinnedPackages gives the list: a line for each with name, exact version and
// integrity, as a lock file of npm has it: sha512- and base64.
func pinnedPackages(t *testing.T) map[string]pinned {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(references, "npm", "PACKAGES.txt"))
	if err != nil {
		t.Fatal(err)
	}
	packages := map[string]pinned{}
	for n, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		words := strings.Fields(line)
		if len(words) != 3 || !strings.HasPrefix(words[2], "sha512-") {
			t.Fatalf("PACKAGES.txt:%d: %q; a line is name, version, sha512-...", n+1, line)
		}
		if _, twice := packages[words[0]]; twice {
			t.Fatalf("PACKAGES.txt:%d: %s is there already", n+1, words[0])
		}
		packages[words[0]] = pinned{words[0], words[1], words[2]}
	}
	return packages
}

// choose gives the named ones.
func choose(t *testing.T, names []string) []pinned {
	t.Helper()
	packages := pinnedPackages(t)
	var chosen []pinned
	for _, name := range names {
		p, there := packages[name]
		if !there {
			t.Fatalf("%s is not in PACKAGES.txt", name)
		}
		chosen = append(chosen, p)
	}
	return chosen
}

// install puts the named packages under folder/node_modules, as they came and
// without running anything of theirs. What they need has to be named too.
func install(t *testing.T, folder string, names ...string) {
	t.Helper()
	if err := nodeWillDo(string(shell(t, ".", "node --version"))); err != nil {
		t.Fatal(err)
	}
	for _, p := range choose(t, names) {
		if err := unpack(p.tarball(t), filepath.Join(folder, "node_modules", filepath.FromSlash(p.name))); err != nil {
			t.Fatalf("%s: %v", p.name, err)
		}
	}
}

// nodeWillDo judges what node says of its version: v20.1.2.
func nodeWillDo(said string) error {
	var major int
	if _, err := fmt.Sscanf(said, "v%d.", &major); err != nil || major < leastNode {
		return fmt.Errorf("node says that it is %q; %d or later is needed (Debian: nodejs)", strings.TrimSpace(said), leastNode)
	}
	return nil
}

// tarball gives the package as npm packs it, of the registry that npm is set to,
// or as it was kept from another run. Both have to have the hash.
func (p pinned) tarball(t *testing.T) []byte {
	t.Helper()
	cache, err := os.UserCacheDir()
	if err != nil {
		t.Fatal(err)
	}
	kept := filepath.Join(cache, "coilwalk-tests", strings.ReplaceAll(p.name, "/", "-")+"-"+p.version+".tgz")
	if text, err := os.ReadFile(kept); err == nil && p.check(text) == nil {
		return text
	}
	folder := t.TempDir()
	var aside strings.Builder
	pack := exec.Command("npm", "pack", "--silent", "--ignore-scripts", p.name+"@"+p.version)
	pack.Dir, pack.Stderr = folder, &aside
	if err := pack.Run(); err != nil {
		t.Fatalf("npm pack %s@%s: %v\n%s", p.name, p.version, err, aside.String())
	}
	found, err := filepath.Glob(filepath.Join(folder, "*.tgz"))
	if err != nil || len(found) != 1 {
		t.Fatalf("npm pack %s@%s left %q, want one tarball", p.name, p.version, found)
	}
	text, err := os.ReadFile(found[0])
	if err != nil {
		t.Fatal(err)
	}
	if err := p.check(text); err != nil {
		t.Fatal(err)
	}
	keep(t, kept, text)
	return text
}

// keep moves a whole file to its place, for two runs may fetch it at once.
func keep(t *testing.T, name string, text []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	f, err := os.CreateTemp(filepath.Dir(name), "part-*")
	if err != nil {
		t.Fatal(err)
	}
	_, err = f.Write(text)
	if err := errors.Join(err, f.Close()); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(f.Name(), name); err != nil {
		t.Fatal(err)
	}
}

// check says that a tarball is not the one that is pinned.
func (p pinned) check(tarball []byte) error {
	sum := sha512.Sum512(tarball)
	if is := "sha512-" + base64.StdEncoding.EncodeToString(sum[:]); is != p.integrity {
		return fmt.Errorf("%s@%s is %s; %s is pinned", p.name, p.version, is, p.integrity)
	}
	return nil
}

// unpack writes the files of a tarball into folder, without the folder that they
// are in there.
func unpack(tarball []byte, folder string) error {
	whole, err := gzip.NewReader(bytes.NewReader(tarball))
	if err != nil {
		return err
	}
	files := tar.NewReader(whole)
	for {
		head, err := files.Next()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		_, name, inside := strings.Cut(head.Name, "/")
		if head.Typeflag != tar.TypeReg {
			continue
		}
		if !inside || !filepath.IsLocal(name) {
			return fmt.Errorf("a file at %q, which is outside of its package", head.Name)
		}
		text, err := io.ReadAll(files)
		if err != nil {
			return err
		}
		place := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(place), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(place, text, 0o600); err != nil {
			return err
		}
	}
}

// What is not as pinned is refused, whoever made it, and an old node is named
// before anything is run under it.
func TestPinned(t *testing.T) {
	one := pinned{"one", "1.0.0", "sha512-z4PhNX7vuL3xVChQ1m2AB9Yg5AULVxXcg/SpIdNs6c5H0NE8XYXysP+DGNKHfuwvY7kxvUdBeoGlODJ6+SfaPg=="} // of nothing at all, FIPS 180-4
	if err := one.check(nil); err != nil {
		t.Error(err)
	}
	if err := one.check([]byte("x")); err == nil || !strings.Contains(err.Error(), "one@1.0.0 is sha512-") {
		t.Errorf("another tarball: %v", err)
	}
	for said, good := range map[string]bool{"v18.19.0\n": true, "v20.20.2\n": true, "v17.9.1\n": false, "": false, "20.1": false} {
		if err := nodeWillDo(said); (err == nil) != good {
			t.Errorf("node %q: %v", said, err)
		}
	}
	for _, name := range []string{"package/../../x", "/x", "x"} {
		var text bytes.Buffer
		squeezed := gzip.NewWriter(&text)
		files := tar.NewWriter(squeezed)
		if err := errors.Join(files.WriteHeader(&tar.Header{Name: name, Typeflag: tar.TypeReg, Size: 0, Mode: 0o600}), files.Close(), squeezed.Close()); err != nil {
			t.Fatal(err)
		}
		folder := filepath.Join(t.TempDir(), "in")
		err := unpack(text.Bytes(), folder)
		if made, _ := filepath.Glob(filepath.Join(filepath.Dir(folder), "x")); len(made) > 0 || name != "/x" && err == nil {
			t.Errorf("%q: %v, made %q", name, err, made)
		}
	}
	for _, p := range pinnedPackages(t) {
		if sum, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(p.integrity, "sha512-")); err != nil || len(sum) != sha512.Size {
			t.Errorf("%s: %q is no sha512 in base64", p.name, p.integrity)
		}
		if strings.Trim(p.version, "0123456789.-") != "" {
			t.Errorf("%s: %q is no exact version", p.name, p.version)
		}
	}
}
