package table

import (
	"fmt"
	"strings"

	"coilwalk/model/files"
)

// Only keeps the table of a name; all of them when the name is "".
func (s *Source) Only(file, name string) error {
	if name == "" {
		return nil
	}
	var kept []Table
	var names []string
	for _, t := range s.Tables {
		names = append(names, t.Name)
		if t.Name == name {
			kept = append(kept, t)
		}
	}
	if kept == nil {
		return &files.Complaint{File: file, What: fmt.Sprintf("no table here is called %s", files.Quoted(name)), Right: "there are " + strings.Join(names, ", ")}
	}
	s.Tables, s.Skipped = kept, nil
	return nil
}

// Judge holds every table against a question. Where some of them are step
// tables, sound or with a fault that can be named, an array that follows no
// order at all is taken for something else, and goes to what was skipped.
func (s *Source) Judge(q Question) []Verdict {
	var verdicts, hopeless []Verdict
	for i := range s.Tables {
		if v := Judge(&s.Tables[i], q); v.hopeless() {
			hopeless = append(hopeless, v)
		} else {
			verdicts = append(verdicts, v)
		}
	}
	if len(verdicts) == 0 {
		return hopeless
	}
	for _, v := range hopeless {
		s.Skipped = append(s.Skipped, Skipped{Name: v.Table.Name, Line: v.Table.Line, Why: "its rows follow no order of coils, so it is taken for something else; --table " + v.Table.Name + " judges it all the same"})
	}
	return verdicts
}

// hopeless says that no order can be seen in a table.
func (v *Verdict) hopeless() bool {
	if v.Sound || len(v.Faults) == 0 {
		return false
	}
	switch v.Faults[0].Kind {
	case "no-order":
		return true
	case "wrong-row", "no-field", "both-ends-on", "skipped-row", "repeated-row", "rows-exchanged":
		return 3*len(v.Faults) > len(v.Rows) && v.Mode != mixed
	}
	return false
}
