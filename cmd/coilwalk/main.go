// Command coilwalk steps a small stepper motor's coils, forward and back, and
// says what each step does: see the README.
package main

import (
	"io"
	"os"

	_ "coilwalk/cmd/coilwalk/quits" // from the first moment on
	_ "coilwalk/view/appear"        // before the terminal library; see there
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run is the whole program but for the process around it.
func run(args []string, in io.Reader, out, errs io.Writer) (status int) {
	p := &program{in: in, out: &output{Writer: out}, errs: errs}
	defer func() {
		if r := recover(); r != nil {
			status = p.status(crash(r))
		}
	}()
	root := p.root()
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(p.out)
	root.SetErr(errs)
	return p.status(root.Execute())
}
