package view

import (
	"fmt"
	"strings"
	"testing"
)

// A fault beside the screen is raised where the terminal is put back, and still
// tells where it was met.
func TestAFaultBesideTheScreenTellsWhereItWas(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	e.later(func() late { return faulty() })
	msg := e.pending[0]()
	defer func() {
		r := recover()
		if fmt.Sprint(r) != "of ours" {
			t.Errorf("raised anew as %v", r)
		}
		if met, ok := r.(interface{ Trace() []byte }); !ok || !strings.Contains(string(met.Trace()), "faulty") {
			t.Error("where it was met is lost")
		}
	}()
	e.Update(msg)
}

func faulty() late { panic("of ours") }
