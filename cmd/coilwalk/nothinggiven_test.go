package main

import (
	"io"
	"strings"
	"testing"

	"github.com/spf13/pflag"
)

// An option that is given nothing is never taken for one that was left out.
func TestNothingGiven(t *testing.T) {
	t.Parallel()
	for _, args := range [][]string{
		{"rates", "--curve", "--plot", ""}, {"write", "c", "--out", ""}, {"write", "c", "--wiring", ""}, {"order", "--motor", ""}, {"power", "--stage", ""},
		{"check", "../../testdata/tables/good/slices.go", "--wiring="}, {"live", "--rehearse", "--record", ""}, {"--plain", "--motor="},
	} {
		call(t, "next\n", args...).complains(t, " is given nothing; ", " is wanted after it, or leave it out")
	}
	call(t, "", "rates", "--curve", "--plot", "").complains(t, "--plot is given nothing; a name is wanted")
	tried := 0
	var each func(path []string)
	each = func(path []string) {
		p := &program{in: strings.NewReader(""), out: &output{Writer: io.Discard}, errs: io.Discard}
		c, _, err := p.root().Find(path)
		if err != nil {
			t.Fatal(path, err)
		}
		c.Flags().VisitAll(func(f *pflag.Flag) {
			if f.Value.Type() != "string" || f.Name == "help" {
				return
			}
			tried++
			one, _, _ := p.root().Find(path)
			if err := one.Flags().Set(f.Name, ""); err != nil {
				t.Error(path, f.Name, err)
			}
			if err := noneEmpty(one, nil); err == nil || !strings.Contains(err.Error(), "--"+f.Name+" is given nothing") {
				t.Errorf("%v --%s: %v", path, f.Name, err)
			}
			for at := one; at != nil; at = at.Parent() { // else its own would be asked instead of the root's
				if at.HasParent() && (at.PersistentPreRunE != nil || at.PersistentPreRun != nil) {
					t.Errorf("%s has a hook of its own", at.CommandPath())
				}
			}
		})
		for _, sub := range c.Commands() {
			each(append(append([]string(nil), path...), sub.Name()))
		}
	}
	each(nil)
	if tried < 30 {
		t.Errorf("only %d options were tried", tried)
	}
}
