package files

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

func TestComplaint(t *testing.T) {
	for _, c := range []struct {
		complaint Complaint
		want      string
	}{
		{Complaint{File: "a.toml", Line: 3, Column: 5, What: "this is wrong", Right: "that is right"}, "a.toml:3:5: this is wrong; that is right"},
		{Complaint{File: "a.toml", Line: 3, What: "this is wrong", Right: "that is right"}, "a.toml:3: this is wrong; that is right"},
		{Complaint{File: "a.toml", What: "this is wrong"}, "a.toml: this is wrong"},
		{Complaint{What: "this is wrong", Right: "that is right"}, "this is wrong; that is right"}, // the command line
		{Complaint{What: "this is wrong"}, "this is wrong"},
		{Complaint{File: "a", Line: 0, Column: 7, What: "w"}, "a: w"}, // a column of no line is none
		{Complaint{File: "a", Line: 1, Column: 1, What: "w"}, "a:1:1: w"},
		{Complaint{File: "grün/ü.toml", Line: 12, Column: 100, What: "5 Ω"}, "grün/ü.toml:12:100: 5 Ω"},
		{Complaint{File: "a\x1b[2Jb", Line: 1, What: "c\nd", Right: "e\u202ef"}, `a\u001b[2Jb:1: c\u000ad; e\u202ef`},
	} {
		if got := c.complaint.Error(); got != c.want {
			t.Errorf("%+v:\ngot  %s\nwant %s", c.complaint, got, c.want)
		}
	}
}

// Commands tell a complaint from other errors by its type, through any wrap.
func TestComplaintIsFoundInAWrap(t *testing.T) {
	inner := &Complaint{File: "a", What: "w"}
	var c *Complaint
	if err := fmt.Errorf("outer: %w", inner); !errors.As(err, &c) || c != inner {
		t.Errorf("not found in %v", err)
	}
}

// Each part is cut by itself, so a long name does not hide what is wrong.
func TestComplaintOfLongParts(t *testing.T) {
	long := strings.Repeat("x", 10_000)
	c := Complaint{File: long, Line: 3, Column: 5, What: "what " + long, Right: "right " + long}
	got := c.Error()
	if len([]rune(got)) > 1300 {
		t.Errorf("a message of %d characters", len([]rune(got)))
	}
	for _, part := range []string{"…:3:5: what x", "…; right x"} {
		if !strings.Contains(got, part) {
			t.Errorf("no %q in %s", part, got)
		}
	}
}
