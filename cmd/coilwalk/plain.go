package main

import (
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"coilwalk/cmd/coilwalk/quits"
	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/view"
	"coilwalk/view/plain"
)

// said is what was opened, for the line mode.
func said(b *bench.Bench, o view.Opened) plain.Sitting {
	return plain.Sitting{Bench: b, Table: o.Checked, Readings: o.Readings, Recording: o.Recorded}
}

// again opens another file within a sitting, or a motor by its name or file. What
// can not be opened leaves the motor as it was.
func (x *explorer) again(c *cobra.Command) func(name string) (plain.Sitting, error) {
	return func(name string) (plain.Sitting, error) {
		args := []string{name}
		flag := c.Flags().Lookup("motor")
		was, changed := x.motorName, flag.Changed
		c.Flags().Lookup("mode").Changed = false // it was for the beginning; a table is walked as it is
		if _, builtIn := motor.BuiltIn(name); builtIn || strings.EqualFold(filepath.Ext(name), ".toml") {
			x.motorName, flag.Changed, args = name, true, nil
		}
		b, o, err := x.sit(c, args)
		if err != nil {
			x.motorName, flag.Changed = was, changed
		}
		return said(b, o), err
	}
}

// speak runs the line mode on a real motor. A signal, as everything else that ends
// it, switches off first.
func (x *explorer) speak(m *plain.Mode) (err error) {
	signals := make(chan os.Signal, 4)
	signal.Notify(signals, endings...)
	quits.InOrder()
	defer signal.Stop(signals)
	ended, done := make(chan struct{}), make(chan struct{})
	defer close(done)
	var by syscall.Signal
	go func() {
		for {
			select {
			case s := <-signals:
				x.ends("coilwalk was ended or suspended by a signal")
				if suspends(s) {
					stop()
					continue
				}
				by, _ = s.(syscall.Signal)
				close(ended)
			case <-done:
			}
			return
		}
	}()
	m.Live.Ended = ended
	defer func() {
		if r := recover(); r != nil {
			x.ends("a fault of coilwalk itself")
			err = crash(r)
		}
	}()
	err = m.Run(x.in, x.out)
	select {
	case <-ended:
		return signalled{by}
	default:
		return err
	}
}
