// Command empty is an empty program on the same terminal library, with the same
// options and the same start: what coilwalk's first frame is measured against.
package main

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	_ "coilwalk/view/appear"
)

type empty struct{ w, h int }

func (e empty) Init() tea.Cmd { return nil }

func (e empty) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		e.w, e.h = msg.Width, msg.Height
	case tea.KeyMsg:
		return e, tea.Quit
	}
	return e, nil
}

func (e empty) View() string {
	if e.h == 0 {
		return ""
	}
	return "ready" + strings.Repeat("\n", e.h-1)
}

func main() {
	p := tea.NewProgram(empty{}, tea.WithAltScreen(), tea.WithFPS(30), tea.WithoutSignalHandler(), tea.WithoutCatchPanics())
	if _, err := p.Run(); err != nil {
		panic(err)
	}
}
