package view

import (
	"fmt"
	"runtime/debug"

	tea "github.com/charmbracelet/bubbletea"
)

// late is what something that ran beside the screen came to.
type late interface{ arrive(e *Explorer) }

// later runs something beside the screen; its message is a late one. A fault of
// ours in it is brought here, where the terminal is put back for it.
func (e *Explorer) later(run func() late) {
	e.pending = append(e.pending, func() (msg tea.Msg) {
		defer func() {
			if r := recover(); r != nil {
				msg = broken{r, debug.Stack()}
			}
		}()
		return run()
	})
}

// broken is a fault of ours beside the screen.
type broken struct {
	what  any
	where []byte
}

func (b broken) arrive(*Explorer) { panic(b) }
func (b broken) String() string   { return fmt.Sprint(b.what) }

// Trace tells where the fault was met, for the place where it is raised anew says
// nothing.
func (b broken) Trace() []byte { return b.where }
