package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// manPage writes the help of a command as a page of the manual, in the man macros
// that every roff has. It holds ASCII alone, so that no encoding has to be guessed.
func manPage(c *cobra.Command, date string) string {
	var b strings.Builder
	name := strings.ReplaceAll(c.CommandPath(), " ", "-")
	fmt.Fprintf(&b, ".TH %q 1 %q coilwalk \"coilwalk manual\"\n", strings.ToUpper(name), date)
	fmt.Fprintf(&b, ".SH NAME\n%s \\- %s\n", roff(name), roff(lowered(c.Short)))
	fmt.Fprintf(&b, ".SH SYNOPSIS\n.B %s\n%s\n", roff(c.CommandPath()), roff(strings.TrimSpace(strings.TrimPrefix(c.UseLine(), c.CommandPath()))))
	b.WriteString(".SH DESCRIPTION\n" + roffText(c.Long))
	if c.HasAvailableSubCommands() {
		b.WriteString(".SH COMMANDS\n")
		for _, sub := range c.Commands() {
			if sub.IsAvailableCommand() {
				fmt.Fprintf(&b, ".TP\n.B %s\n%s\n", roff(sub.CommandPath()), roff(sub.Short))
			}
		}
	}
	b.WriteString(".SH OPTIONS\n" + roffOptions(c.NonInheritedFlags()) + roffOptions(c.InheritedFlags()))
	if c.Example != "" {
		b.WriteString(".SH EXAMPLES\n.nf\n" + roff(c.Example) + "\n.fi\n")
	}
	b.WriteString(".SH EXIT STATUS\n" + roffText(exits))
	b.WriteString(".SH ENVIRONMENT\n" + roffText(environment))
	if !c.HasParent() {
		b.WriteString(".SH FILES\n" + roffText(keptFiles))
		b.WriteString(".SH THE TERMINAL\n" + roffText(leftTerminal))
	}
	b.WriteString(".SH CAUTIONS\n" + roffText(cautions))
	if also := seeAlso(c); len(also) > 0 {
		b.WriteString(".SH SEE ALSO\n" + strings.Join(also, ",\n") + "\n")
	}
	return b.String()
}

// seeAlso names the pages beside, above and below.
func seeAlso(c *cobra.Command) (pages []string) {
	near := c.Commands()
	if c.HasParent() {
		near = append(append(near, c.Parent()), c.Parent().Commands()...)
	}
	for _, n := range near {
		if n != c && (n.IsAvailableCommand() || !n.HasParent()) {
			pages = append(pages, fmt.Sprintf(".BR %s (1)", roff(strings.ReplaceAll(n.CommandPath(), " ", "-"))))
		}
	}
	slices.Sort(pages)
	return slices.Compact(pages)
}

func roffOptions(set *pflag.FlagSet) string {
	var b strings.Builder
	set.VisitAll(func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		value, usage := pflag.UnquoteUsage(f)
		b.WriteString(".TP\n")
		if f.Shorthand != "" {
			fmt.Fprintf(&b, "\\fB\\-%s\\fR, ", f.Shorthand)
		}
		fmt.Fprintf(&b, "\\fB%s\\fR", roff("--"+f.Name))
		if value != "" {
			fmt.Fprintf(&b, " \\fI%s\\fR", roff(value))
		}
		if !slices.Contains([]string{"", "0", "false", "[]"}, f.DefValue) {
			usage += " (default " + f.DefValue + ")"
		}
		b.WriteString("\n" + roff(usage) + "\n")
	})
	return b.String()
}

// roffText sets paragraphs; lines that are indented stay as they are.
func roffText(text string) string {
	var b strings.Builder
	for i, paragraph := range strings.Split(strings.TrimSpace(text), "\n\n") {
		if i > 0 {
			b.WriteString(".PP\n")
		}
		if strings.HasPrefix(paragraph, " ") {
			paragraph = ".nf\n" + roff(paragraph) + "\n.fi"
		} else {
			paragraph = roff(paragraph)
		}
		b.WriteString(paragraph + "\n")
	}
	return b.String()
}

// roff keeps text from being taken for requests and escapes.
func roff(text string) string {
	var b strings.Builder
	start := true
	for _, r := range text {
		switch {
		case start && (r == '.' || r == '\''):
			b.WriteString(`\&` + string(r))
		case r == '\\':
			b.WriteString(`\e`)
		case r == '-':
			b.WriteString(`\-`)
		case r == '\'':
			b.WriteString(`\(aq`)
		case r > '~':
			fmt.Fprintf(&b, `\[u%04X]`, r)
		default:
			b.WriteRune(r)
		}
		start = r == '\n'
	}
	return b.String()
}

func lowered(text string) string { return strings.ToLower(text[:1]) + text[1:] }
